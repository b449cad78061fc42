import type { Figure, FigureText } from "./figure";
import { figureOf } from "./figure";
import { frame, widestLabel } from "./frame";
import { colours, houseAxis, printWidth } from "./house-style";
import { uprightLine } from "./level-line";
import { paddedRange, shown } from "./numbers";
import { detailWith, rowLabels } from "./row-labels";
import { plainText } from "./text-width";

export interface ComparisonInterval {
  readonly label: string;
  /**
   * Numbers of tests on the two sides, lower bounds not counted; or the count in words.
   */
  readonly n: readonly [number, number] | string;
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
  /** The finding in words, shown to the right. */
  readonly finding?: string;
}

export interface ComparisonIntervalsInput extends FigureText {
  readonly comparisons: readonly ComparisonInterval[];
  /** e.g. "Ratio of means with 95 % interval (–)". */
  readonly measure: string;
  /** Value that means no difference; 1 by default. */
  readonly noDifference?: number;
}

/**
 * Direct comparisons of series, one line each: estimate, interval and the value that means no
 * difference.
 */
export function comparisonIntervals(input: ComparisonIntervalsInput): Figure {
  const kept = input.comparisons;
  const none = input.noDifference ?? 1;
  const yRange: [number, number] = [kept.length - 0.5, -0.5];
  const narrow = input.size !== undefined && input.size !== "two-column";
  const rows = kept.map((one) => ({
    label: one.label,
    detail: detailWith(
      typeof one.n === "string" ? one.n : `n = ${one.n[0]} and ${one.n[1]}`,
      one.finding,
      narrow,
    ),
  }));
  const labels = rowLabels(rows, printWidth(input.size ?? "two-column"), 34);
  const drawn = kept
    .map((one, row) => ({ one, row }))
    .filter(({ one }) => Number.isFinite(one.estimate));
  const data = [
    uprightLine(none, yRange),
    {
      type: "scatter" as const,
      mode: "markers",
      x: drawn.map(({ one }) => one.estimate),
      y: drawn.map(({ row }) => row),
      error_x: {
        type: "data",
        symmetric: false,
        array: drawn.map(({ one }) => one.upper - one.estimate),
        arrayminus: drawn.map(({ one }) => one.estimate - one.lower),
        color: colours.ink,
        thickness: 1.5,
        width: 5,
      },
      marker: { symbol: "square", size: 7, color: colours.accent },
      text: drawn.map(
        ({ one }) => `${shown(one.estimate)} (${shown(one.lower)} to ${shown(one.upper)})`,
      ),
      hovertemplate: "%{text}<extra></extra>",
      showlegend: false,
    },
  ];
  const findings = kept.map((one) => (narrow ? "" : plainText(one.finding ?? "")));
  const layout = frame(input, {
    defaultSize: "two-column",
    plotHeight: Math.max(2, kept.length) * labels.rowHeight,
    legend: [],
    margin: { left: labels.left, right: widestLabel(findings) + 18 },
    parts: {
      xaxis: {
        ...houseAxis(input.measure),
        range: paddedRange(
          kept.flatMap((one) => [one.lower, one.upper, one.estimate]),
          [none],
        ),
      },
      yaxis: {
        ...houseAxis(""),
        range: yRange,
        tickvals: kept.map((_, i) => i),
        ticktext: labels.texts,
        ticks: "",
        showgrid: false,
      },
      annotations: findings.flatMap((text, y) =>
        text === ""
          ? []
          : [{ xref: "paper", x: 1, xanchor: "left", xshift: 8, y, showarrow: false, text }],
      ),
    },
  });
  const alt = `${input.measure} of ${kept.length} comparisons: ${kept.map((one) => `${one.label} ${shown(one.estimate)} (${shown(one.lower)} to ${shown(one.upper)})`).join("; ")}.`;
  return figureOf(input, alt, data, layout);
}
