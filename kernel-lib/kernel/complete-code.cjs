"use strict";
// Whether a cell can run as it stands, for consoles that ask after every line.
const { syntaxOf } = require("./cell-places.cjs");

/** What the compiler says where a template or a comment has no end. */
const OPEN_TEXT = new Set([1160, 1010]);
/** What it says where a quote or a regular expression ends with its line. */
const BROKEN_LINE = new Set([1002, 1161]);

/**
 * Reply to `is_complete_request`. The first complaint of the compiler decides: at the end of the
 * text something is still to come, elsewhere the cell is broken.
 */
function isCompleteReply({ code }) {
  const [first] = syntaxOf(code).parseDiagnostics;
  if (first === undefined) return { status: "complete" };
  if (OPEN_TEXT.has(first.code)) return { status: "incomplete", indent: "" };
  const atEnd = code.slice(first.start).trim() === "";
  if (BROKEN_LINE.has(first.code) || !atEnd) return { status: "invalid" };
  // Two empty lines at the end ask for it to run all the same.
  if (/\n[ \t]*\n[ \t]*$/.test(code)) return { status: "complete" };
  return { status: "incomplete", indent: indentAfter(code) };
}

function indentAfter(code) {
  const line = code.slice(code.lastIndexOf("\n") + 1);
  const [own] = /^\s*/.exec(line);
  return /[{([]\s*$/.test(line) ? `${own}  ` : own;
}

module.exports = { isCompleteReply };
