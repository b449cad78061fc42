import {
  calculation,
  inputKey,
  showTrace,
  type CalculationContext,
  type PlacingLine,
  type ShownTrace,
  type Trace,
} from "../../provisions";
import { brokenLine } from "../../formula";
import { escapeHtml, Table } from "../../tables";
import { terminalWidth } from "../use/terminal-width";

/**
 * Calculations of one test in a row: an input is listed where it is first used, the caution stands
 * at the end.
 */
export function listedOnce(traces: readonly Trace[], context: CalculationContext): ShownTrace[] {
  const listed = new Set<string>();
  return traces.map((each, k) => {
    const own = { ...context, listed: new Set(listed), caution: k === traces.length - 1 };
    calculation(each, own).parts.forEach(({ inputs }) =>
      inputs.forEach((line) => listed.add(inputKey(line))),
    );
    return showTrace(each, own);
  });
}

/** Overview, hand calculations and lists in one of the formats. */
export async function printed(
  overview: readonly Table[],
  traces: readonly ShownTrace[],
  lists: readonly Table[],
  format: "text" | "markdown" | "html" | "latex",
  title: string,
): Promise<string> {
  if (format === "text")
    return [
      ...overview.map((table) => table.toText(terminalWidth())),
      ...traces.map((each) => each.toText()),
      ...lists.map(listText),
    ].join("\n\n\n");
  if (format === "markdown")
    return [
      ...overview.map((table) => table.toMarkdown()),
      ...traces.map((each) => each.toMarkdown()),
      ...lists.map((table) => table.toMarkdown()),
    ].join("\n\n---\n\n");
  if (format === "latex")
    return [
      ...overview.map((table) => table.toLatex()),
      ...traces.map((each) => each.toLatex()),
      ...lists.map((table) => table.toLatex()),
    ].join("\n\n\\clearpage\n");
  const heading = `Hand calculation: ${escapeHtml(title)}`;
  const sections = [
    ...overview.map((table) => table.toHtml()),
    ...(await Promise.all(traces.map((each) => each.toHtml()))),
    ...lists.map((table) => table.toHtml()),
  ];
  return `<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>${heading}</title><style>${STYLE}</style></head><body>\n<h1>${heading}</h1>\n${sections.join("\n")}\n</body></html>`;
}

/** Rules of spacing, edge distance and thickness, as a table. */
export function placingList(placing: readonly PlacingLine[], id: string): Table {
  return new Table({
    id: "placing",
    title: `Spacing, edge distance and thickness: test ${id}`,
    rowKey: ["rule"],
    columns: [
      { key: "verdict", title: "Verdict", kind: "text" },
      { key: "rule", title: "Rule", kind: "text" },
      { key: "clause", title: "Clause", kind: "text" },
    ],
    rows: placing.map(({ verdict, clause, says }) => ({ verdict, rule: says, clause })),
    notes: ["These rules withhold no capacity."],
  });
}

/** Long sentences read better in lines than in a table as wide as they are. */
function listText({ title, columns, rows, notes }: Table): string {
  return [
    title,
    "=".repeat(title.length),
    ...rows.map((row) =>
      brokenLine(
        `  ${columns.map(({ key }) => String(row[key] ?? "")).join(": ")}`,
        terminalWidth(),
        4,
      ),
    ),
    ...notes,
  ].join("\n");
}

const STYLE =
  "h1{font-size:1.4rem}body{font-family:sans-serif;max-width:75rem;margin:2rem auto;padding:0 1rem}table{border-collapse:collapse;width:100%;margin:1rem 0}caption{text-align:left;font-weight:bold}td,th{border:1px solid #999;padding:.25rem .5rem;text-align:left;vertical-align:top}thead th,.hand-calculation td:first-child,.hand-calculation td:nth-child(2){white-space:nowrap}tbody th{font-weight:normal}math{font-family:'STIX Two Math','Latin Modern Math','Cambria Math','Libertinus Math','DejaVu Math TeX Gyre',math}@media print{section{break-after:page}tr{break-inside:avoid}.steps{font-size:.8rem}}";
