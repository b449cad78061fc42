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
  /** Value of the measure before and after the change; NaN where it cannot be told. */
  readonly before: number;
  readonly after: number;
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

/** A dumbbell a group: the measure as the provision stands (open) and with the proposal (filled), or by two other `names`, against the target. */
export function beforeAfter(input: BeforeAfterInput): Figure {
  const { groups } = input;
  const target = input.target ?? 1;
  const names = input.names ?? { before: "provision as it stands", after: "with the proposal" };
  const values = groups.flatMap((group) => [group.before, group.after]);
  const range = paddedRange(values, [target], 0.08);
  const yRange: [number, number] = [groups.length - 0.5, -0.5];
  const rows = groups.map((group) => ({ label: group.label, detail: `n = ${group.n}` }));
  const labels = rowLabels(rows, printWidth(input.size ?? "two-column"), rowHeight);
  const data = [
    uprightLine(target, yRange),
    bars(groups),
    ends(groups, names.before, "before", { symbol: "circle", size: 9, color: colours.paper, line: { color: colours.ink, width: 1.5 } }),
    ends(groups, names.after, "after", { symbol: "circle", size: 9, color: colours.accent, line: { color: colours.accent, width: 1.5 } }),
  ];
  const layout = frame(input, {
    defaultSize: "two-column",
    plotHeight: Math.max(2, groups.length) * labels.rowHeight,
    legend: legendNames(data),
    margin: { left: labels.left },
    parts: {
      xaxis: { ...houseAxis(input.measure), range },
      yaxis: { ...houseAxis(""), range: yRange, tickvals: groups.map((_, i) => i), ticktext: labels.texts, ticks: "", gridcolor: colours.grid },
    },
  });
  const short = (of: (group: BeforeAfterGroup) => number): number => groups.filter((group) => of(group) < target).length;
  const sides = input.names ? ([`${names.before} and ${names.after}`, "the first way", "the second"] as const) : (["before and after the proposal", "before", "after"] as const);
  const alt = `${input.measure} of ${groups.length} groups, ${sides[0]}: ${short((g) => g.before)} groups lie below ${shown(target)} ${sides[1]}, ${short((g) => g.after)} ${sides[2]}.`;
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

function ends(groups: readonly BeforeAfterGroup[], name: string, side: "before" | "after", marker: PlotValue): Trace {
  const kept = groups.map((group, row) => ({ group, row })).filter(({ group }) => Number.isFinite(group[side]));
  return {
    type: "scatter",
    mode: "markers",
    name: plainText(name),
    x: kept.map(({ group }) => group[side]),
    y: kept.map(({ row }) => row),
    text: kept.map(({ group }) => plainText(group.label)),
    hovertemplate: "%{text}<br>%{x:.3f}<extra></extra>",
    marker,
  };
}
