import type { Figure, FigureText, PlotValue, Trace } from "./figure";
import { figureOf } from "./figure";
import { frame } from "./frame";
import { censoredMarker, colours, fontSizes } from "./house-style";
import { levelLine } from "./level-line";
import { paddedRange } from "./numbers";
import { panelGrid, panelsPerRow } from "./panels";
import { sizeLine, type SizeFit } from "./size-line";
import { plainText, wrapText } from "./text-width";

export interface SizeTest {
  /** Bar diameter, mm. */
  readonly diameter: number;
  readonly ratio: number;
  readonly censored: boolean;
  readonly label?: string;
}

export interface SizePanel {
  readonly label: string;
  readonly tests: readonly SizeTest[];
  readonly fit?: SizeFit;
  /** The slope with its interval, in words; drawn into the panel. */
  readonly note?: string;
}

export interface BarSizeRegressionInput extends FigureText {
  readonly panels: readonly SizePanel[];
  readonly ratioTitle?: string;
  /** Title of the variable's axis; "Bar diameter (mm)" by default. */
  readonly xTitle?: string;
  /** Level drawn across; 1 by default, null for none. */
  readonly level?: number | null;
}

/**
 * Test-to-predicted ratio against bar diameter, one panel a material, with the fitted line and its
 * band.
 */
export function barSizeRegression(input: BarSizeRegressionInput): Figure {
  const tests = input.panels.flatMap((panel) => panel.tests);
  const fits = input.panels.flatMap((panel) => (panel.fit === undefined ? [] : [panel.fit]));
  const level = input.level === undefined ? 1 : input.level;
  const x = paddedRange(
    tests.map((test) => test.diameter),
    fits.flatMap((fit) => fit.x),
    0.08,
  );
  const drawn = paddedRange(
    [
      ...tests.map((test) => test.ratio),
      ...fits.flatMap((fit) => [...fit.y, ...(fit.lower ?? []), ...(fit.upper ?? [])]),
      ...fits.flatMap((fit) => fit.characteristic ?? []),
    ],
    level === null ? [] : [level],
    0.1,
  );
  // A note stands above the highest mark, never on it.
  const noted = input.panels.some((panel) => notesOf(panel).length > 0);
  const y: [number, number] = [drawn[0], drawn[1] + (noted ? 0.22 * (drawn[1] - drawn[0]) : 0)];
  const titles = input.panels.map((panel) => `${panel.label} (n = ${failuresOf(panel)})`);
  const grid = panelGrid(input, {
    titles,
    perRow: panelsPerRow(input, titles, mostPerRow(input)),
    panelHeight: 165,
    x: { title: input.xTitle ?? "Bar diameter (mm)", range: x },
    y: { title: input.ratioTitle ?? "Test-to-predicted ratio (–)", range: y },
  });
  const data = input.panels.flatMap((panel, i) => [
    ...(level === null ? [] : [levelLine(level, x, grid.axes(i))]),
    ...(panel.fit === undefined ? [] : sizeLine(panel.fit, panel.label, grid.axes(i))),
    ...marks(panel, grid.axes(i)),
  ]);
  const notes = input.panels.flatMap((panel, i): PlotValue[] => {
    if (notesOf(panel).length === 0) return [];
    const { xaxis, yaxis } = grid.axes(i);
    return [
      {
        xref: `${xaxis} domain`,
        yref: `${yaxis} domain`,
        x: 0.98,
        y: 0.98,
        xanchor: "right",
        yanchor: "top",
        showarrow: false,
        text: notesOf(panel)
          .flatMap((note) => wrapText(note, grid.panelWidth - 12, fontSizes.text))
          .map(plainText)
          .join("<br>"),
        align: "right",
        bgcolor: "rgba(255,255,255,0.85)",
      },
    ];
  });
  const layout = frame(input, {
    defaultSize: "two-column",
    plotHeight: grid.plotHeight,
    legend: [],
    parts: { ...grid.parts, annotations: [...grid.annotations, ...notes] },
  });
  // Panel titles stand above the plotting area, in the place where other figures have their legend.
  const margin = {
    ...(layout["margin"] as { t: number }),
    t: (layout["margin"] as { t: number }).t + 16,
  };
  const bounds = tests.filter(({ censored }) => censored).length;
  const alt = `${titleOf(input.ratioTitle ?? "Test-to-predicted ratio")} against ${titleOf(input.xTitle ?? "Bar diameter").toLowerCase()} for ${tests.length - bounds} tests in ${input.panels.length} panels (${input.panels.map((p) => p.label).join(", ")}), each with a fitted line.${bounds === 0 ? "" : ` ${bounds} lower bounds are drawn as triangles.`}`;
  return figureOf(input, alt, data, { ...layout, height: layout.height + 16, margin });
}

/** Tests that failed in the mode: a lower bound is no point of a line. */
function failuresOf({ tests }: SizePanel): number {
  return tests.filter(({ censored }) => !censored).length;
}

/** The note of a panel and the number of its lower bounds, one a line. */
function notesOf(panel: SizePanel): string[] {
  const bounds = panel.tests.length - failuresOf(panel);
  const counted = bounds === 0 ? [] : [`${bounds} lower bound${bounds === 1 ? "" : "s"}`];
  return [...(panel.note === undefined ? [] : [panel.note]), ...counted];
}

function marks(
  panel: SizePanel,
  axes: { readonly xaxis: string; readonly yaxis: string },
): Trace[] {
  return [false, true].flatMap((censored): Trace[] => {
    const kept = panel.tests.filter(
      (test) => test.censored === censored && Number.isFinite(test.ratio),
    );
    if (kept.length === 0) return [];
    return [
      {
        type: "scatter",
        mode: "markers",
        x: kept.map((test) => test.diameter),
        y: kept.map((test) => test.ratio),
        text: kept.map((test) => plainText(test.label ?? panel.label)),
        hovertemplate: "%{text}<br>ratio %{y:.3f}<extra></extra>",
        marker: censored
          ? censoredMarker("up")
          : {
              symbol: "circle",
              size: 5.5,
              color: colours.mid,
              line: { color: colours.ink, width: 0.75 },
            },
        showlegend: false,
        ...axes,
      },
    ];
  });
}

function mostPerRow(input: BarSizeRegressionInput): number {
  if (input.size === "one-column") return 1;
  if (input.size === "column-and-a-half") return 2;
  return input.panels.length > 4 || input.panels.length === 3 ? 3 : 2;
}

/** An axis title without its unit. */
function titleOf(title: string): string {
  return title.replace(/ \([^()]*\)$/, "");
}
