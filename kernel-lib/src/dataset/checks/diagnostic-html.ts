import { countBySeverity, type Diagnostic } from "../diagnostics";
import type { Dataset } from "../dataset";

const escaped = (text: string): string =>
  text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");

/**
 * The findings on a data set as one self-contained HTML page: counts, a table of findings, the rows
 * rejected as typed.
 */
export function diagnosticHtml(
  dataset: Pick<Dataset, "name" | "tests" | "rejected">,
  diagnostics: ReadonlyArray<Diagnostic>,
): string {
  const counts = countBySeverity(diagnostics);
  const order = { error: 0, warning: 1, information: 2 } as const;
  const sorted = [...diagnostics].sort((a, b) => order[a.severity] - order[b.severity]);
  const row = (cells: ReadonlyArray<string>, tag: "td" | "th" = "td"): string =>
    `<tr>${cells.map((cell) => `<${tag === "th" ? 'th scope="col"' : "td"}>${escaped(cell)}</${tag}>`).join("")}</tr>`;
  const table = (
    caption: string,
    header: ReadonlyArray<string>,
    rows: ReadonlyArray<string>,
  ): string =>
    rows.length === 0
      ? ""
      : `<table><caption>${escaped(caption)}</caption><thead>${row(header, "th")}</thead><tbody>${rows.join("\n")}</tbody></table>`;
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>Check of ${escaped(dataset.name)}</title>
<style>body{font:16px/1.5 system-ui,sans-serif;margin:2rem auto;max-width:70rem;padding:0 1rem}table{border-collapse:collapse;margin:1.5rem 0;width:100%}caption{font-weight:600;text-align:left;padding:.3rem 0}th,td{border:1px solid #888;padding:.3rem .5rem;text-align:left;vertical-align:top;overflow-wrap:anywhere}</style></head>
<body><main><h1>Check of ${escaped(dataset.name)}</h1>
<p>${String(dataset.tests.length)} usable rows, ${String(dataset.rejected.length)} rejected. ${String(counts.error)} errors, ${String(counts.warning)} warnings, ${String(counts.information)} notes.</p>
${table(
  "Findings",
  ["severity", "rule", "file", "row", "column", "value", "expected", "message"],
  sorted.map((d) =>
    row([
      d.severity,
      d.rule,
      d.file,
      d.row === null ? "" : String(d.row),
      d.column ?? "",
      d.value ?? "",
      d.expected,
      d.message,
    ]),
  ),
)}
${table(
  "Rejected rows, as typed",
  ["file", "row", "reasons", "cells"],
  dataset.rejected.map((r) =>
    row([r.file, String(r.row), r.reasons.join("; "), r.cells.join(" | ")]),
  ),
)}
</main></body></html>
`;
}
