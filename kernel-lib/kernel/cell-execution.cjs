"use strict";
// Runs one cell in tslab's executor and reports what came of it as data, not as printed text.
const cellPositions = require("./cell-positions.cjs");
const { writeOutShorthand } = require("./shorthand.cjs");
const { reportDiagnostics, reportThrown } = require("./error-report.cjs");

const DIAGNOSTIC_FORMAT = "%s%d:%d - %s";

/** What the running cell has come to so far. */
let running;

/**
 * Wraps tslab's executor. Its only uses of the console it is given are the last value
 * (`log`), compiler diagnostics (`error` with a format) and the thrown value (`error`).
 */
function changeExecutor(module) {
  const createExecutor = (rootDir, converters) => {
    const executor = module.createExecutor(rootDir, converters, {
      log: (value) => running && (running.value = value),
      error: (...given) => running && note(given),
    });
    const interrupt = executor.interrupt;
    executor.interrupt = () => {
      interrupt();
      running?.interrupt?.();
    };
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

/** Resolves with { value } or { error: { ename, evalue, traceback } }. */
async function runCell(executor, source, name) {
  const state = { diagnostics: [], unhandled: [] };
  running = state;
  cellPositions.nameRunningCell(name, source);
  try {
    const done = await executor.execute(writeOutShorthand(source));
    if (!done) return { error: failure(name, state) };
    const settled = await settleValue(state);
    // Rejections that nobody handles are known once the event loop has turned.
    await new Promise((turned) => setImmediate(turned));
    if (settled.error) return settled;
    if (state.unhandled.length > 0) return { error: reportThrown(state.unhandled[0], "UnhandledRejection") };
    return { value: settled.value, warnings: state.diagnostics };
  } catch (error) {
    return { error: reportThrown(error) };
  } finally {
    running = undefined;
  }
}

function failure(name, state) {
  if (state.thrown) return reportThrown(state.thrown.value);
  return reportDiagnostics(name, state.diagnostics);
}

/** A promise as last value is waited for, so that `show(...)` needs no `await`. */
async function settleValue(state) {
  if (!(state.value instanceof Promise)) return { value: state.value };
  const interrupted = new Promise((_, reject) => {
    state.interrupt = () => reject(new Error("Interrupted asynchronously"));
  });
  try {
    return { value: await Promise.race([state.value, interrupted]) };
  } catch (error) {
    return { error: reportThrown(error) };
  }
}

/** Hands a rejection to the running cell; false when none is running. */
function noteUnhandled(reason) {
  if (!running) return false;
  running.unhandled.push(reason);
  return true;
}

module.exports = { changeExecutor, noteUnhandled };
