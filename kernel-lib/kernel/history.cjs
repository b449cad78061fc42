"use strict";
// What was run in this session, for `history_request`. Nothing is kept on disk.

/** The only session there is; 0 means the same in a request. */
const SESSION = 1;
const MOST_CHARACTERS = 10_000;
const runs = [];

/** Takes down a cell; the returned function takes down what it shows. */
function remember(line, input) {
  const run = { line, input, output: null };
  runs.push(run);
  return (text) => {
    if (typeof text === "string") run.output = text.slice(0, MOST_CHARACTERS);
  };
}

/** Reply to `history_request`: the tail, a range of lines, or what fits a pattern with * and ?. */
function historyReply(request) {
  const found = chosen(request);
  const history = found.map(({ line, input, output }) => [
    SESSION,
    line,
    request.output ? [input, output] : input,
  ]);
  return { status: "ok", history };
}

function chosen({ hist_access_type: kind, n, session = 0, start = 0, stop, pattern, unique }) {
  if (kind === "range")
    return session === 0 || session === SESSION
      ? runs.filter(({ line }) => line >= start && (stop === undefined || line < stop))
      : [];
  const fitting = kind === "search" ? runs.filter(({ input }) => fits(input, pattern)) : runs;
  const kept = unique ? withoutRepeats(fitting) : fitting;
  return typeof n === "number" ? kept.slice(Math.max(0, kept.length - n)) : kept;
}

function fits(input, pattern) {
  const parts = String(pattern ?? "*")
    .replace(/[.+^${}()|[\]\\]/g, "\\$&")
    .replaceAll("*", "[^]*")
    .replaceAll("?", "[^]");
  return new RegExp(`^${parts}$`).test(input);
}

/** Of equal inputs the last. */
function withoutRepeats(list) {
  return [...new Map(list.map((run) => [run.input, run])).values()].sort((a, b) => a.line - b.line);
}

module.exports = { historyReply, remember };
