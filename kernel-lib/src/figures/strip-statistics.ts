import type { Trace } from "./figure";
import { colours } from "./house-style";
import { shown } from "./numbers";
import { rowMarks } from "./row-marks";
import type { StripGroup } from "./strip-group";

/** Marks of mean, mean − 3 SD and 5 % fractile, one a strip. */
export function statistics(groups: readonly StripGroup[]): Trace[] {
  return [
    rowMarks(groups, "mean", (group) => group.mean, {
      symbol: "line-ns",
      size: 13,
      line: { color: colours.ink, width: 2.25 },
    }),
    rowMarks(groups, "mean − 3 SD", (group) => group.meanMinus3Sd, {
      symbol: "x-thin",
      size: 8,
      line: { color: colours.ink, width: 1.75 },
    }),
    fractiles(groups),
  ];
}

/** The fractile as a diamond on its interval, below the marks of the tests. */
function fractiles(groups: readonly StripGroup[]): Trace {
  const kept = groups
    .map((group, row) => ({ group, row }))
    .filter(({ group }) => Number.isFinite(group.fractile));
  return {
    type: "scatter",
    mode: "markers",
    name: "5 % fractile with its bounds",
    x: kept.map(({ group }) => group.fractile),
    y: kept.map(({ row }) => row + FRACTILE_BELOW),
    error_x: {
      type: "data",
      symmetric: false,
      array: kept.map(({ group }) => group.upper - group.fractile),
      arrayminus: kept.map(({ group }) => group.fractile - group.lower),
      color: colours.accent,
      thickness: 1.75,
      width: 4,
    },
    text: kept.map(
      ({ group }) => `${shown(group.fractile)} (${shown(group.lower)} to ${shown(group.upper)})`,
    ),
    hovertemplate: "5 % fractile %{text}<extra></extra>",
    marker: {
      symbol: "diamond",
      size: 8,
      color: colours.accent,
      line: { color: colours.paper, width: 0.75 },
    },
  };
}

/** Share of a row by which the fractile stands below the tests. */
const FRACTILE_BELOW = 0.36;
