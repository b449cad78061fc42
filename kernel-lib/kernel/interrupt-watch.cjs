"use strict";
// Runs in a thread of its own. Node hears an interrupt in its event loop, which a loop in a cell
// keeps from turning. This thread hears it too, and when the main thread does not answer it ends
// the JavaScript that runs there, through the inspector. For the same reason it watches whether
// the process that started the kernel still lives: an endless loop must not outlive it.
const { spawn } = require("node:child_process");
const inspector = require("node:inspector");
const { parentPort, workerData } = require("node:worker_threads");
const { followParent } = require("./lifeline.cjs");
const { endGroup, followJupyter } = require("./process-group.cjs");

const SIGINT = 2;
/** Time the main thread has to answer by itself. */
const PATIENCE_MS = 60;
/** Code that goes on after so many ends is given up. */
const MOST_STOPS = 20;
const { shared, ANSWERED, MAY_STOP, pipe } = workerData;
const state = new Int32Array(shared);

let asked = 0;
let waiting;

/** `interrupt` says that the main thread has not heard of it in any other way. */
function onInterrupt(interrupt) {
  asked += 1;
  parentPort.postMessage({ asked, interrupt });
  clearTimeout(waiting);
  waiting = setTimeout(look, PATIENCE_MS, MOST_STOPS);
}

function look(stopsLeft) {
  if (Atomics.load(state, ANSWERED) >= asked || stopsLeft === 0) return;
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

/** Node has no public way to hear a signal in a thread. Node 24 has none at all. */
function hearSignal() {
  process.noDeprecation = true;
  const { Signal } = process.binding("signal_wrap");
  const signal = new Signal();
  signal.onsignal = () => onInterrupt(false);
  return signal.start(SIGINT) === 0 ? signal : undefined;
}

// A shell that does nothing but say that it was interrupted. `read` fails then, and when the kernel
// is gone.
const LISTENING_SHELL =
  'trap "echo; heard=1" INT; while :; do heard=; read line || [ "$heard" ] || exit; done';

/**
 * Jupyter interrupts the kernel's whole group of processes: where no thread hears the signal, a
 * small process of the group does.
 */
function hearThroughShell() {
  if (process.platform === "win32") return undefined;
  const shell = spawn("/bin/sh", ["-c", LISTENING_SHELL], { stdio: ["pipe", "pipe", "ignore"] });
  shell.on("error", () => undefined);
  shell.stdin.on("error", () => undefined);
  shell.stdout.on("data", () => onInterrupt(false));
  return shell;
}

function hear() {
  try {
    return hearSignal() ?? hearThroughShell();
  } catch {
    return hearThroughShell();
  }
}

// The program that started the kernel interrupts it by a byte through its pipe; Jupyter by a
// signal.
// Kept in a variable: once collected, it would hear no more.
let ear;
try {
  ear = followParent(pipe, endGroup, () => onInterrupt(true)) ?? hear();
} catch {
  ear = undefined;
}
// An endless loop must not outlive Jupyter either.
if (pipe === undefined) followJupyter(endGroup);
parentPort.postMessage({ hears: ear !== undefined });
