import type { PlotValue, Trace } from "./figure";
import { colours, lineWidths } from "./house-style";

/** One mark a row at a statistic of its group; a group without it has none. */
export function rowMarks<Group>(
  groups: readonly Group[],
  name: string,
  of: (group: Group) => number,
  marker: PlotValue,
): Trace {
  const kept = groups
    .map((group, row) => ({ row, value: of(group) }))
    .filter(({ value }) => Number.isFinite(value));
  return {
    type: "scatter",
    mode: "markers",
    name,
    x: kept.map(({ value }) => value),
    y: kept.map(({ row }) => row),
    hovertemplate: `${name} %{x:.3f}<extra></extra>`,
    marker,
  };
}

/** Thin lines between the rows. */
export function separators(count: number): PlotValue[] {
  return Array.from({ length: Math.max(0, count - 1) }, (_, i) => ({
    type: "line",
    xref: "paper",
    x0: 0,
    x1: 1,
    y0: i + 0.5,
    y1: i + 0.5,
    layer: "below",
    line: { color: colours.grid, width: lineWidths.thin },
  }));
}
