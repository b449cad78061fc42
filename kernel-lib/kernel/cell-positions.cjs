"use strict";
// From a position in the JavaScript that runs back to the line of the cell, by the source map.
const { SourceMap } = require("node:module");
const vm = require("node:vm");
const { takeConverted } = require("./common-js-emit.cjs");

const CELL_PREFIX = /^\((?:async )?function\(exports, require\) \{ /;
const CELL_SUFFIX = "\n})(__tslab__.exports, __tslab__.require)";

/** Maps of compiled text that has not run yet, and of the cells that have. */
const mapsOfText = new Map();
const cells = new Map();
let runningCell = "cell";
let cellsAreWatched = false;

/**
 * tslab's conversion to CommonJS, which the compiler has done already; anything else is converted
 * as asked.
 */
function convertKeepingPositions(ts, source, options) {
  const done = takeConverted(source);
  if (!done) return ts.transpileModule(source, options);
  mapsOfText.set(source, done.sourceMap);
  return { outputText: source, diagnostics: [] };
}

/** Announces the cell that runs next: its name in stack traces and its text. */
function nameRunningCell(name, source) {
  runningCell = name;
  mapsOfText.clear();
  cells.set(name, { lines: source.split("\n"), map: undefined });
}

// tslab runs a cell by `vm.runInThisContext` without a file name; give it the cell's.
const runInThisContext = vm.runInThisContext;
vm.runInThisContext = function (code, options) {
  const prefix = typeof code === "string" && options?.breakOnSigint && CELL_PREFIX.exec(code);
  if (!prefix) return runInThisContext.call(this, code, options);
  const text = code.slice(prefix[0].length, -CELL_SUFFIX.length);
  const cell = cells.get(runningCell);
  if (cell) cell.map = mapsOfText.get(text);
  // Node's own watch for interrupts starts and ends a thread for every cell, and would deafen ours.
  return runInThisContext.call(this, code, {
    breakOnSigint: !cellsAreWatched,
    filename: runningCell,
    columnOffset: -prefix[0].length,
  });
};

/** Says that interrupts are heard by a thread of their own. */
function cellsWatched(watched) {
  cellsAreWatched = watched;
}

/**
 * Line and column (from 1) in the cell's own text; undefined when the position is not the cell's.
 */
function cellPosition(name, line, column) {
  const map = cells.get(name)?.map;
  if (map === undefined) return undefined;
  const { originalLine, originalColumn } = new SourceMap(JSON.parse(map)).findEntry(
    line - 1,
    column - 1,
  );
  // tslab puts one line before the cell's text.
  return originalLine === undefined || originalLine < 1
    ? undefined
    : { line: originalLine, column: originalColumn + 1 };
}

function cellLines(name) {
  return cells.get(name)?.lines ?? [];
}

module.exports = {
  convertKeepingPositions,
  nameRunningCell,
  cellsWatched,
  cellPosition,
  cellLines,
};
