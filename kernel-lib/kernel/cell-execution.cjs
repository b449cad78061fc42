"use strict";
// Runs one cell in tslab's executor and reports what came of it as data, not as printed text.
const cellPositions = require("./cell-positions.cjs");
const { writeOutShorthand } = require("./shorthand.cjs");
const { reportDiagnostics, reportThrown } = require("./error-report.cjs");
const { holdHeapGrowth } = require("./heap-growth.cjs");
const { withNearestNames } = require("./nearest-name.cjs");
const { endTimers, live, liveEach, own } = require("./timers.cjs");
const { onInterrupt, undisturbed, watchInterrupts } = require("./interrupt.cjs");

const DIAGNOSTIC_FORMAT = "%s%d:%d - %s";

/** Tells the library how often it was interrupted: what it waited for then never comes. */
const INTERRUPTS = Symbol.for("code-comparison.interrupts");

/** What the running cell has come to so far. */
let running;

/**
 * Wraps tslab's executor. Its only uses of the console it is given are the last value
 * (`log`), compiler diagnostics (`error` with a format) and the thrown value (`error`).
 */
function changeExecutor(module) {
  const createExecutor = (rootDir, converters) => {
    const { node } = converters;
    for (const work of ["convert", "inspect", "complete", "addModule"]) {
      const uninterrupted = node[work];
      node[work] = (...given) => undisturbed(() => uninterrupted(...given));
    }
    const executor = module.createExecutor(rootDir, converters, {
      log: (value) => running && (running.value = value),
      error: (...given) => running && note(given),
    });
    Object.assign(globalThis.__tslab__, { live, liveEach });
    const interrupt = executor.interrupt;
    executor.interrupt = () => {
      interrupt();
      endTimers();
      globalThis[INTERRUPTS] = (globalThis[INTERRUPTS] ?? 0) + 1;
      globalThis[SHOWING] = undefined;
      running?.interrupt();
    };
    onInterrupt(() => executor.interrupt());
    executor.runCell = (source, name) => runCell(executor, source, name);
    return executor;
  };
  return { ...module, createExecutor };
}

function note(given) {
  if (given[0] !== DIAGNOSTIC_FORMAT) {
    running.thrown = { value: given[0] };
    return;
  }
  const [, file, line, column, text] = given;
  running.diagnostics.push({ file: file ? String(file).trim() : undefined, line, column, text });
}

/**
 * Resolves with { value } or { error: { ename, evalue, traceback } }.
 *
 * An interrupt may end the cell's JavaScript at any point, and what called it as well: nothing
 * further runs, no `finally` either, and waiting promise jobs are dropped. So the cell starts
 * alone in a fresh turn of the event loop, and its end is not the only thing waited for.
 */
async function runCell(executor, source, name) {
  cellPositions.cellsWatched(await watchInterrupts());
  const state = { diagnostics: [], unhandled: [] };
  const interrupted = new Promise((resolve) => {
    state.interrupt = () =>
      own.setImmediate(resolve, { error: reportThrown(new Error("Interrupted asynchronously")) });
  });
  running = state;
  holdHeapGrowth();
  cellPositions.nameRunningCell(name, source);
  try {
    return await Promise.race([
      turnOfEventLoop().then(() => work(executor, source, name, state)),
      interrupted,
    ]);
  } finally {
    running = undefined;
  }
}

async function work(executor, source, name, state) {
  try {
    const done = await executor.execute(writeOutShorthand(source));
    if (!done) {
      state.diagnostics = withNearestNames(executor, source, state.diagnostics);
      return { error: failure(name, state) };
    }
    // A promise as last value is waited for, so that `show(...)` needs no `await`.
    const value = state.value instanceof Promise ? await state.value : state.value;
    await allShown();
    // Rejections that nobody handles are known once the event loop has turned.
    await turnOfEventLoop();
    if (state.unhandled.length > 0)
      return { error: reportThrown(state.unhandled[0], "UnhandledRejection") };
    return { value, warnings: state.diagnostics };
  } catch (error) {
    return { error: reportThrown(error) };
  }
}

/** Set by the library: what `show` is still at, whether or not the cell awaits it. */
const SHOWING = Symbol.for("code-comparison.showing");

async function allShown() {
  for (let seen; globalThis[SHOWING] !== seen;) {
    seen = globalThis[SHOWING];
    await seen;
  }
}

function turnOfEventLoop() {
  return new Promise((turned) => own.setImmediate(turned));
}

function failure(name, state) {
  if (state.thrown) return reportThrown(state.thrown.value);
  return reportDiagnostics(name, state.diagnostics);
}

/** Hands a rejection to the running cell; false when none is running. */
function noteUnhandled(reason) {
  if (!running) return false;
  running.unhandled.push(reason);
  return true;
}

module.exports = { changeExecutor, noteUnhandled };
