"use strict";
// The main thread's part in interrupting cells; see interrupt-watch.cjs.
const path = require("node:path");
const { Worker } = require("node:worker_threads");
const { followParent, lifeline } = require("./lifeline.cjs");
const { endGroup } = require("./process-group.cjs");
const { withoutTimers } = require("./timers.cjs");

/** Places in the memory that both threads see. */
const ANSWERED = 0;
const MAY_STOP = 1;
const shared = new SharedArrayBuffer(8);
const state = new Int32Array(shared);
Atomics.store(state, MAY_STOP, 1);

const pipe = lifeline();
let watching;
let interrupt = () => undefined;

/** What to do when the starter of this process interrupts it. */
function onInterrupt(act) {
  interrupt = act;
}

/** Starts the watching thread. Resolves with whether it hears interrupts. */
function watchInterrupts() {
  watching ??= startThread().then((hears) => {
    if (!hears) followParent(pipe, endGroup, () => interrupt())?.unref();
    return hears;
  });
  return watching;
}

function startThread() {
  return new Promise((resolve) => {
    const take = (message) => {
      if (message.hears !== undefined) return resolve(message.hears);
      if (message.interrupt) interrupt();
      Atomics.store(state, ANSWERED, message.asked);
    };
    try {
      const worker = new Worker(path.join(__dirname, "interrupt-watch.cjs"), {
        workerData: { shared, ANSWERED, MAY_STOP, pipe },
        execArgv: [],
        stdout: true,
        stderr: true,
      });
      worker.on("message", take).once("error", () => resolve(false));
      // After `on`, which makes the process wait for the thread.
      worker.unref();
    } catch {
      resolve(false);
    }
  });
}

/** Work that must not be cut off in the middle, such as the compiler's. */
function undisturbed(work) {
  Atomics.store(state, MAY_STOP, 0);
  try {
    return withoutTimers(work);
  } finally {
    Atomics.store(state, MAY_STOP, 1);
  }
}

/** Our own runner writes what a notebook was run with; under Jupyter the outputs say it. */
const startedByRunner = pipe !== undefined;

module.exports = { onInterrupt, startedByRunner, undisturbed, watchInterrupts };
