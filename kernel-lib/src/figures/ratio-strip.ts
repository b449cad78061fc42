import type { Figure, FigureText, PlotValue, Trace } from "./figure";
import { figureOf } from "./figure";
import { frame, legendNames, widestLabel } from "./frame";
import { censoredMarker, colours, houseAxis, lineWidths, printWidth } from "./house-style";
import { paddedRange, shown } from "./numbers";
import { detailWith, rowLabels } from "./row-labels";
import { stripOffsets } from "./strip-offsets";
import { plainText } from "./text-width";

/** One test in a strip. */
export interface StripTest {
  /** Test-to-predicted ratio, dimensionless. */
  readonly ratio: number;
  /** True where the test did not fail in the mode of the group: its ratio is a lower bound. */
  readonly censored: boolean;
  readonly label?: string;
}

/** One strip. Missing statistics are NaN and leave no mark. */
export interface StripGroup {
  readonly label: string;
  readonly tests: readonly StripTest[];
  readonly mean: number;
  readonly meanMinus3Sd: number;
  /**
   * Estimate of the 5 % fractile with its one-sided bounds at the confidence that the caption
   * names.
   */
  readonly fractile: number;
  readonly lower: number;
  readonly upper: number;
  /** The verdict in words, shown to the right of the strip. */
  readonly verdict?: string;
}

export interface RatioStripInput extends FigureText {
  readonly groups: readonly StripGroup[];
  /** Title of the ratio axis. */
  readonly ratioTitle?: string;
  /** Level drawn across, and from 0 to which the axis reaches; 1 by default, null for none. */
  readonly level?: number | null;
}

const rowHeight = 36;

/**
 * Test-to-predicted ratios, one strip a group: every test is a mark (an open triangle towards
 * larger ratios where it is only a lower bound), with the mean, mean − 3 SD, the 5 % fractile
 * between its bounds, and a line at 1.
 *
 * @example ratioStrip({ id: "ratio-by-size", title: "…", caption: "…", groups })
 */
export function ratioStrip(input: RatioStripInput): Figure {
  const { groups } = input;
  const level = input.level === undefined ? 1 : input.level;
  const all = groups.flatMap((group) => [
    ...group.tests.map((test) => test.ratio),
    group.mean,
    group.meanMinus3Sd,
    group.fractile,
    group.lower,
    group.upper,
  ]);
  const range = paddedRange(all, level === null ? [0] : [0, level], 0.04);
  const marks = [
    testsTrace(groups, false, range),
    testsTrace(groups, true, range),
    ...statistics(groups),
  ].filter(hasPoints);
  const narrow = input.size !== undefined && input.size !== "two-column";
  const rows = groups.map((group) => ({
    label: group.label,
    detail: detailWith(countText(group), group.verdict, narrow),
  }));
  const labels = rowLabels(rows, printWidth(input.size ?? "two-column"), rowHeight);
  const verdicts = !narrow && groups.some((group) => group.verdict !== undefined);
  const right = verdicts ? widestLabel(groups.map((group) => group.verdict ?? "")) + 18 : 12;
  const layout = frame(input, {
    defaultSize: "two-column",
    plotHeight: Math.max(2, groups.length) * labels.rowHeight,
    legend: legendNames(marks),
    margin: { left: labels.left, right },
    parts: {
      xaxis: {
        ...houseAxis(input.ratioTitle ?? "Test-to-predicted ratio (–)"),
        range,
        rangemode: "tozero",
      },
      yaxis: {
        ...houseAxis(""),
        range: [Math.max(1, groups.length) - 0.5, -0.5],
        tickvals: groups.map((_, i) => i),
        ticktext: labels.texts,
        ticks: "",
        showgrid: false,
      },
      shapes: separators(groups.length),
      annotations: groups.flatMap((group, i) =>
        !verdicts || group.verdict === undefined ? [] : [verdictNote(group.verdict, i)],
      ),
    },
  });
  const upright = level === null ? [] : [levelAcross(level, groups.length)];
  return figureOf(input, alternative(input), [...upright, ...marks], layout);
}

function countText(group: StripGroup): string {
  const bounds = group.tests.filter((test) => test.censored).length;
  return `n = ${group.tests.length - bounds}${bounds > 0 ? `, ${bounds} ${bounds === 1 ? "lower bound" : "lower bounds"}` : ""}`;
}

function testsTrace(
  groups: readonly StripGroup[],
  censored: boolean,
  range: readonly [number, number],
): Trace {
  const x: number[] = [];
  const y: number[] = [];
  const text: string[] = [];
  groups.forEach((group, row) => {
    const tests = group.tests.filter((test) => Number.isFinite(test.ratio));
    const offsets = stripOffsets(
      tests.map((test) => test.ratio),
      (range[1] - range[0]) / 62,
    );
    const step = Math.min(0.16, 0.36 / Math.max(1, ...offsets.map(Math.abs)));
    tests.forEach((test, i) => {
      if (test.censored !== censored) return;
      x.push(test.ratio);
      y.push(row + (offsets[i] ?? 0) * step);
      text.push(plainText(test.label ?? group.label));
    });
  });
  return {
    type: "scatter",
    mode: "markers",
    name: censored ? "lower bound" : "test",
    x,
    y,
    text,
    hovertemplate: "%{text}<br>ratio %{x:.3f}<extra></extra>",
    marker: censored
      ? censoredMarker("right")
      : {
          symbol: "circle",
          size: 5.5,
          color: colours.mid,
          line: { color: colours.ink, width: 0.75 },
        },
  };
}

function statistics(groups: readonly StripGroup[]): Trace[] {
  const mark = (name: string, of: (group: StripGroup) => number, marker: PlotValue): Trace => {
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
  };
  return [
    mark("mean", (group) => group.mean, {
      symbol: "line-ns",
      size: 13,
      line: { color: colours.ink, width: 2.25 },
    }),
    mark("mean − 3 SD", (group) => group.meanMinus3Sd, {
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

function hasPoints(trace: Trace): boolean {
  return Array.isArray(trace["x"]) && trace["x"].length > 0;
}

function separators(count: number): PlotValue[] {
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

function levelAcross(level: number, count: number): Trace {
  const line = { color: colours.ink, width: lineWidths.line };
  return {
    type: "scatter",
    mode: "lines",
    x: [level, level],
    y: [-0.5, count - 0.5],
    line,
    showlegend: false,
    hoverinfo: "skip",
  };
}

function verdictNote(verdict: string, row: number): PlotValue {
  return {
    xref: "paper",
    x: 1,
    xanchor: "left",
    xshift: 8,
    y: row,
    yanchor: "middle",
    showarrow: false,
    text: plainText(verdict),
  };
}

function alternative({ groups, ratioTitle }: RatioStripInput): string {
  const tests = groups.reduce((sum, group) => sum + group.tests.length, 0);
  if (ratioTitle !== undefined && groups.every(({ mean }) => !Number.isFinite(mean)))
    return `${ratioTitle} of ${tests} tests in ${groups.length} groups: ${groups.map(({ label }) => label).join("; ")}.`;
  const said = groups.map(
    (group) =>
      `${group.label}: mean ${shown(group.mean)}, 5 % fractile ${shown(group.fractile)} (bounds ${shown(group.lower)} and ${shown(group.upper)})${group.verdict === undefined ? "" : `, ${group.verdict}`}`,
  );
  return `Test-to-predicted ratios of ${tests} tests in ${groups.length} groups; ${said.join("; ")}.`;
}
