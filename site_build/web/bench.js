// @ts-check
/** How long the worker may be silent once it runs. */
const SILENCE_MS = 10000;

/** The background worker of a page: started once, restarted once, then given up with a word. */
export class Bench {
  /** @param {(reply: any) => void} hear */
  constructor(hear) {
    this.hear = hear;
    /** @type {Worker | undefined} */
    this.worker = undefined;
    this.ready = false;
    this.restarts = 0;
    this.timer = 0;
    this.last = "";
  }

  start() {
    if (this.worker) return;
    this.worker = new Worker(new URL("worker.js", import.meta.url), { type: "module" });
    this.worker.onmessage = ({ data }) => this.heard(JSON.parse(data));
    this.worker.onerror = () => this.fail("they could not be loaded");
  }

  /** @param {any} reply */
  heard(reply) {
    if (reply.stage) this.ready = reply.stage === "ready";
    if (!reply.stage) clearTimeout(this.timer);
    if (reply.fault) this.fail(reply.fault);
    else this.hear(reply);
  }

  /** @param {object} message */
  ask(message) {
    this.start();
    this.last = JSON.stringify(message);
    this.worker?.postMessage(this.last);
    clearTimeout(this.timer);
    if (this.ready) this.timer = setTimeout(() => this.fail("no answer came"), SILENCE_MS);
  }

  /** @param {string} why */
  fail(why) {
    const again = this.last;
    this.stop();
    this.restarts += 1;
    if (this.restarts > 1) this.hear({ fault: why });
    else if (again) this.ask(JSON.parse(again));
  }

  stop() {
    clearTimeout(this.timer);
    this.worker?.terminate();
    this.worker = undefined;
    this.ready = false;
  }
}
