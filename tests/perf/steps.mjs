// What the measured page does. These functions run inside the page, alone: each must bring all that it needs.

/** Before the page loads: adds up the time inside the geometry's functions, in `callTime` of the window. */
export function timeCalls(functions) {
  window.callTime = 0;
  const load = WebAssembly.instantiateStreaming;
  WebAssembly.instantiateStreaming = async (...input) => {
    const { instance, module } = await load(...input);
    const exports = { ...instance.exports };
    for (const name of functions.filter((name) => name in exports)) {
      exports[name] = (...values) => {
        const before = performance.now();
        try {
          return instance.exports[name](...values);
        } finally {
          window.callTime += performance.now() - before;
        }
      };
    }
    return { instance: { exports }, module };
  };
}

/**
 * Moves a slider there and back. Each step is marked in the trace and followed by a pause, so that none overlaps the next.
 * Returns the time inside the geometry's functions, step by step.
 */
export async function stepSlider({ key, steps, warmUp, mark }) {
  const slider = document.querySelector(`[data-field="${key}"] input[type=range]`);
  const [low, high, by] = [slider.min, slider.max, slider.step].map(Number);
  const span = Math.floor((high - low) / by);
  const pause = () => new Promise((resolve) => setTimeout(resolve, 20 + Math.random() * 17));
  const painted = () => new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
  const callTimes = [];
  for (let step = 0; step < warmUp + steps; step++) {
    const phase = step % (2 * span);
    await pause();
    window.callTime = 0;
    if (step >= warmUp) performance.mark(mark);
    slider.value = String(low + by * (phase < span ? phase : 2 * span - phase));
    slider.dispatchEvent(new Event("input", { bubbles: true }));
    await painted();
    if (step >= warmUp) callTimes.push(window.callTime);
  }
  await pause();
  performance.mark(mark);
  return callTimes;
}

/**
 * Moves a slider by one step in every frame from where it stands, as a steady drag does, for so many milliseconds. Returns
 * the frames' times.
 */
export function dragSlider({ key, duration, mark }) {
  const slider = document.querySelector(`[data-field="${key}"] input[type=range]`);
  const [low, high, by] = [slider.min, slider.max, slider.step].map(Number);
  const span = Math.floor((high - low) / by);
  const start = Math.round((Number(slider.value) - low) / by);
  const frames = [];
  return new Promise((resolve) => {
    const move = (now) => {
      frames.push(now);
      performance.mark(mark);
      if (now - frames[0] > duration) {
        resolve(frames);
        return;
      }
      const phase = (start + frames.length) % (2 * span);
      slider.value = String(low + by * (phase < span ? phase : 2 * span - phase));
      slider.dispatchEvent(new Event("input", { bubbles: true }));
      requestAnimationFrame(move);
    };
    requestAnimationFrame(move);
  });
}

/** Mean times per call of groups of calls, on rotors that differ; the browser's clock is too coarse for one call. */
export async function timeEachCall({ calls, together }) {
  const core = await import(new URL("./pkg/tabwright_wasm.js", location.href).href);
  await core.default();
  const setup = core.default_setup();
  const timesOf = (ask) => {
    const times = [];
    for (let call = 0; call < calls; call += together) {
      const before = performance.now();
      for (let index = 0; index < together; index++) {
        setup.wheel.rotor_diameter = 160 + ((call + index) % 60);
        if (!ask(setup).ok) throw new Error("refused");
      }
      times.push((performance.now() - before) / together);
    }
    return times;
  };
  return {
    'update(["side", "section"])': timesOf((input) => core.update(input, ["side", "section"])),
    "report()": timesOf(core.report),
    'drawing("side")': timesOf((input) => core.drawing(input, "side")),
    'drawing("section")': timesOf((input) => core.drawing(input, "section")),
    "ring()": timesOf(core.ring),
  };
}

/** The time of a whole what-if table, shortest dropouts included, asked cell by cell of the page's own search worker. */
export async function timeTables({ tables, rotors, hubs }) {
  const core = await import(new URL("./pkg/tabwright_wasm.js", location.href).href);
  await core.default();
  const setup = core.default_setup();
  const worker = new Worker(new URL("./js/search/worker.js", location.href), { type: "module" });
  const answered = (message) => new Promise((resolve) => {
    worker.onmessage = ({ data }) => resolve(data);
    worker.postMessage(message);
  });
  const times = [];
  for (let table = 0; table <= tables; table++) {
    const before = performance.now();
    for (const rotor of rotors) {
      for (const hub of hubs) {
        const { answer } = await answered({ id: 0, name: "what_if", input: [setup, rotor, hub, false, true, true] });
        if (!answer?.ok) throw new Error("refused");
      }
    }
    // The first has the worker start.
    if (table > 0) times.push(performance.now() - before);
  }
  worker.terminate();
  return times;
}
