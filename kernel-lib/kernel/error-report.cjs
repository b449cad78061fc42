"use strict";
// Jupyter's `error` message: name, value and a traceback that points at the cell's line.
const path = require("node:path");
const { inspect } = require("node:util");
const { cellLines, cellPosition } = require("./cell-positions.cjs");

const FRAME = /^\s*at (?:async )?(?:(.*?) \()?(.+?):(\d+):(\d+)\)?$/;
const CELL_NAME = /^cell \[\d+\]$/;
const MOST_FRAMES = 8;

/** The report of a value that a cell threw, or of a rejection nobody handled. */
function reportThrown(thrown, ename) {
  if (isInterrupt(thrown))
    return report("Interrupted", "the cell was interrupted before it ended", []);
  if (!(thrown instanceof Error) && typeof thrown?.stack !== "string") {
    return report(ename ?? "Thrown", typeof thrown === "string" ? thrown : inspect(thrown), []);
  }
  const frames = readFrames(String(thrown.stack ?? ""));
  const first = frames.find((frame) => frame.inCell);
  const lines = first
    ? ["", `${first.file}, line ${first.line}, column ${first.column}`, ...excerpt(first)]
    : [];
  // The wrapping that makes top-level await work repeats a cell's own frame.
  const places = frames.map(({ text }) => text).filter((text, at, all) => text !== all[at - 1]);
  const shown = places.slice(0, MOST_FRAMES).map((text) => `  at ${text}`);
  if (shown.length > 0) lines.push("", ...shown);
  if (thrown.cause !== undefined) lines.push("", `caused by ${headline(thrown.cause)}`);
  const hint = hintFor(String(thrown.message)) ?? frameHint(thrown);
  if (hint) lines.push("", hint);
  return report(ename ?? thrown.name ?? "Error", String(thrown.message), lines);
}

/** The report of a cell that does not compile: every complaint, the first with the lines it is of. */
function reportDiagnostics(cell, diagnostics) {
  const lines = [];
  for (const [index, { file, line, column, text }] of diagnostics.entries()) {
    if (index < 2) lines.push("");
    lines.push(`${file ?? cell}, line ${line}, column ${column}: ${text}`);
    if (index === 0 && file === undefined) lines.push(...excerpt({ file: cell, line, column }));
    const hint = hintFor(text);
    if (hint) lines.push(hint);
  }
  const first = diagnostics[0];
  return report(
    "CompileError",
    first ? `line ${first.line}: ${first.text}` : "the cell does not compile",
    lines,
  );
}

function report(ename, evalue, lines) {
  return { ename, evalue, traceback: [`${ename}: ${evalue}`, ...lines] };
}

function headline(thrown) {
  return thrown instanceof Error ? `${thrown.name}: ${thrown.message}` : inspect(thrown);
}

function isInterrupt(thrown) {
  return (
    thrown?.code === "ERR_SCRIPT_EXECUTION_INTERRUPTED" ||
    thrown?.message === "Interrupted asynchronously"
  );
}

function readFrames(stack) {
  const frames = [];
  for (const text of stack.split("\n")) {
    const [, name, file, line, column] = FRAME.exec(text) ?? [];
    if (
      file === undefined ||
      /^node:|[\\/]tslab[\\/]dist[\\/]/.test(file) ||
      file.startsWith(__dirname)
    )
      continue;
    const position = cellPosition(file, Number(line), Number(column));
    if (CELL_NAME.test(file)) {
      if (!position) continue;
      const place = `${file}, line ${position.line}`;
      frames.push({
        file,
        ...position,
        inCell: true,
        text: name && name !== "eval" ? `${name} (${place})` : place,
      });
    } else {
      const place = `${path.relative(process.cwd(), file.replace(/^file:\/\//, "")) || file}:${line}`;
      frames.push({ file, inCell: false, text: name ? `${name} (${place})` : place });
    }
  }
  return frames;
}

/** Two lines before the faulty one, the line itself marked, and a caret under the column. */
function excerpt({ file, line, column }) {
  const lines = cellLines(file);
  const from = Math.max(1, line - 2);
  const width = String(line).length;
  const out = [];
  for (let number = from; number <= line && number <= lines.length; number++) {
    out.push(
      `${number === line ? ">" : " "} ${String(number).padStart(width)} | ${lines[number - 1]}`,
    );
  }
  if (line <= lines.length)
    out.push(`  ${" ".repeat(width)} | ${" ".repeat(Math.max(0, column - 1))}^`);
  return out;
}

/** The frame library says little of rows that it cannot take. */
function frameHint({ message, stack }) {
  if (!/[\\/]danfojs/.test(String(stack))) return undefined;
  if (/Cannot convert object to primitive|File format not supported/.test(String(message)))
    return "A frame takes rows whose values are numbers, texts or null. Rows of tests hold an object in `extra`, and `toFrame()` gives a promise: `await study.toFrame()` is a frame already.";
  return undefined;
}

function hintFor(message) {
  const missing = /Cannot find module '([^']+)'/.exec(message)?.[1];
  if (missing === undefined) return undefined;
  if (missing !== "kernel-lib" && !missing.includes("kernel-lib")) return undefined;
  return [
    "kernel-lib is looked for in node_modules of the notebook's folder and of every folder above it.",
    "Keep the notebook inside the project's folder, and run `npm ci` there once (it installs and builds the library).",
    `The notebook's folder is ${process.cwd()}`,
  ].join("\n");
}

module.exports = { reportThrown, reportDiagnostics };
