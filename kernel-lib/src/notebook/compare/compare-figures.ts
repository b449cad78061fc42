import { compareValues, isRecord } from "./compare-values";
import type { DifferenceList } from "./difference";

/** Media type under which a cell's figure stands as data. */
export const FIGURE_TYPE = "application/vnd.plotly.v1+json";

/** Compares two figures by their data and layout, trace by trace; how they are drawn does not matter. */
export function compareFigures(where: string, recorded: unknown, rerun: unknown, list: DifferenceList): void {
  const before = readFigure(recorded);
  const after = readFigure(rerun);
  if (before.traces.length !== after.traces.length) {
    list.other(`${where}, traces`, String(before.traces.length), String(after.traces.length));
  }
  before.traces.slice(0, after.traces.length).forEach((trace, index) => {
    const name = isRecord(trace) && typeof trace["name"] === "string" ? `"${trace["name"]}"` : String(index + 1);
    compareValues(`${where}, trace ${name}`, trace, after.traces[index], list);
  });
  compareValues(`${where}, layout`, before.layout, after.layout, list);
}

function readFigure(value: unknown): { traces: unknown[]; layout: unknown } {
  if (!isRecord(value)) return { traces: [], layout: undefined };
  return { traces: Array.isArray(value["data"]) ? value["data"] : [], layout: value["layout"] ?? {} };
}
