// A static host behind a poor connection: sirv-cli with gzip, answers delayed and sharing one bandwidth, bytes counted.
import { spawn } from "node:child_process";
import { createServer, request } from "node:http";
import { connect } from "node:net";
import { fileURLToPath } from "node:url";

const SIRV = fileURLToPath(new URL("../../www/node_modules/sirv-cli/bin.js", import.meta.url));
const TICK_MS = 10;
const START_TRIES = 100;
const LOCAL = "127.0.0.1";

/** @param {{site: string, latency: number, bytesPerSecond: number}} options  Latency in milliseconds. */
export async function slowHost({ site, latency, bytesPerSecond }) {
  const port = await freePort();
  const sirv = spawn(process.execPath, [SIRV, site, "--etag", "--quiet"], {
    env: { ...process.env, HOST: LOCAL, PORT: String(port) },
    stdio: "ignore",
  });
  await untilListening(port);

  const line = sharedLine(bytesPerSecond);
  const server = createServer((incoming, outgoing) => {
    const { method, url } = incoming;
    // What every static host can do; brotli would be a sixth less.
    const headers = { ...incoming.headers, "accept-encoding": "gzip" };
    const upstream = request({ host: LOCAL, port, method, path: url, headers }, (answer) => setTimeout(() => {
      outgoing.writeHead(answer.statusCode, answer.headers);
      outgoing.flushHeaders();
      answer.on("data", (chunk) => line.send(outgoing, chunk, url));
      answer.on("end", () => line.end(outgoing));
    }, latency));
    incoming.pipe(upstream);
  });
  await new Promise((resolve) => server.listen(0, LOCAL, resolve));

  return {
    url: `http://${LOCAL}:${server.address().port}/`,
    /** Bytes of answers' bodies since the last reset, by path. */
    sent: line.sent,
    async stop() {
      line.stop();
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
      sirv.kill();
    },
  };
}

/** All answers under way get the same share of each tick. @param {number} bytesPerSecond */
function sharedLine(bytesPerSecond) {
  /** @type {Map<object, Buffer[]>} */
  const waiting = new Map();
  const ended = new Set();
  /** @type {Map<string, number>} */
  const sent = new Map();
  let last = performance.now();
  const timer = setInterval(() => {
    const now = performance.now();
    let allowance = Math.floor((bytesPerSecond * (now - last)) / 1000);
    last = now;
    while (allowance > 0 && waiting.size > 0) {
      const share = Math.max(1, Math.floor(allowance / waiting.size));
      for (const [outgoing, chunks] of waiting) {
        const piece = chunks[0].subarray(0, share);
        outgoing.write(piece);
        allowance -= piece.length;
        if (piece.length < chunks[0].length) chunks[0] = chunks[0].subarray(piece.length);
        else chunks.shift();
        if (chunks.length > 0) continue;
        waiting.delete(outgoing);
        if (ended.delete(outgoing)) outgoing.end();
      }
    }
  }, TICK_MS);

  return {
    sent,
    send(outgoing, chunk, path) {
      sent.set(path, (sent.get(path) ?? 0) + chunk.length);
      waiting.set(outgoing, [...(waiting.get(outgoing) ?? []), chunk]);
    },
    end(outgoing) {
      if (waiting.has(outgoing)) ended.add(outgoing);
      else outgoing.end();
    },
    stop: () => clearInterval(timer),
  };
}

async function freePort() {
  const probe = createServer();
  await new Promise((resolve) => probe.listen(0, LOCAL, resolve));
  const { port } = probe.address();
  await new Promise((resolve) => probe.close(resolve));
  return port;
}

async function untilListening(port) {
  for (let tries = 0; tries < START_TRIES; tries += 1) {
    const listens = await new Promise((resolve) => {
      const socket = connect(port, LOCAL);
      socket.on("connect", () => { socket.destroy(); resolve(true); });
      socket.on("error", () => resolve(false));
    });
    if (listens) return;
    await new Promise((resolve) => setTimeout(resolve, TICK_MS));
  }
  throw new Error("sirv-cli did not start");
}
