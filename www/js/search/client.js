import { startSearchWorker } from "../loading.js";
import { unitName } from "../units.js";

/**
 * @typedef {[name: string, ...input: any[]]} Call  A question to the core.
 *
 * @typedef {Object} Listener
 * @property {(answer: any, index: number) => void} answer
 * @property {() => void} done
 * @property {(message: string) => void} failed
 *
 * @typedef {{owner: object, calls: Call[], next: number, listener: Listener}} Job
 */

/** A slow phone needs a fraction of these. The first answer waits for the core, perhaps over a poor connection. */
const FIRST_ANSWER_MS = 30_000;
const ANSWER_MS = 8_000;

const NOT_STARTED = "The search could not be started. The rest of the page works on; try again with a connection.";
const NO_ANSWER = "The search stopped answering. The rest of the page works on.";
const FAULT = "The search failed on these values. The rest of the page works on.";

/**
 * Asks a worker call by call, so that between two calls a job can be dropped and a newer one goes first. An owner has one
 * job at most: a new one takes the place of the old, whose answers are dropped.
 */
export class SearchClient {
  /** @type {ReturnType<typeof startSearchWorker>|null} */
  #worker = null;
  #hasAnswered = false;
  /** The newest first. @type {Job[]} */
  #jobs = [];
  /** @type {{id: number, job: Job, index: number}|null} */
  #asked = null;
  #lastId = 0;
  #timer = 0;

  /** @param {object} owner @param {Call[]} calls @param {Listener} listener */
  run(owner, calls, listener) {
    this.cancel(owner);
    this.#jobs.unshift({ owner, calls, next: 0, listener });
    this.#askNext();
  }

  /** @param {object} owner */
  cancel(owner) {
    this.#jobs = this.#jobs.filter((job) => job.owner !== owner);
  }

  /** @param {Job} job */
  #drop(job) {
    this.#jobs = this.#jobs.filter((other) => other !== job);
  }

  #askNext() {
    if (this.#asked) return;
    const job = this.#jobs.find(({ calls, next }) => next < calls.length);
    if (!job) return;
    try {
      this.#worker ??= this.#start();
    } catch (error) {
      console.warn(error);
      this.#fail(NOT_STARTED);
      return;
    }
    const index = job.next++;
    const [name, ...input] = job.calls[index];
    this.#asked = { id: ++this.#lastId, job, index };
    this.#worker.postMessage({ id: this.#lastId, unit: unitName(), name, input });
    this.#timer = setTimeout(() => this.#fail(NO_ANSWER), this.#hasAnswered ? ANSWER_MS : FIRST_ANSWER_MS);
  }

  #start() {
    const worker = startSearchWorker();
    worker.addEventListener("message", ({ data }) => this.#take(data));
    worker.addEventListener("error", (event) => {
      event.preventDefault();
      this.#fail(this.#hasAnswered ? NO_ANSWER : NOT_STARTED);
    });
    return worker;
  }

  /** @param {{id: number, answer?: any, fault?: string}} reply */
  #take({ id, answer, fault }) {
    if (this.#asked?.id !== id) return;
    const { job, index } = this.#asked;
    const isWanted = this.#jobs.includes(job);
    if (fault !== undefined) {
      console.warn(fault);
      // The core may be left half-way through something, or not there at all: the next call starts another.
      const message = this.#hasAnswered ? FAULT : NOT_STARTED;
      this.#stop();
      this.#drop(job);
      if (isWanted) job.listener.failed(message);
      this.#askNext();
      return;
    }
    this.#hasAnswered = true;
    this.#settle();
    if (isWanted) {
      job.listener.answer(answer, index);
      if (index === job.calls.length - 1) {
        this.#drop(job);
        job.listener.done();
      }
    }
    this.#askNext();
  }

  /** Gives up on the worker and on everything asked of it. @param {string} message */
  #fail(message) {
    this.#stop();
    const jobs = this.#jobs;
    this.#jobs = [];
    for (const job of jobs) job.listener.failed(message);
  }

  #stop() {
    this.#settle();
    this.#worker?.terminate();
    this.#worker = null;
    this.#hasAnswered = false;
  }

  #settle() {
    clearTimeout(this.#timer);
    this.#asked = null;
  }
}
