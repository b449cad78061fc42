import type { Figure, FigureText, Trace } from "./figure";
import { figureOf } from "./figure";
import { frame, legendNames } from "./frame";
import { censoredMarker, colours, houseAxis, printWidth } from "./house-style";
import { uprightLine } from "./level-line";
import { paddedRange, shown } from "./numbers";
import { rowLabels } from "./row-labels";
import { rowMarks, separators } from "./row-marks";
import { stripOffsets } from "./strip-offsets";
import { plainText } from "./text-width";

/**
 * One tension test: bar stress over bar strength at the break in the grip, or where the test ended
 * in another way.
 */
export interface GripShare {
  readonly share: number;
  /** True where the bar did not break in the grip: the grip carries at least this share. */
  readonly lowerBound: boolean;
  readonly label?: string;
}

/** One grip. Missing statistics are NaN and leave no mark. */
export interface GripShareGroup {
  readonly label: string;
  readonly tests: readonly GripShare[];
  /** Median share at a break in the grip. */
  readonly median: number;
  /** Share below which few bars break in the grip, with the confidence that the caption names. */
  readonly reliable: number;
}

export interface GripSharesInput extends FigureText {
  readonly groups: readonly GripShareGroup[];
}

const leastRow = 40;
/** Marks closer than this part of the axis stand beside each other. */
const APART = 1 / 90;

/**
 * Share of bar strength at a break in the grip, one strip a grip: breaks as dots, tests that ended
 * in another way as open triangles (lower bounds), the median of the breaks, the reliable share,
 * and a line at the bar's own strength.
 * @example gripShares({ id: "grips", title: "…", caption: "…", groups: gripShareGroups(gripStrengths(tests)) })
 */
export function gripShares(input: GripSharesInput): Figure {
  const { groups } = input;
  const all = groups.flatMap(({ tests, median, reliable }) => [
    ...tests.map(({ share }) => share),
    median,
    reliable,
  ]);
  const range = paddedRange(all, [0, 1], 0.03);
  const marks = [
    tests(groups, true, range),
    tests(groups, false, range),
    ...statistics(groups),
  ].filter(({ x }) => Array.isArray(x) && x.length > 0);
  const rows = groups.map((group) => ({ label: group.label, detail: countText(group) }));
  const labels = rowLabels(rows, printWidth(input.size ?? "two-column"), leastRow);
  const layout = frame(input, {
    defaultSize: "two-column",
    plotHeight: Math.max(2, groups.length) * labels.rowHeight,
    legend: legendNames(marks),
    margin: { left: labels.left },
    parts: {
      xaxis: { ...houseAxis("Bar stress / bar strength (–)"), range, rangemode: "tozero" },
      yaxis: {
        ...houseAxis(""),
        range: [Math.max(1, groups.length) - 0.5, -0.5],
        tickvals: groups.map((_, i) => i),
        ticktext: labels.texts,
        ticks: "",
        showgrid: false,
      },
      shapes: separators(groups.length),
    },
  });
  const strength = uprightLine(1, [-0.5, groups.length - 0.5]);
  return figureOf(input, alternative(groups), [strength, ...marks], layout);
}

function countText({ tests: all }: GripShareGroup): string {
  const bounds = all.filter(({ lowerBound }) => lowerBound).length;
  const breaks = all.length - bounds;
  return `${breaks} ${breaks === 1 ? "break" : "breaks"}, ${bounds} ${bounds === 1 ? "lower bound" : "lower bounds"}`;
}

function tests(
  groups: readonly GripShareGroup[],
  bounds: boolean,
  range: readonly [number, number],
): Trace {
  const points = groups.flatMap((group, row) => {
    const own = group.tests.filter(
      ({ share, lowerBound }) => lowerBound === bounds && Number.isFinite(share),
    );
    const offsets = stripOffsets(
      own.map(({ share }) => share),
      (range[1] - range[0]) * APART,
    );
    const step = Math.min(0.14, 0.4 / Math.max(1, ...offsets.map(Math.abs)));
    return own.map((test, i) => ({
      x: test.share,
      y: row + (offsets[i] ?? 0) * step,
      text: test.label ?? group.label,
    }));
  });
  return {
    type: "scatter",
    mode: "markers",
    name: bounds ? "ended in another way (lower bound)" : "break in the grip",
    x: points.map(({ x }) => x),
    y: points.map(({ y }) => y),
    text: points.map(({ text }) => plainText(text)),
    hovertemplate: "%{text}<br>fraction of bar strength %{x:.3f}<extra></extra>",
    marker: bounds
      ? censoredMarker("right", colours.mid, 5)
      : { symbol: "circle", size: 6, color: colours.ink },
  };
}

function statistics(groups: readonly GripShareGroup[]): Trace[] {
  return [
    rowMarks(groups, "median", ({ median }) => median, {
      symbol: "line-ns",
      size: 26,
      line: { color: colours.ink, width: 2.25 },
    }),
    rowMarks(groups, "reliable share", ({ reliable }) => reliable, {
      symbol: "diamond",
      size: 10,
      color: colours.accent,
      line: { color: colours.paper, width: 0.75 },
    }),
  ];
}

function alternative(groups: readonly GripShareGroup[]): string {
  const said = groups.map(
    (group) =>
      `${group.label}: ${countText(group)}, median at a break ${shown(group.median)}, reliable fraction ${shown(group.reliable)}`,
  );
  return `Bar stress / bar strength by grip; ${said.join("; ")}.`;
}
