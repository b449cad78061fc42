"use strict";
// What hovering over a name shows: its type, then its documentation with every tag named.

const { calleeAt, quotedAt, unitsBefore } = require("./cell-places.cjs");

/** What the library says of a code, a provision or a column by its name. */
const ABOUT = Symbol.for("code-comparison.about");

/**
 * Reply to a request for help: on a name its type and documentation, between quotes what the
 * library knows of the name, elsewhere inside a call the function called.
 */
function hoverReply(executor, { code, cursor_pos: position }) {
  const at = unitsBefore(code, position);
  const text = aboutQuoted(code, at) ?? aboutName(executor, code, at);
  const data = text === undefined ? {} : { "text/plain": text };
  return { status: "ok", found: text !== undefined, data, metadata: {} };
}

function aboutQuoted(code, position) {
  const quoted = quotedAt(code, position);
  return quoted && globalThis[ABOUT]?.(code.slice(quoted.start, quoted.end));
}

function aboutName(executor, code, position) {
  const info = executor.inspect(code, position);
  if (info) return hoverText(info);
  const call = calleeAt(code, position);
  const called = call && executor.inspect(code, call.start);
  if (!called) return undefined;
  const parameter = parameterOf(called.displayParts ?? [], call.argument);
  const which = parameter === undefined ? "" : `argument ${call.argument}: ${parameter}\n\n`;
  return `${which}${hoverText(called)}`;
}

/** The text of the parameter that the argument is given to; the last one may take several. */
function parameterOf(parts, argument) {
  const parameters = [];
  let depth = 0;
  for (const { text, kind } of parts) {
    if (/^[)\]}]$/.test(text)) depth -= 1;
    if (depth === 1 && kind === "parameterName") parameters.push("");
    const ends = depth === 0 || (depth === 1 && text === ",");
    if (parameters.length > 0 && !ends) parameters[parameters.length - 1] += text;
    if (depth === 0 && parameters.length > 0) break;
    if (/^[([{]$/.test(text)) depth += 1;
  }
  return parameters[argument - 1]?.trim();
}

/** The text for the compiler's description of a name. */
function hoverText(info) {
  const declaration = joined(info.displayParts)
    // An imported name is an alias for the function; readers look for the function.
    .replace(/^\(alias\) /, "")
    .replace(/\nimport [^\n]*$/, "");
  const documentation = joined(info.documentation);
  const tags = (info.tags ?? []).map((tag) => tagText(tag)).filter((text) => text !== "");
  return [declaration, documentation, tags.join("\n")].filter((part) => part !== "").join("\n\n");
}

function tagText({ name, text }) {
  const words = joined(text).trim();
  if (words === "" && name !== "deprecated") return "";
  if (name === "example") return `example:\n${words.replace(/^```\w*\n?|```$/gm, "").trimEnd()}`;
  return `${name === "param" ? "" : `${name}: `}${words}`;
}

function joined(parts) {
  return (parts ?? []).map((part) => part.text).join("");
}

module.exports = { hoverReply };
