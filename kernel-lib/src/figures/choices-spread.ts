import type { Figure, FigureText, Trace } from "./figure";
import { figureOf } from "./figure";
import { frame } from "./frame";
import { colours, houseAxis, lineWidths, printWidth } from "./house-style";
import { paddedRange, shown } from "./numbers";
import { rowLabels } from "./row-labels";

export interface ReasonableChoice {
  readonly estimate: number;
  readonly lower?: number;
  readonly upper?: number;
  /**
   * What was chosen for each decision, e.g. { "Outliers": "kept", "Distribution": "lognormal" }.
   */
  readonly choices: Readonly<Record<string, string>>;
  /** True for the analysis that the study reports. */
  readonly reported?: boolean;
}

export interface ChoicesSpreadInput extends FigureText {
  readonly analyses: readonly ReasonableChoice[];
  readonly measure: string;
}

/**
 * The result of every reasonable way to analyse, sorted, above a grid that shows which choices gave
 * it.
 */
export function choicesSpread(input: ChoicesSpreadInput): Figure {
  const sorted = input.analyses
    .filter((one) => Number.isFinite(one.estimate))
    .sort((a, b) => a.estimate - b.estimate);
  const lines = [
    ...new Set(
      sorted.flatMap((one) =>
        Object.entries(one.choices).map(([decision, option]) => `${decision}: ${option}`),
      ),
    ),
  ].sort();
  const rows = rowLabels(
    lines.map((label) => ({ label })),
    printWidth(input.size ?? "two-column"),
    17,
  );
  const rowsHeight = Math.max(1, lines.length) * rows.rowHeight;
  const plotHeight = 170 + 14 + rowsHeight;
  const split = rowsHeight / plotHeight;
  const x: [number, number] = [-0.7, sorted.length - 0.3];
  const reported = (one: ReasonableChoice): boolean => one.reported === true;
  const data: Trace[] = [
    {
      type: "scatter",
      mode: "markers",
      x: sorted.map((_, i) => i),
      y: sorted.map((one) => one.estimate),
      error_y: {
        type: "data",
        symmetric: false,
        array: sorted.map((one) => (one.upper ?? one.estimate) - one.estimate),
        arrayminus: sorted.map((one) => one.estimate - (one.lower ?? one.estimate)),
        color: colours.pale,
        thickness: 1.25,
        width: 0,
      },
      marker: {
        opacity: 1,
        symbol: sorted.map((one) => (reported(one) ? "diamond" : "circle")),
        size: sorted.map((one) => (reported(one) ? 10 : 5)),
        color: sorted.map((one) => (reported(one) ? colours.accent : colours.quiet)),
      },
      hovertemplate: "%{y:.3f}<extra></extra>",
      showlegend: false,
    },
    ...grid(sorted, lines),
  ];
  const layout = frame(input, {
    defaultSize: "two-column",
    plotHeight,
    legend: [],
    margin: { left: Math.max(52, rows.left), bottom: 34 },
    parts: {
      xaxis: {
        ...houseAxis(`Analyses, sorted (n = ${sorted.length}); the diamond is the reported one`),
        range: x,
        showticklabels: false,
        ticks: "",
        showgrid: false,
        anchor: "y2",
      },
      yaxis: {
        ...houseAxis(input.measure),
        range: paddedRange(
          sorted.flatMap((one) => [
            one.estimate,
            one.lower ?? one.estimate,
            one.upper ?? one.estimate,
          ]),
        ),
        domain: [split + 14 / plotHeight, 1],
      },
      yaxis2: {
        ...houseAxis(""),
        range: [lines.length - 0.5, -0.5],
        tickvals: lines.map((_, i) => i),
        ticktext: rows.texts,
        ticks: "",
        domain: [0, split],
        linewidth: lineWidths.thin,
      },
    },
  });
  const least = sorted[0]?.estimate ?? NaN;
  const most = sorted[sorted.length - 1]?.estimate ?? NaN;
  return figureOf(
    input,
    `${input.measure} from ${sorted.length} reasonable analyses ranges from ${shown(least)} to ${shown(most)}.`,
    data,
    layout,
  );
}

function grid(sorted: readonly ReasonableChoice[], lines: readonly string[]): Trace[] {
  const marks = sorted.flatMap((one, i) =>
    Object.entries(one.choices).map(([decision, option]) => ({
      x: i,
      y: lines.indexOf(`${decision}: ${option}`),
    })),
  );
  const marker = { symbol: "line-ns", size: 8, line: { color: colours.ink, width: 1.5 } };
  return [
    {
      type: "scatter",
      mode: "markers",
      x: marks.map((m) => m.x),
      y: marks.map((m) => m.y),
      yaxis: "y2",
      marker,
      showlegend: false,
      hoverinfo: "skip",
    },
  ];
}
