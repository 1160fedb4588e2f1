// What the bridge keeps inside each document: the values it holds on to, and scripts that are still at work.

/** How long a script may take before the driver is free for the next command; its answer is fetched later. */
const PATIENCE_MS = 40;

/** The source of a script that makes the document `id` ready. */
export function preparation(id) {
  return `(${prepare})(${JSON.stringify(id)}, ${PATIENCE_MS})`;
}

/**
 * The source of a script that calls `declaration` in the document `id`, or says that the document is gone.
 * @param {Map<string, string>} texts that the script may evaluate, each with its function's body
 */
export function call(id, declaration, texts) {
  const bodies = [...texts].map(([text, body]) => `[${JSON.stringify(text)}, () => ${body}]`);
  return inDocument(id, `{
    for (const [text, run] of [${bodies.join(",\n")}]) bridge.texts.set(text, run);
    bridge.run(${declaration}\n, arguments[0], arguments[1], done);
  }`);
}

/** The source of a script that waits for the answer of an earlier one. */
export function answer(id) {
  return inDocument(id, "bridge.collect(arguments[0], done)");
}

/** The source of a script that gives the driver the node behind a handle. */
export function node(id) {
  return inDocument(id, "done(bridge.handles.get(arguments[0]))");
}

function inDocument(id, body) {
  return `
    const done = arguments[arguments.length - 1];
    const bridge = globalThis[Symbol.for("tabwright.bridge")];
    if (bridge?.id !== ${JSON.stringify(id)}) done('{"isGone":true}');
    else ${body};`;
}

/** Runs inside the page. */
function prepare(id, patience) {
  // Taken now, as a test may put the page's clock in its own hands.
  const later = setTimeout.bind(globalThis);
  const handles = new Map();
  const handleOf = new WeakMap();
  const answers = new Map();
  const texts = new Map();
  const evaluate = globalThis.eval;
  const numbers = { NaN, Infinity, "-Infinity": -Infinity, "-0": -0 };
  let count = 0;

  function keep(value) {
    let handle = handleOf.get(value);
    if (!handle || !handles.has(handle)) {
      handle = `${id}/${++count}`;
      handles.set(handle, value);
      handleOf.set(value, handle);
    }
    return handle;
  }

  function read({ type, value, handle, sharedId }) {
    const kept = handle ?? sharedId;
    if (kept) {
      if (!handles.has(kept)) throw new Error(`no such handle: ${kept}`);
      return handles.get(kept);
    }
    switch (type) {
      case "undefined": return undefined;
      case "null": return null;
      case "number": return typeof value === "string" ? numbers[value] : value;
      case "bigint": return BigInt(value);
      case "array": return value.map(read);
      case "object": return Object.fromEntries(value.map(([key, part]) => [typeof key === "string" ? key : read(key), read(part)]));
      case "date": return new Date(value);
      case "regexp": return new RegExp(value.pattern, value.flags);
      default: return value;
    }
  }

  function written(value, depth) {
    if (value === null) return { type: "null" };
    switch (typeof value) {
      case "number": {
        const isPlain = Number.isFinite(value) && !Object.is(value, -0);
        return { type: "number", value: isPlain ? value : Object.is(value, -0) ? "-0" : String(value) };
      }
      case "bigint": return { type: "bigint", value: String(value) };
      case "object": break;
      default: return { type: typeof value, value: typeof value === "symbol" ? undefined : value };
    }
    if (value instanceof Node) {
      const { nodeType, localName, childNodes } = value;
      return { type: "node", sharedId: keep(value), value: { nodeType, localName, childNodeCount: childNodes.length } };
    }
    if (value === globalThis) return { type: "window", value: { context: id } };
    if (value instanceof Error) return { type: "error" };
    if (value instanceof Date) return { type: "date", value: value.toISOString() };
    if (value instanceof RegExp) return { type: "regexp", value: { pattern: value.source, flags: value.flags } };
    const isArray = Array.isArray(value);
    if (depth === 0) return { type: isArray ? "array" : "object" };
    const part = (inner) => written(inner, depth - 1);
    if (isArray) return { type: "array", value: value.map(part) };
    return { type: "object", value: Object.entries(value).map(([key, inner]) => [key, part(inner)]) };
  }

  function tell(done, told) {
    const watched = globalThis[Symbol.for("tabwright.watched")]?.splice(0);
    done(JSON.stringify({ ...told, watched }));
  }

  function valueTold(value, { isKept, depth }) {
    const result = written(value, depth ?? Infinity);
    if (isKept && value !== null && ["object", "function"].includes(typeof value)) result.handle = keep(value);
    return { result };
  }

  const bridge = {
    id,
    handles,
    texts,
    run(wanted, values, options, done) {
      let value;
      try {
        value = wanted(...values.map(read));
        if (typeof value?.then !== "function" || !options.waits) return tell(done, valueTold(value, options));
      } catch (error) {
        return tell(done, { fault: String(error) });
      }
      const answerId = ++count;
      const entry = { answer: null, settle: null };
      const settle = (answer) => {
        entry.answer = answer;
        entry.settle?.();
      };
      answers.set(answerId, entry);
      Promise.resolve(value).then((result) => valueTold(result, options)).catch((error) => ({ fault: String(error) })).then(settle);
      return bridge.collect(answerId, done);
    },
    collect(answerId, done) {
      const entry = answers.get(answerId);
      let isTold = false;
      const finish = () => {
        if (isTold) return;
        isTold = true;
        entry.settle = null;
        if (entry.answer) answers.delete(answerId);
        tell(done, entry.answer ?? { waitsFor: answerId });
      };
      entry.settle = finish;
      if (entry.answer) finish();
      else later(finish, patience);
    },
  };
  globalThis.eval = (text) => texts.has(text) ? texts.get(text)() : evaluate(text);
  Object.defineProperty(globalThis, Symbol.for("tabwright.bridge"), { value: bridge, configurable: true });
}
