"use strict";
// The compiler rejects a misspelt code, column or view with the whole type that it expected, and
// suggests nothing for most of them. What would be accepted there is known: it is what completion
// offers at that place.

const NOT_ASSIGNABLE = /^(?:Argument of type|Type) '"(.*)"' is not assignable to/;
const NO_SUCH_KEY = /^Object literal may only specify known properties, \w+ '(.*)' does not exist/;

/**
 * Complaints of the compiler in words of the reader: a name that is not accepted is answered with
 * the nearest that is. Where two complaints are of one place, the more exact one stays.
 */
function withNearestNames(executor, source, diagnostics) {
  const told = diagnostics.map((diagnostic) => ({
    ...diagnostic,
    ...nearest(executor, source, diagnostic),
  }));
  return told.filter(
    (one, k) =>
      one.exact || !told.some((other, j) => j !== k && other.exact && samePlace(one, other)),
  );
}

function samePlace(one, other) {
  return one.line === other.line && one.column === other.column;
}

function nearest(executor, source, { text, line, file }) {
  if (file !== undefined) return {};
  const [, value] = NOT_ASSIGNABLE.exec(text) ?? [];
  const [, key] = NO_SUCH_KEY.exec(text) ?? [];
  const given = value ?? key;
  if (given === undefined) return {};
  const lineStart = startOfLine(source, line);
  const written = value === undefined ? new RegExp(`\\b${escaped(key)}\\b`) : quoted(value);
  const at = source.slice(lineStart).search(written);
  if (at < 0) return {};
  const start = lineStart + at + (value === undefined ? 0 : 1);
  const cell = source.slice(0, start) + source.slice(start + given.length);
  const known = executor.complete(cell, start).candidates;
  const found = closest(given, known);
  if (known.length === 0 || found === given) return {};
  const what =
    value === undefined ? `There is no "${given}" here` : `"${given}" is not accepted here`;
  const some =
    known.length <= 12
      ? ` Expected one of ${known.join(", ")}.`
      : found === undefined
        ? ` The Tab key lists the ${known.length} names that are.`
        : "";
  return {
    text: `${what}.${found === undefined ? "" : ` Did you mean "${found}"?`}${some}`,
    exact: true,
  };
}

function quoted(value) {
  return new RegExp(`["'\`]${escaped(value)}["'\`]`);
}

function escaped(text) {
  return text.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&");
}

function startOfLine(source, line) {
  const before = source.split("\n").slice(0, Number(line) - 1);
  return before.reduce((length, text) => length + text.length + 1, 0);
}

/**
 * The name with the fewest changed letters, if these are at most a third of it; else the first that
 * begins with what was written; else the first of which a part is nearly what was written.
 */
function closest(given, known) {
  const asked = given.toLowerCase();
  if (asked === "") return undefined;
  const near = (words, most) =>
    words
      .map(({ name, word }) => ({ name, changed: distance(asked, word.toLowerCase()) }))
      .filter(({ changed }) => changed <= most)
      .sort((a, b) => a.changed - b.changed)[0]?.name;
  const parts = known.flatMap((name) => name.split(/[_ ]/).map((word) => ({ name, word })));
  return (
    near(
      known.map((name) => ({ name, word: name })),
      Math.max(2, given.length / 3),
    ) ??
    known.find((name) => name.toLowerCase().startsWith(asked)) ??
    near(parts, given.length < 4 ? 0 : 1)
  );
}

/** Levenshtein distance; two neighbours exchanged count as one change. */
function distance(a, b) {
  const rows = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  for (let i = 1; i <= a.length; i++) {
    rows[i] = [i];
    for (let j = 1; j <= b.length; j++) {
      const changed = rows[i - 1][j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1);
      rows[i][j] = Math.min(rows[i - 1][j] + 1, rows[i][j - 1] + 1, changed);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        rows[i][j] = Math.min(rows[i][j], rows[i - 2][j - 2] + 1);
    }
  }
  return rows[a.length][b.length];
}

module.exports = { withNearestNames };
