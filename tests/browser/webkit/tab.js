// One page of WebKit: carries out what concerns a single page, and tells of its documents as they come and go.
import { Script } from "node:vm";
import { setTimeout as pause } from "node:timers/promises";
import { answer, call, node, preparation } from "./in-page.js";
import { readFile } from "node:fs/promises";

const WATCH = await readFile(new URL("./watch.js", import.meta.url), "utf8");
const RESIZE_TRIES = 500;
const RESIZE_LOOK_MS = 20;
const CODE = /[()=;+]/;
const SANDBOX = "__playwright_utility_world__";

export class Tab {
  #session;
  #window;
  #tell;
  #document = null;
  #count = 0;
  id;
  userContext;
  preloads = new Map();

  static async open(session, id, userContext, isFirst, tell) {
    const tab = new Tab();
    tab.#session = session;
    tab.#tell = tell;
    tab.id = id;
    tab.userContext = userContext;
    tab.#window = await session.inTurn(async (send) => {
      if (isFirst) return send("GET", "/window");
      return (await send("POST", "/window/new", {})).handle;
    });
    return tab;
  }

  /** Sends commands to this page's window. */
  #inTurn(commands) {
    return this.#session.inTurn(async (send) => {
      if (this.#session.window !== this.#window) await send("POST", "/window", { handle: this.#window });
      this.#session.window = this.#window;
      return commands(send);
    });
  }

  async begin() {
    const { id: context, userContext } = this;
    this.#tell("browsingContext.contextCreated", { context, userContext, url: "about:blank", parent: null, children: null, originalOpener: null });
    await this.#inTurn((send) => this.#prepare(send));
    this.#tellOfDocument();
  }

  destroyed() {
    this.#tell("browsingContext.contextDestroyed", { context: this.id, parent: null });
  }

  async close() {
    await this.#inTurn((send) => send("DELETE", "/window"));
    this.#session.window = null;
    this.destroyed();
  }

  /** Makes the document that is there now ready for scripts. */
  async #prepare(send) {
    const id = `${this.id}#${++this.#count}`;
    await send("POST", "/execute/sync", { script: `${WATCH}\n${preparation(id)}`, args: [] });
    for (const { functionDeclaration, values } of this.preloads.values()) {
      await this.#run(send, id, functionDeclaration, values, {});
    }
    this.#document = id;
  }

  #tellOfDocument() {
    const shared = { type: "window", context: this.id, origin: "" };
    this.#tell("script.realmCreated", { ...shared, realm: this.#document });
    this.#tell("script.realmCreated", { ...shared, realm: `${this.#document}#sandbox`, sandbox: SANDBOX });
  }

  /** Tells that the document has given way to another, which is made ready. */
  async #changeDocument(send, navigation) {
    const context = this.id;
    const old = this.#document;
    await this.#prepare(send);
    const url = await send("GET", "/url");
    const event = { context, navigation, url, timestamp: Date.now() };
    this.#tell("browsingContext.navigationCommitted", event);
    for (const realm of [old, `${old}#sandbox`]) this.#tell("script.realmDestroyed", { realm });
    this.#tellOfDocument();
    this.#tell("browsingContext.domContentLoaded", event);
    this.#tell("browsingContext.load", event);
    return url;
  }

  /** Goes to `url`, or loads the page again where there is none. */
  async navigate(url) {
    const context = this.id;
    const navigation = `${context}-to-${this.#count}`;
    this.#tell("browsingContext.navigationStarted", { context, navigation, url: url ?? "", timestamp: Date.now() });
    try {
      return await this.#inTurn(async (send) => {
        if (url === null) await send("POST", "/refresh", {});
        else await send("POST", "/url", { url });
        return { navigation, url: await this.#changeDocument(send, navigation) };
      });
    } catch (error) {
      this.#tell("browsingContext.navigationFailed", { context, navigation, url: url ?? "", timestamp: Date.now() });
      throw error;
    }
  }

  evaluate({ expression, resultOwnership, serializationOptions, awaitPromise }) {
    return this.#script(`() => ${body(expression)}`, [], { resultOwnership, serializationOptions, awaitPromise });
  }

  callFunction({ functionDeclaration, arguments: values, ...options }) {
    return this.#script(functionDeclaration, values, options);
  }

  async #script(declaration, values, { resultOwnership, serializationOptions = {}, awaitPromise }) {
    const options = { isKept: resultOwnership === "root", depth: serializationOptions.maxObjectDepth, waits: awaitPromise };
    const realm = this.#document;
    let told = await this.#inTurn((send) => this.#runOrMove(send, realm, (id) => this.#run(send, id, declaration, values, options)));
    while (told.waitsFor) {
      const { waitsFor } = told;
      told = await this.#inTurn((send) => this.#runOrMove(send, realm, (id) => this.#execute(send, answer(id), [waitsFor])));
    }
    if (told.fault !== undefined) return { type: "exception", realm, exceptionDetails: { text: told.fault } };
    return { type: "success", realm, result: told.result };
  }

  /** Runs a script in the document it was meant for; when that is gone, tells so. */
  async #runOrMove(send, realm, run) {
    if (this.#document === realm) {
      const told = await run(realm);
      if (!told.isGone) return told;
      const navigation = `${this.id}-own-${this.#count}`;
      this.#tell("browsingContext.navigationStarted", { context: this.id, navigation, url: "", timestamp: Date.now() });
      await this.#changeDocument(send, navigation);
    }
    throw Object.assign(new Error("the document is gone"), { kind: "no such frame" });
  }

  #run(send, id, declaration, values, options) {
    return this.#execute(send, call(id, declaration, functionsIn(values)), [values, options]);
  }

  async #execute(send, script, args) {
    let told;
    try {
      told = JSON.parse(await send("POST", "/execute/async", { script, args }));
    } catch (error) {
      if (error.kind === "unexpected alert open") {
        // The driver has closed it by now.
        this.#tellOfDialog(error);
        return this.#execute(send, script, args);
      }
      const isThere = await send("POST", "/execute/sync", { script: `return ${JSON.stringify(this.#document)} === globalThis[Symbol.for("tabwright.bridge")]?.id`, args: [] });
      if (!isThere) return { isGone: true };
      throw error;
    }
    for (const note of told.watched ?? []) this.#tellOf(note);
    return told;
  }

  #tellOfDialog({ data, message }) {
    this.#tell("browsingContext.userPromptOpened", { context: this.id, type: "alert", message: data?.text ?? message, defaultValue: "" });
  }

  #tellOf({ kind, level, text, url }) {
    const context = this.id;
    const source = { realm: this.#document, context };
    const timestamp = Date.now();
    if (kind === "fault") this.#tell("log.entryAdded", { type: "javascript", level: "error", text, source, timestamp });
    if (kind === "console") {
      this.#tell("log.entryAdded", { type: "console", level, method: level, text, args: [{ type: "string", value: text }], source, timestamp });
    }
    if (kind === "request") {
      const request = { request: `request-${++this.#count}`, url, method: "GET", headers: [], cookies: [], timings: {} };
      this.#tell("network.beforeRequestSent", { context, navigation: null, redirectCount: 0, isBlocked: false, request, timestamp });
    }
  }

  async act(actions) {
    await this.#inTurn((send) => send("POST", "/actions", { actions }));
    return {};
  }

  async setFiles({ element, files }) {
    await this.#inTurn(async (send) => {
      const reference = await send("POST", "/execute/async", { script: node(this.#document), args: [element.sharedId] });
      await send("POST", `/element/${Object.values(reference)[0]}/value`, { text: files.join("\n") });
    });
    return {};
  }

  /** What is in sight. */
  async screenshot() {
    return { data: await this.#inTurn((send) => send("GET", "/screenshot")) };
  }

  /** Makes the page itself, without the window's own bars, as large as `size`. */
  async resize({ width, height }) {
    await this.#inTurn(async (send) => {
      const sizes = async () => send("POST", "/execute/sync", { script: "return [innerWidth, innerHeight, outerWidth, outerHeight]", args: [] });
      for (let tries = RESIZE_TRIES; tries > 0; tries--) {
        const [innerWidth, innerHeight, outerWidth, outerHeight] = await sizes();
        if (innerWidth === width && innerHeight === height) return;
        if (tries % 25 === 0) {
          await send("POST", "/window/rect", { width: width + outerWidth - innerWidth, height: height + outerHeight - innerHeight });
        } else {
          await pause(RESIZE_LOOK_MS);
        }
      }
      throw new Error(`the window cannot be made ${width} by ${height}: ${await sizes()}`);
    });
  }
}

/**
 * The texts among `values` that a script may want to evaluate, each with a function's body that does so: a page's policy may
 * forbid it to evaluate texts, but not what is part of a driver's script.
 */
function functionsIn(values, found = new Map()) {
  for (const value of values.flat(Infinity)) {
    if (value.type === "array" || value.type === "object") functionsIn(value.value, found);
    else if (value.type === "string" && CODE.test(value.value) && !found.has(value.value)) found.set(value.value, body(value.value));
  }
  return found;
}

/** A function's body that has the value of `text`, or runs it where it is not an expression. */
function body(text) {
  const expression = `(${text.replace(/[;\s]+$/, "")}\n)`;
  if (isScript(expression)) return expression;
  return isScript(text) ? `{ ${text}\n}` : `{ throw new SyntaxError("not a script") }`;
}

function isScript(text) {
  try {
    return Boolean(new Script(text));
  } catch {
    return false;
  }
}
