// WebKit without a screen: a virtual display, WebKitWebDriver on it, and its commands over plain HTTP.
import { spawn } from "node:child_process";
import { mkdir, writeFile } from "node:fs/promises";
import { createServer } from "node:net";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";

const BROWSER = process.env.TABWRIGHT_MINIBROWSER ?? "/usr/lib/x86_64-linux-gnu/webkit2gtk-4.1/MiniBrowser";
/** Without a window manager, the window under the pointer has the focus; the pointer starts in the middle of the screen. */
const SCREEN = "500x600x24";
const START_MS = 60_000;
const LOOK_AGAIN_MS = 20;
/** The browser's own buttons would not let its window become as narrow as a phone. */
const TOOLKIT_STYLE = "* { min-width: 0; margin: 0; padding: 0; }\n";
/** Read by the engine as a wish for reduced motion. */
const TOOLKIT_SETTINGS = "[Settings]\ngtk-enable-animations=0\n";

/** Starts a virtual display on a free number. Its name, and how to end it. */
async function startDisplay() {
  const server = spawn("Xvfb", ["-displayfd", "3", "-screen", "0", SCREEN, "-nolisten", "tcp"], { stdio: ["ignore", "ignore", "ignore", "pipe"] });
  const number = await new Promise((resolve, reject) => {
    let text = "";
    server.once("error", reject);
    server.once("exit", () => reject(new Error("Xvfb ended")));
    server.stdio[3].on("data", (data) => {
      text += data;
      if (text.endsWith("\n")) resolve(text.trim());
    });
  });
  return { name: `:${number}`, stop: () => server.kill() };
}

/** Writes the toolkit's settings below `folder`, and says by which variables it is found. */
export async function toolkitSettings(folder) {
  const place = join(folder, "config", "gtk-3.0");
  await mkdir(place, { recursive: true });
  await writeFile(join(place, "gtk.css"), TOOLKIT_STYLE);
  await writeFile(join(place, "settings.ini"), TOOLKIT_SETTINGS);
  return {
    XDG_CONFIG_HOME: join(folder, "config"),
    XDG_DATA_HOME: join(folder, "data"),
    XDG_CACHE_HOME: join(folder, "cache"),
    WEBKIT_DISABLE_COMPOSITING_MODE: "1",
    NO_AT_BRIDGE: "1",
    GSETTINGS_BACKEND: "memory",
  };
}

async function freePort() {
  const server = createServer();
  await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
  const { port } = server.address();
  await new Promise((resolve) => server.close(resolve));
  return port;
}

/** One browser with a profile of its own, alone on its display, so that it always has the focus. */
export class DriverSession {
  #display;
  #driver;
  #address;
  #queue = Promise.resolve();
  capabilities;

  /** @param {Record<string, string>} environment @param {string[]} options of the browser */
  static async start(environment, options) {
    const session = new DriverSession();
    const port = await freePort();
    session.#display = await startDisplay();
    const env = { ...process.env, ...environment, DISPLAY: session.#display.name };
    session.#driver = spawn("WebKitWebDriver", ["-p", String(port)], { env, stdio: "ignore" });
    session.#address = `http://127.0.0.1:${port}`;
    await session.#untilReady();
    const { sessionId, capabilities } = await session.#request("POST", "/session", {
      capabilities: { alwaysMatch: { "webkitgtk:browserOptions": { binary: BROWSER, args: ["--automation", ...options] } } },
    });
    session.#address += `/session/${sessionId}`;
    session.capabilities = capabilities;
    return session;
  }

  async #untilReady() {
    const end = Date.now() + START_MS;
    for (;;) {
      try {
        await this.#request("GET", "/status");
        return;
      } catch (error) {
        if (Date.now() > end || this.#driver.exitCode !== null) throw error;
        await pause(LOOK_AGAIN_MS);
      }
    }
  }

  async #request(method, path, body) {
    const response = await fetch(this.#address + path, { method, body: body === undefined ? undefined : JSON.stringify(body) });
    const { value } = await response.json();
    if (!response.ok) throw Object.assign(new Error(value.message || value.error), { kind: value.error, data: value.data });
    return value;
  }

  /** Runs `commands` in one go; others wait for it. They get the function that sends a command. */
  inTurn(commands) {
    const done = this.#queue.then(() => commands((method, path, body) => this.#request(method, path, body)));
    this.#queue = done.catch(() => {});
    return done;
  }

  stop() {
    this.#driver.kill();
    // The driver would leave its browser behind, but that ends with its display.
    this.#display.stop();
  }
}
