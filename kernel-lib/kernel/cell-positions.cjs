"use strict";
// From a position in the JavaScript that runs back to the line of the cell. tslab compiles in
// two steps (TypeScript to JavaScript, then modules to CommonJS), so two source maps are kept.
const { SourceMap } = require("node:module");
const vm = require("node:vm");

const MAP_COMMENT = /\n?\/\/# sourceMappingURL=(?:data:application\/json;base64,)?(\S+)\s*$/;
const CELL_PREFIX = /^\((?:async )?function\(exports, require\) \{ /;
const CELL_SUFFIX = "\n})(__tslab__.exports, __tslab__.require)";

/** Maps of compiled text that has not run yet, and of the cells that have. */
const mapsOfText = new Map();
const cells = new Map();
let runningCell = "cell";

function transpileKeepingPositions(ts, source, options) {
  const comment = MAP_COMMENT.exec(source);
  const result = ts.transpileModule(comment ? source.slice(0, comment.index) : source, {
    ...options,
    compilerOptions: { ...options.compilerOptions, sourceMap: true },
  });
  const outputText = result.outputText.replace(MAP_COMMENT, "");
  if (comment) mapsOfText.set(outputText, [result.sourceMapText, Buffer.from(comment[1], "base64").toString()]);
  return { ...result, outputText };
}

/** Announces the cell that runs next: its name in stack traces and its text. */
function nameRunningCell(name, source) {
  runningCell = name;
  mapsOfText.clear();
  cells.set(name, { lines: source.split("\n"), maps: undefined });
}

// tslab runs a cell by `vm.runInThisContext` without a file name; give it the cell's.
const runInThisContext = vm.runInThisContext;
vm.runInThisContext = function (code, options) {
  const prefix = typeof code === "string" && options?.breakOnSigint && CELL_PREFIX.exec(code);
  if (!prefix) return runInThisContext.call(this, code, options);
  const text = code.slice(prefix[0].length, -CELL_SUFFIX.length);
  const cell = cells.get(runningCell);
  if (cell) cell.maps = mapsOfText.get(text);
  return runInThisContext.call(this, code, { ...options, filename: runningCell, columnOffset: -prefix[0].length });
};

/** Line and column (from 1) in the cell's own text; undefined when the position is not the cell's. */
function cellPosition(name, line, column) {
  const maps = cells.get(name)?.maps;
  if (!maps) return undefined;
  let at = { line: line - 1, column: column - 1 };
  for (const text of maps) {
    const entry = new SourceMap(JSON.parse(text)).findEntry(at.line, at.column);
    if (entry.originalLine === undefined) return undefined;
    at = { line: entry.originalLine, column: entry.originalColumn };
  }
  // tslab puts one line before the cell's text.
  return at.line < 1 ? undefined : { line: at.line, column: at.column + 1 };
}

function cellLines(name) {
  return cells.get(name)?.lines ?? [];
}

module.exports = { transpileKeepingPositions, nameRunningCell, cellPosition, cellLines };
