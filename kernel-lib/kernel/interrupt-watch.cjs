"use strict";
// Runs in a thread of its own. Node hears SIGINT in its event loop, which a loop in a cell keeps
// from turning. This thread hears it too, and when the main thread does not answer it ends the
// JavaScript that runs there, through the inspector. For the same reason it watches whether the
// process that started the kernel still lives: a kernel in an endless loop must not outlive it.
const inspector = require("node:inspector");
const { parentPort, workerData } = require("node:worker_threads");
const { followParent } = require("./lifeline.cjs");

const SIGINT = 2;
/** Time the main thread has to hear the signal by itself. */
const PATIENCE_MS = 60;
/** A cell can take away the main thread's own ear for the signal; then no answer ever comes. */
const MOST_STOPS = 20;
const { shared, ANSWERED, MAY_STOP, pipe } = workerData;
const state = new Int32Array(shared);

/** Node offers no public way to hear a signal in a thread. Where this one is gone, cells are run by the older way. */
function hear(onSignal) {
  process.noDeprecation = true;
  const { Signal } = process.binding("signal_wrap");
  const signal = new Signal();
  signal.onsignal = onSignal;
  return signal.start(SIGINT) === 0 ? signal : undefined;
}

/** Interrupts heard here, to be compared with those the main thread has answered: it may well be the quicker. */
let heard = Atomics.load(state, ANSWERED);
let waiting;

function onSignal() {
  heard += 1;
  clearTimeout(waiting);
  waiting = setTimeout(look, PATIENCE_MS, MOST_STOPS);
}

function look(stopsLeft) {
  const answered = Atomics.load(state, ANSWERED);
  if (answered >= heard || stopsLeft === 0) {
    heard = answered;
    return;
  }
  // While the compiler works it is left alone: it would keep half-made data. Look again later.
  const mayStop = Atomics.load(state, MAY_STOP) === 1;
  if (mayStop) stopMainThread();
  waiting = setTimeout(look, PATIENCE_MS, mayStop ? stopsLeft - 1 : stopsLeft);
}

function stopMainThread() {
  const session = new inspector.Session();
  session.connectToMainThread();
  session.post("Runtime.terminateExecution", () => session.disconnect());
}

let signal;
try {
  // Kept in a variable: once collected, it would hear no more.
  signal = hear(onSignal);
} catch {
  signal = undefined;
}
if (signal) followParent(pipe, () => process.kill(process.pid, "SIGKILL"));
parentPort.postMessage(signal !== undefined);
