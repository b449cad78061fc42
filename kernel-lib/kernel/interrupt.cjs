"use strict";
// The main thread's part in interrupting cells; see interrupt-watch.cjs.
const path = require("node:path");
const { Worker } = require("node:worker_threads");
const { followParent, lifeline } = require("./lifeline.cjs");

/** Places in the memory that both threads see. */
const ANSWERED = 0;
const MAY_STOP = 1;
const shared = new SharedArrayBuffer(8);
const state = new Int32Array(shared);
Atomics.store(state, MAY_STOP, 1);

const pipe = lifeline();
let watching;

/** Starts the watching thread. Resolves with whether it hears interrupts. */
function watchInterrupts() {
  watching ??= startThread().then((heard) => {
    if (!heard) followParent(pipe, () => process.exit(0));
    return heard;
  });
  return watching;
}

function startThread() {
  return new Promise((resolve) => {
    // Windows has no SIGINT; a tool that ends a cell there ends the kernel.
    if (process.platform === "win32") return resolve(false);
    try {
      const worker = new Worker(path.join(__dirname, "interrupt-watch.cjs"), { workerData: { shared, ANSWERED, MAY_STOP, pipe }, execArgv: [], stdout: true, stderr: true });
      worker.unref();
      worker.once("message", resolve).once("error", () => resolve(false));
    } catch {
      resolve(false);
    }
  });
}

/** Says that the main thread has heard an interrupt by itself. */
function answerInterrupt() {
  Atomics.add(state, ANSWERED, 1);
}

/** Work that must not be cut off in the middle, such as the compiler's. */
function undisturbed(work) {
  Atomics.store(state, MAY_STOP, 0);
  try {
    return work();
  } finally {
    Atomics.store(state, MAY_STOP, 1);
  }
}

module.exports = { watchInterrupts, answerInterrupt, undisturbed };
