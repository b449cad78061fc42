"use strict";
// A data frame of danfojs as a cell's last value: a table of its first rows. (It has no display
// of its own for notebooks; printed as an object it fills pages.)
const MOST_ROWS = 30;

/** A frame, or a series: one column of it. */
function isFrame(value) {
  return (
    (value?.constructor?.name === "DataFrame" || value?.constructor?.name === "Series") &&
    Array.isArray(value.columns) &&
    Array.isArray(value.values) &&
    Array.isArray(value.index)
  );
}

/** The MIME bundle of a frame: HTML and text. */
function frameBundle(frame) {
  const columns = frame.columns.map(String);
  const values = frame.values.map((row) => (Array.isArray(row) ? row : [row]));
  const rows = values.slice(0, MOST_ROWS).map((row) => row.map(cellText));
  const index = frame.index.slice(0, MOST_ROWS).map(String);
  const size = `${frame.values.length} rows, ${columns.length} columns${frame.values.length > MOST_ROWS ? `; the first ${MOST_ROWS} are shown` : ""}`;
  const numeric = columns.map((_, at) => values.some((row) => typeof row[at] === "number"));
  return {
    "text/html": html(columns, rows, index, numeric, size),
    "text/plain": text(columns, rows, index, numeric, size),
  };
}

/** A missing value is shown as missing, never as a number. */
function cellText(value) {
  if (value === null || value === undefined || Number.isNaN(value)) return "-";
  return typeof value === "number" && !Number.isInteger(value)
    ? String(Number(value.toPrecision(6)))
    : String(value);
}

function html(columns, rows, index, numeric, size) {
  const align = (at) => (numeric[at] ? ' style="text-align: right"' : ' style="text-align: left"');
  // A page that is not trusted strips styles and aligns cells to the right: a block stays.
  const block = (at, content) => (numeric[at] ? content : `<div align="left">${content}</div>`);
  const head = columns
    .map((name, at) => `<th scope="col"${align(at)}>${block(at, escape(name))}</th>`)
    .join("");
  const body = rows
    .map(
      (row, at) =>
        `<tr><th scope="row">${escape(index[at])}</th>${row.map((cell, column) => `<td${align(column)}>${block(column, escape(cell))}</td>`).join("")}</tr>`,
    )
    .join("");
  return `<table><caption>${size}</caption><thead><tr><th scope="col">row</th>${head}</tr></thead><tbody>${body}</tbody></table>`;
}

function text(columns, rows, index, numeric, size) {
  const lines = [["row", ...columns], ...rows.map((row, at) => [index[at], ...row])];
  const widths = lines[0].map((_, at) => Math.max(...lines.map((line) => line[at].length)));
  const laidOut = lines.map((line) =>
    line
      .map((cell, at) => (numeric[at - 1] ? cell.padStart(widths[at]) : cell.padEnd(widths[at])))
      .join("  ")
      .trimEnd(),
  );
  return [...laidOut, size].join("\n");
}

function escape(value) {
  return value
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/"/g, "&quot;");
}

module.exports = { frameBundle, isFrame };
