import type { Figure, FigureText, PlotValue, Trace } from "./figure";
import { figureOf } from "./figure";
import { frame, legendNames, widestLabel } from "./frame";
import { colours, houseAxis, printWidth } from "./house-style";
import { uprightLine } from "./level-line";
import { paddedRange, shown } from "./numbers";
import { detailWith, rowLabels } from "./row-labels";
import { plainText } from "./text-width";

/**
 * The answer to one of the two questions: estimate and bounds of the fractile (NaN where there are
 * none), and the verdict.
 */
export interface FractileSide {
  readonly fractile: number;
  readonly lower: number;
  readonly upper: number;
  readonly verdict: string;
}

export interface FractileGroup {
  readonly label: string;
  /** Shown below the label, e.g. "n = 25, 6 series". */
  readonly detail?: string;
  readonly asTested: FractileSide;
  readonly inGeneral: FractileSide;
}

export interface FractilesInput extends FigureText {
  readonly groups: readonly FractileGroup[];
  /** Title of the axis. */
  readonly measure?: string;
  /** Target drawn as a line; 1 by default. */
  readonly target?: number;
}

/** Share of a row by which the two answers stand above and below its middle. */
const APART = 0.2;
const SIDES = [
  {
    key: "asTested",
    name: "as tested",
    shift: -APART,
    color: colours.quiet,
    marker: {
      symbol: "circle",
      size: 8,
      color: colours.paper,
      line: { color: colours.ink, width: 1.5 },
    },
  },
  {
    key: "inGeneral",
    name: "in general",
    shift: APART,
    color: colours.accent,
    marker: {
      symbol: "diamond",
      size: 9,
      color: colours.accent,
      line: { color: colours.paper, width: 0.75 },
    },
  },
] as const;

/**
 * The 5 % fractile of each group with its lower and upper bound: as tested (open circle) and in
 * general (filled diamond), with the two verdicts in words beside each other.
 * @example fractiles({ id: "fractiles", title: "…", caption: "…", groups: fractilesOf(groups) })
 */
export function fractiles(input: FractilesInput): Figure {
  const { groups, target = 1 } = input;
  const yRange: [number, number] = [Math.max(1, groups.length) - 0.5, -0.5];
  const narrow = input.size !== undefined && input.size !== "two-column";
  const words = groups.map((group) =>
    SIDES.map(({ key, name }) => `${name}: ${group[key].verdict}`),
  );
  const rows = groups.map((group, i) => ({
    label: group.label,
    detail: detailWith(group.detail ?? "", words[i]!.join("; "), narrow),
  }));
  const labels = rowLabels(rows, printWidth(input.size ?? "two-column"), 44);
  const data = [uprightLine(target, yRange), ...SIDES.map((side) => answers(groups, side))];
  const values = groups.flatMap(({ asTested, inGeneral }) =>
    [asTested, inGeneral].flatMap(({ fractile, lower, upper }) => [fractile, lower, upper]),
  );
  const layout = frame(input, {
    defaultSize: "two-column",
    plotHeight: Math.max(2, groups.length) * labels.rowHeight,
    legend: legendNames(data),
    margin: { left: labels.left, right: narrow ? 12 : widestLabel(words.flat()) + 18 },
    parts: {
      xaxis: {
        ...houseAxis(input.measure ?? "5 % fractile of test/predicted with its bounds (–)"),
        range: paddedRange(values, [target], 0.06),
      },
      yaxis: {
        ...houseAxis(""),
        range: yRange,
        tickvals: groups.map((_, i) => i),
        ticktext: labels.texts,
        ticks: "",
        showgrid: false,
      },
      annotations: narrow
        ? []
        : words.flatMap((both, row) =>
            both.map((text, k): PlotValue => ({
              xref: "paper",
              x: 1,
              xanchor: "left",
              xshift: 8,
              y: row + SIDES[k]!.shift,
              yanchor: "middle",
              showarrow: false,
              text: plainText(text),
            })),
          ),
    },
  });
  const said = (name: string, { fractile, lower, upper, verdict }: FractileSide): string =>
    `${name} ${shown(fractile)} (${shown(lower)} to ${shown(upper)}), ${verdict}`;
  return figureOf(
    input,
    `5 % fractiles of ${groups.length} groups: ${groups.map((group) => `${group.label}: ${SIDES.map(({ key, name }) => said(name, group[key])).join("; ")}`).join(". ")}.`,
    data,
    layout,
  );
}

function answers(
  groups: readonly FractileGroup[],
  { key, name, shift, color, marker }: (typeof SIDES)[number],
): Trace {
  const kept = groups
    .map((group, row) => ({ side: group[key], row }))
    .filter(({ side }) => Number.isFinite(side.fractile));
  return {
    type: "scatter",
    mode: "markers",
    name,
    x: kept.map(({ side }) => side.fractile),
    y: kept.map(({ row }) => row + shift),
    error_x: {
      type: "data",
      symmetric: false,
      array: kept.map(({ side }) => side.upper - side.fractile),
      arrayminus: kept.map(({ side }) => side.fractile - side.lower),
      color,
      thickness: 1.75,
      width: 5,
    },
    text: kept.map(
      ({ side }) =>
        `${shown(side.fractile)} (${shown(side.lower)} to ${shown(side.upper)}): ${plainText(side.verdict)}`,
    ),
    hovertemplate: "%{text}<extra></extra>",
    marker,
  };
}
