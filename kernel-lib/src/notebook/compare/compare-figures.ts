import { compareValues, isRecord } from "./compare-values";
import type { DifferenceList } from "./difference";

/** Media type under which a cell's figure stands as data. */
export const FIGURE_TYPE = "application/vnd.plotly.v1+json";

/**
 * Compares two figures by their data and layout, trace by trace; how they are drawn does not
 * matter.
 */
export function compareFigures(
  where: string,
  recorded: unknown,
  rerun: unknown,
  list: DifferenceList,
): void {
  if (
    !isRecord(recorded) ||
    !isRecord(rerun) ||
    !Array.isArray(recorded["data"]) ||
    !Array.isArray(rerun["data"])
  ) {
    return compareValues(where, recorded, rerun, list);
  }
  const { data: before, ...restBefore } = recorded as { data: unknown[] };
  const { data: after, ...restAfter } = rerun as { data: unknown[] };
  if (before.length !== after.length)
    list.other(`${where}, traces`, String(before.length), String(after.length));
  before.slice(0, after.length).forEach((trace, index) => {
    const name =
      isRecord(trace) && typeof trace["name"] === "string"
        ? `"${trace["name"]}"`
        : String(index + 1);
    compareValues(`${where}, trace ${name}`, trace, after[index], list);
  });
  for (const part of new Set([...Object.keys(restBefore), ...Object.keys(restAfter)])) {
    compareValues(
      `${where}, ${part}`,
      (restBefore as Record<string, unknown>)[part],
      (restAfter as Record<string, unknown>)[part],
      list,
    );
  }
}
