// Chromium's own trace of a stretch of the page's life, and how much work of which kind lies between two marks in it.

// Few, as every event that is recorded costs time itself.
const CATEGORIES = [
  "devtools.timeline",
  "blink.user_timing",
  "disabled-by-default-devtools.timeline",
  "disabled-by-default-devtools.timeline.frame",
];
/** The trace's names of the kinds of work. What is nested in an event and has a kind of its own counts there. */
const KINDS = {
  script: ["EventDispatch", "FireAnimationFrame", "FunctionCall", "RunMicrotasks", "ParseHTML", "MinorGC", "MajorGC"],
  style: ["UpdateLayoutTree"],
  layout: ["Layout"],
  paint: ["PrePaint", "Paint", "Layerize", "UpdateLayer", "Commit"],
};
const KIND_OF = new Map(Object.entries(KINDS).flatMap(([kind, names]) => names.map((name) => [name, kind])));
const TASK = "RunTask";
/** Timers during a step are the measuring's own; the page's fire once it rests. */
const TIMER = "TimerFire";
/** The event by which the measuring moves the slider. */
const isMove = ({ name, args }) => name === "EventDispatch" && args.data?.type === "input";
const FRAME = "PipelineReporter";

/** Records while `act` runs; the trace's events, and what `act` returned. */
export async function traced(browser, page, act) {
  await browser.startTracing(page, { categories: CATEGORIES });
  const result = await act();
  const { traceEvents } = JSON.parse((await browser.stopTracing()).toString());
  return { events: traceEvents, result };
}

/**
 * For each stretch from one mark to the next, in milliseconds: all work of the page's own thread (`main`), the same
 * less whatever other programs took from it meanwhile (`processor`), the parts of the former by kind, and the time from the first frame's begin to its pixels on the screen (`shown`).
 */
export function stretches(events, mark) {
  const marks = events.filter((event) => event.name === mark).sort(byTime);
  const { pid, tid } = marks[0];
  const own = events.filter((event) => event.pid === pid && event.tid === tid && event.ph === "X");
  const found = marks.slice(1).map(() => ({ main: 0, processor: 0, script: 0, style: 0, layout: 0, paint: 0, shown: NaN }));
  // A task can begin before the mark that it makes.
  const stretchAt = (time) => found[marks.findLastIndex((begin) => begin.ts <= time)];
  const add = ({ ts, dur = 0 }, kind, time = dur) => {
    const stretch = stretchAt(ts + dur);
    if (stretch) stretch[kind] += time / 1000;
  };

  const work = workIn(own);
  for (const event of work) {
    add(event, "main");
    add(event, "processor", event.tdur ?? NaN);
  }
  const isWork = (event) => work.some((outer) => contains(outer, event));
  for (const { event, kind, time } of ownTimes(own.filter((event) => KIND_OF.has(event.name) && isWork(event)))) add(event, kind, time);
  const shownTimes = timesShown(events, pid);
  found.forEach((stretch, index) => {
    const inside = (name) => own.find((event) => event.name === name && event.ts >= marks[index].ts && event.ts < marks[index + 1].ts);
    const [begin, commit] = [inside("FireAnimationFrame"), inside("Commit")];
    const shown = commit && shownTimes.find((time) => time >= commit.ts + commit.dur);
    if (begin && shown) stretch.shown = (shown - begin.ts) / 1000;
  });
  return found;
}

function byTime(one, other) {
  return one.ts - other.ts || (other.dur ?? 0) - (one.dur ?? 0);
}

function contains(outer, inner) {
  return outer.ts <= inner.ts && inner.ts + inner.dur <= outer.ts + outer.dur;
}

/** The page's tasks, without those of the measuring but for the events they send. */
function workIn(events) {
  const timers = events.filter((event) => event.name === TIMER);
  const tasks = events.filter((event) => event.name === TASK && !timers.some((timer) => contains(event, timer)));
  const moves = events.filter((event) => isMove(event) && timers.some((timer) => contains(timer, event)));
  return [...tasks, ...moves];
}

/** Events with their time less that of the events nested in them. */
function ownTimes(events) {
  const open = [];
  return events.sort(byTime).map((event) => {
    const item = { event, kind: KIND_OF.get(event.name), time: event.dur };
    while (open.length > 0 && open.at(-1).event.ts + open.at(-1).event.dur <= event.ts) open.pop();
    if (open.length > 0) open.at(-1).time -= event.dur;
    open.push(item);
    return item;
  });
}

/** When frames reached the screen with everything that the page's thread had for them. */
function timesShown(events, pid) {
  const reports = events.filter((event) => event.name === FRAME && event.pid === pid).sort(byTime);
  const states = new Map();
  const times = [];
  for (const { ph, id2, args, ts } of reports) {
    if (args.frame_reporter) states.set(id2.local, args.frame_reporter.state);
    if (ph === "e" && states.get(id2.local) === "STATE_PRESENTED_ALL") times.push(ts);
  }
  return times;
}
