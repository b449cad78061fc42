import type { Figure, FigureText, PlotValue, Trace } from "./figure";
import { figureOf } from "./figure";
import { frame, legendNames } from "./frame";
import { colours, houseAxis, printWidth } from "./house-style";
import { uprightLine } from "./level-line";
import { paddedRange, shown } from "./numbers";
import { rowLabels } from "./row-labels";
import { plainText } from "./text-width";

export interface BeforeAfterGroup {
  readonly label: string;
  readonly n: number;
  /** Value of the measure before and after the change; NaN where it cannot be estimated. */
  readonly before: number;
  readonly after: number;
  /**
   * Upper bounds where the measure is the lower bound of a fractile: the interval between them is
   * drawn.
   */
  readonly upperBefore?: number;
  readonly upperAfter?: number;
  /** Verdicts before and after in words, shown below the label. */
  readonly verdicts?: string;
}

export interface BeforeAfterInput extends FigureText {
  readonly groups: readonly BeforeAfterGroup[];
  /** The measure, e.g. "Characteristic test-to-predicted ratio (–)". */
  readonly measure: string;
  /** Target drawn as a line; 1 by default. */
  readonly target?: number;
  readonly names?: { readonly before: string; readonly after: string };
}

const rowHeight = 34;

/**
 * Each group before (open) and after (filled) a change, or by two other `names`, against the
 * target. A dumbbell where the measure is one number; where it is the lower bound of a fractile
 * with an upper one, two intervals one above the other.
 */
export function beforeAfter(input: BeforeAfterInput): Figure {
  const { groups } = input;
  const target = input.target ?? 1;
  const names = input.names ?? { before: "present provision", after: "with the proposal" };
  const bounded = groups.some(
    ({ upperBefore, upperAfter }) => upperBefore !== undefined || upperAfter !== undefined,
  );
  const values = groups.flatMap(({ before, after, upperBefore = NaN, upperAfter = NaN }) => [
    before,
    after,
    upperBefore,
    upperAfter,
  ]);
  const range = paddedRange(values, [target], 0.08);
  const yRange: [number, number] = [groups.length - 0.5, -0.5];
  const rows = groups.map((group) => ({
    label: group.label,
    detail: `n = ${group.n}${group.verdicts === undefined ? "" : `: ${group.verdicts}`}`,
  }));
  const labels = rowLabels(
    rows,
    printWidth(input.size ?? "two-column"),
    bounded ? 1.2 * rowHeight : rowHeight,
  );
  const apart = bounded ? APART : 0;
  const data = [
    uprightLine(target, yRange),
    ...(bounded
      ? [intervals(groups, "before", -apart), intervals(groups, "after", apart)]
      : [bars(groups)]),
    ends(groups, names.before, "before", -apart, {
      symbol: "circle",
      size: 9,
      color: colours.paper,
      line: { color: colours.ink, width: 1.5 },
    }),
    ends(groups, names.after, "after", apart, {
      symbol: "circle",
      size: 9,
      color: colours.accent,
      line: { color: colours.accent, width: 1.5 },
    }),
  ];
  const layout = frame(input, {
    defaultSize: "two-column",
    plotHeight: Math.max(2, groups.length) * labels.rowHeight,
    legend: legendNames(data),
    margin: { left: labels.left },
    parts: {
      xaxis: { ...houseAxis(input.measure), range },
      yaxis: {
        ...houseAxis(""),
        range: yRange,
        tickvals: groups.map((_, i) => i),
        ticktext: labels.texts,
        ticks: "",
        gridcolor: colours.grid,
      },
    },
  });
  const short = (of: (group: BeforeAfterGroup) => number): number =>
    groups.filter((group) => of(group) < target).length;
  const sides = input.names
    ? ([`${names.before} and ${names.after}`, "the first way", "the second"] as const)
    : (["before and after the proposal", "before", "after"] as const);
  const alt = `${input.measure} of ${groups.length} groups, ${sides[0]}: ${short((g) => g.before)} groups are below ${shown(target)} ${sides[1]}, ${short((g) => g.after)} ${sides[2]}.`;
  return figureOf(input, alt, data, layout);
}

function bars(groups: readonly BeforeAfterGroup[]): Trace {
  const x: (number | null)[] = [];
  const y: (number | null)[] = [];
  groups.forEach((group, row) => {
    if (!Number.isFinite(group.before) || !Number.isFinite(group.after)) return;
    x.push(group.before, group.after, null);
    y.push(row, row, null);
  });
  const line = { color: colours.mid, width: 2.5 };
  return { type: "scatter", mode: "lines", x, y, line, showlegend: false, hoverinfo: "skip" };
}

/** Share of a row by which the two intervals stand above and below its middle. */
const APART = 0.18;

/**
 * From the lower bound, where the mark stands, to the upper bound, which ends in a short cross
 * line.
 */
function intervals(
  groups: readonly BeforeAfterGroup[],
  side: "before" | "after",
  shift: number,
): Trace {
  const [x, y]: [(number | null)[], (number | null)[]] = [[], []];
  groups.forEach((group, row) => {
    const upper = (side === "before" ? group.upperBefore : group.upperAfter) ?? NaN;
    if (!Number.isFinite(group[side]) || !Number.isFinite(upper)) return;
    const at = row + shift;
    x.push(group[side], upper, null, upper, upper, null);
    y.push(at, at, null, at - 0.09, at + 0.09, null);
  });
  return {
    type: "scatter",
    mode: "lines",
    x,
    y,
    line: { color: side === "before" ? colours.quiet : colours.accent, width: 1.75 },
    showlegend: false,
    hoverinfo: "skip",
  };
}

function ends(
  groups: readonly BeforeAfterGroup[],
  name: string,
  side: "before" | "after",
  shift: number,
  marker: PlotValue,
): Trace {
  const kept = groups
    .map((group, row) => ({ group, row }))
    .filter(({ group }) => Number.isFinite(group[side]));
  return {
    type: "scatter",
    mode: "markers",
    name: plainText(name),
    x: kept.map(({ group }) => group[side]),
    y: kept.map(({ row }) => row + shift),
    text: kept.map(({ group }) => plainText(group.label)),
    hovertemplate: "%{text}<br>%{x:.3f}<extra></extra>",
    marker,
  };
}
