import { type Figure, type PlotValue, type Trace, figureOf } from "./figure";
import { frame, legendNames, widestLabel } from "./frame";
import { censoredMarker, colours, houseAxis, printWidth } from "./house-style";
import { uprightLine } from "./level-line";
import { paddedRange, shown } from "./numbers";
import { detailWith, rowLabels } from "./row-labels";
import { separators } from "./row-marks";
import { stripOffsets } from "./strip-offsets";
import { plainText } from "./text-width";
import type { RatioStripInput, StripGroup } from "./strip-group";
import { statistics } from "./strip-statistics";

const rowHeight = 36;

/**
 * Test-to-predicted ratios, one strip a group: every test is a mark (an open triangle towards
 * larger ratios where it is only a lower bound), with the mean, mean − 3 SD, the 5 % fractile
 * between its bounds, and a line at 1.
 *
 * @example ratioStrip({ id: "ratio-by-size", title: "…", caption: "…", groups: stripGroupsOf(groups) })
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
  const upright = level === null ? [] : [uprightLine(level, [-0.5, groups.length - 0.5])];
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

function hasPoints(trace: Trace): boolean {
  return Array.isArray(trace["x"]) && trace["x"].length > 0;
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
  return `${tests.toLocaleString("en-US")} test-to-predicted ratios in ${groups.length} groups; ${said.join("; ")}.`;
}
