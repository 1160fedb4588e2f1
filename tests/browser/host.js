// A host whose site changes, breaks and goes away, and new versions of the site and the page in one file, made by the real build.
import { execFileSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { createServer } from "node:http";
import { tmpdir } from "node:os";
import { extname, join } from "node:path";
import { fileURLToPath } from "node:url";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));
export const BUILT_SITE = process.env.TABWRIGHT_SITE ?? join(ROOT, "target/site");
const LOCAL = "127.0.0.1";
const MIME = {
  ".css": "text/css; charset=utf-8",
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".png": "image/png",
  ".svg": "image/svg+xml",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json",
};

/** A custom section, which every engine skips: the same geometry in other bytes. Length, name's length, name. */
const NEW_SECTION = Buffer.from([0, 5, 4, ...Buffer.from("next")]);

/**
 * Builds the page again with another title and, on wish, other bytes of the core. Returns its folder; gone after `t`.
 * @param {{after: (work: () => void) => void}} t @param {{title: string, hasNewCore?: boolean}} changes
 */
export function buildVersion(t, { title, hasNewCore = false }) {
  const folder = mkdtempSync(join(tmpdir(), "tabwright-"));
  t.after(() => rmSync(folder, { recursive: true, force: true }));
  const [page, core, site] = ["www", "pkg", "site"].map((name) => join(folder, name));
  cpSync(join(ROOT, "www"), page, { recursive: true, filter: (source) => !source.endsWith("node_modules") });
  symlinkSync(join(ROOT, "www/node_modules"), join(page, "node_modules"));
  cpSync(join(ROOT, "target/pkg"), core, { recursive: true });
  const start = join(page, "index.html");
  writeFileSync(start, readFileSync(start, "utf8").replace(/<title>.*<\/title>/, `<title>${title}</title>`));
  if (hasNewCore) {
    const wasm = join(core, "tabwright_start", "tabwright_start_bg.wasm");
    writeFileSync(wasm, Buffer.concat([readFileSync(wasm), NEW_SECTION]));
  }
  execFileSync(process.execPath, [join(ROOT, "www/tools/assemble.mjs"), "--plain", page, core, site], { stdio: "pipe" });
  return site;
}

/** Builds the page into one file. Returns its path; gone after `t`. @param {{after: (work: () => void) => void}} t */
export function buildOneFile(t) {
  const folder = mkdtempSync(join(tmpdir(), "tabwright-"));
  t.after(() => rmSync(folder, { recursive: true, force: true }));
  const file = join(folder, "tabwright.html");
  const tool = join(ROOT, "www/tools/one-file.mjs");
  execFileSync(process.execPath, [tool, join(ROOT, "www"), join(ROOT, "target/pkg/tabwright_wasm"), file], { stdio: "pipe" });
  return file;
}

/**
 * @param {{after: (work: () => void) => void}} t
 * @param {string} folder  The site to begin with.
 * @param {Record<string, string>} [headers]  Sent with everything.
 */
export async function startHost(t, folder, headers = {}) {
  const host = {
    url: "",
    folder,
    headers,
    isDown: false,
    /** Paths asked for, without what is behind the question mark. @type {string[]} */
    asked: [],
    /** Answers in another way where it returns true. @type {(path: string, response: import("node:http").ServerResponse) => boolean} */
    breaks: () => false,
  };
  const server = createServer((request, response) => {
    if (host.isDown) return request.socket.destroy();
    const { pathname } = new URL(request.url, "http://host");
    host.asked.push(pathname);
    const path = pathname === "/" ? "/index.html" : pathname;
    if (host.breaks(path, response)) return;
    try {
      const body = readFileSync(join(host.folder, path));
      response.writeHead(200, { "Content-Type": MIME[extname(path)] ?? "application/octet-stream", ...host.headers });
      response.end(body);
    } catch {
      response.writeHead(404, { "Content-Type": "text/plain" }).end("not found");
    }
  });
  await new Promise((resolve) => server.listen(0, LOCAL, resolve));
  t.after(() => {
    server.closeAllConnections();
    server.close();
  });
  host.url = `http://${LOCAL}:${server.address().port}/`;
  return host;
}
