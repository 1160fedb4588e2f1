#!/usr/bin/env node
// WebKit for a client of WebDriver BiDi: takes that protocol's commands on a web socket and carries them out with
// WebKitWebDriver, which speaks only the older WebDriver. As much of the protocol as Playwright asks for.
// All worlds of a document are one, scripts that shall run before a page run after it, and requests cannot be held up.
import { mkdtemp } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { WebSocketServer } from "ws";
import { DriverSession, toolkitSettings } from "./driver.js";
import { Tab } from "./tab.js";

const options = process.argv.slice(2);
const profile = options.includes("--profile") ? options[options.indexOf("--profile") + 1] : await mkdtemp(join(tmpdir(), "webkit-"));
const browserOptions = options.filter((option) => option === "--dark-mode");

const environment = await toolkitSettings(profile);
/** The next browser starts while the one before it is in use. */
let spare = DriverSession.start(environment, browserOptions);

/** @type {Map<string, {session: Promise<DriverSession>, size: object|null, tabs: Tab[]}>} */
const userContexts = new Map();
/** @type {Map<string, Tab>} */
const tabs = new Map();
let count = 0;
let send = () => {};

function tell(method, params) {
  send({ type: "event", method, params });
}

function tabOf({ context, target }) {
  const id = context ?? target?.context ?? target?.realm?.split("#")[0];
  const tab = tabs.get(id);
  if (!tab) throw Object.assign(new Error(`no such browsing context: ${id}`), { kind: "no such frame" });
  return tab;
}

const COMMANDS = {
  async "session.new"() {
    const { capabilities } = await spare;
    return { sessionId: "webkit", capabilities: { ...capabilities, browserName: "webkit", userAgent: "WebKit" } };
  },
  async "browser.createUserContext"() {
    const userContext = `user-${++count}`;
    const session = spare;
    userContexts.set(userContext, { session, size: null, tabs: [] });
    spare = session.then(() => DriverSession.start(environment, browserOptions));
    spare.catch(() => {});
    return { userContext };
  },
  async "browser.removeUserContext"({ userContext }) {
    const { session, tabs: own } = userContexts.get(userContext);
    userContexts.delete(userContext);
    for (const tab of own) {
      tabs.delete(tab.id);
      tab.destroyed();
    }
    await (await session).stop();
    return {};
  },
  async "browser.close"() {
    setTimeout(stop);
    return {};
  },
  async "browsingContext.create"({ userContext }) {
    const owner = userContexts.get(userContext);
    const session = await owner.session;
    const tab = await Tab.open(session, `tab-${++count}`, userContext, owner.tabs.length === 0, tell);
    owner.tabs.push(tab);
    tabs.set(tab.id, tab);
    if (owner.size) await tab.resize(owner.size);
    await tab.begin();
    return { context: tab.id };
  },
  async "browsingContext.close"({ context }) {
    const tab = tabOf({ context });
    tabs.delete(context);
    for (const owner of userContexts.values()) owner.tabs = owner.tabs.filter((other) => other !== tab);
    await tab.close();
    return {};
  },
  async "browsingContext.setViewport"({ context, viewport, userContexts: wanted = [] }) {
    for (const id of wanted) userContexts.get(id).size = viewport;
    if (context && viewport) await tabOf({ context }).resize(viewport);
    return {};
  },
  "browsingContext.navigate": (params) => tabOf(params).navigate(params.url),
  "browsingContext.reload": (params) => tabOf(params).navigate(null),
  "browsingContext.captureScreenshot": (params) => tabOf(params).screenshot(),
  "script.evaluate": (params) => tabOf(params).evaluate(params),
  "script.callFunction": (params) => tabOf(params).callFunction(params),
  "script.addPreloadScript": async ({ functionDeclaration, contexts, userContexts: owners, arguments: values = [] }) => {
    const script = `script-${++count}`;
    for (const tab of tabs.values()) {
      if (contexts?.includes(tab.id) || owners?.includes(tab.userContext)) tab.preloads.set(script, { functionDeclaration, values });
    }
    return { script };
  },
  "script.removePreloadScript": async ({ script }) => {
    for (const tab of tabs.values()) tab.preloads.delete(script);
    return {};
  },
  "input.performActions": (params) => tabOf(params).act(params.actions),
  "input.setFiles": (params) => tabOf(params).setFiles(params),
};
const ACCEPTED = [
  "session.subscribe", "session.end", "browser.setDownloadBehavior", "browsingContext.activate", "browsingContext.handleUserPrompt",
  "script.disown", "network.addDataCollector", "network.setCacheBehavior",
];

async function carryOut({ method, params }) {
  if (COMMANDS[method]) return COMMANDS[method](params);
  if (method === "network.addIntercept" && params.phases.includes("authRequired")) return { intercept: "none" };
  if (ACCEPTED.includes(method) || method.startsWith("emulation.")) return {};
  throw Object.assign(new Error(`${method} is beyond WebKitWebDriver`), { kind: "unknown command" });
}

async function stop() {
  const sessions = [...userContexts.values()].map(({ session }) => session);
  await Promise.all([...sessions, spare].map((session) => session.then((started) => started.stop(), () => {})));
  process.exit(0);
}

const server = new WebSocketServer({ host: "127.0.0.1", port: 0, perMessageDeflate: false, maxPayload: 2 ** 28 });
server.on("connection", (socket) => {
  send = (message) => socket.send(JSON.stringify(message));
  socket.on("close", stop);
  socket.on("message", async (text) => {
    const message = JSON.parse(text);
    try {
      send({ type: "success", id: message.id, result: await carryOut(message) });
    } catch (error) {
      send({ type: "error", id: message.id, error: error.kind ?? "unknown error", message: error.message });
    }
  });
});
server.on("listening", () => console.error(`WebDriver BiDi listening on ws://127.0.0.1:${server.address().port}`));
for (const signal of ["SIGINT", "SIGTERM"]) process.on(signal, stop);
