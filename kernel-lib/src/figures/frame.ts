import type { FigureText, Layout, PlotValue, Trace } from "./figure";
import { checkFigureId } from "./figure";
import { colours, fontFamily, fontSizes, printWidth } from "./house-style";
import { plainText, textWidth, wrapText } from "./text-width";

/** What a figure of invented data says of them; null where none is invented. */
export function inventedStamp(invented: FigureText["invented"] = false): string | null {
  if (invented === false) return null;
  return invented === true ? "Invented demonstration data" : "Contains invented demonstration data";
}

interface Surroundings {
  /** Height of the plotting area in pixels. */
  readonly plotHeight: number;
  readonly defaultSize: NonNullable<FigureText["size"]>;
  /** Names in the legend, in order; room is left for them above the plotting area. */
  readonly legend: readonly string[];
  readonly margin?: { readonly left?: number; readonly right?: number; readonly bottom?: number };
  /** Axes, annotations and shapes. */
  readonly parts: { readonly [key: string]: PlotValue };
}

const edge = 6;
/** Plotly sets the lines of a heading 1.3 title sizes apart. */
const headingLine = 1.3 * fontSizes.title;
const legendRow = 19;
/** Room that plotly's legend takes beside each text for the symbol, and between entries. */
const legendSymbol = 40;
const legendGap = 5;

interface Heading {
  readonly text: string;
  readonly height: number;
  /** Where plotly is told to put the heading, in pixels from the top. */
  readonly y: number;
}

/** Title, second line and, for invented data, the stamp, wrapped to the width. */
function heading(text: FigureText, width: number): Heading {
  const room = width - 2 * edge;
  const title = wrapText(text.title, room, fontSizes.title, "bold").map(
    (line) => `<b>${plainText(line)}</b>`,
  );
  const quiet = wrapText(text.subtitle ?? "", room, fontSizes.small).map(plainText);
  const says = inventedStamp(text.invented);
  const stamp = says === null ? [] : [`<i>${says}</i>`];
  const below = [...quiet, ...stamp].map(
    (line) => `<span style="font-size:${fontSizes.small}px">${line}</span>`,
  );
  const lines = [...title, ...below];
  const baseline = edge + 0.8 * fontSizes.title;
  // Plotly takes y as the baseline of the first of several lines, but as 0.7 em above the baseline
  // of a single one.
  const y = lines.length > 1 ? baseline : baseline - 0.7 * fontSizes.title;
  return { text: lines.join("<br>"), height: baseline + (lines.length - 1) * headingLine + 9, y };
}

/**
 * Rows that plotly's horizontal legend will take: one if all fit, else columns as wide as the
 * widest entry.
 */
function legendRows(names: readonly string[], width: number): number {
  if (names.length === 0) return 0;
  const widths = names.map((name) => textWidth(name, fontSizes.text) + legendSymbol);
  if (widths.reduce((sum, one) => sum + one, 0) + legendGap * (names.length - 1) < width) return 1;
  const perRow = Math.max(1, Math.floor((width + legendGap) / (Math.max(...widths) + legendGap)));
  return Math.ceil(names.length / perRow);
}

/**
 * Lays a figure out at print size: heading, legend, plotting area and room for the axes, from top
 * to bottom.
 */
export function frame(text: FigureText, around: Surroundings): Layout {
  checkFigureId(text.id);
  const width = printWidth(text.size ?? around.defaultSize);
  const head = heading(text, width);
  // A tick label may stand centred under the left end of the axis.
  const left = Math.max(24, around.margin?.left ?? 52);
  const right = around.margin?.right ?? 12;
  const rows = legendRows(around.legend, width - right);
  const top = head.height + (rows > 0 ? rows * legendRow + 6 : 4);
  const xTitle = wrappedTitle(around.parts, width - left - right);
  const bottom = (around.margin?.bottom ?? 44) + xTitle.extraLines * headingLine;
  const height = Math.round(top + around.plotHeight + bottom);
  return {
    width,
    height,
    font: { family: fontFamily, size: fontSizes.text, color: colours.text },
    paper_bgcolor: colours.paper,
    plot_bgcolor: colours.paper,
    title: {
      text: head.text,
      font: { size: fontSizes.title, color: colours.ink },
      x: 0,
      xref: "container",
      xanchor: "left",
      y: 1 - head.y / height,
      yref: "container",
      yanchor: "top",
      pad: { l: edge },
    },
    margin: { l: left, r: right, t: top, b: bottom, pad: 0, autoexpand: false },
    showlegend: rows > 0,
    legend: {
      orientation: "h",
      traceorder: "normal",
      // Just left of zero lets the legend run over the whole width above the plotting area.
      x: Math.min(-1e-6, -(left - edge) / (width - left - right)),
      xanchor: "left",
      y: 1,
      yanchor: "bottom",
      font: { size: fontSizes.text },
      itemwidth: 30,
      tracegroupgap: 0,
      bgcolor: "rgba(255,255,255,0)",
    },
    hovermode: "closest",
    ...around.parts,
    ...xTitle.parts,
  };
}

/** Room in pixels for the widest of some labels. */
export function widestLabel(labels: readonly string[], size: number = fontSizes.text): number {
  return labels.reduce(
    (widest, label) =>
      Math.max(widest, ...label.split("<br>").map((line) => textWidth(line, size))),
    0,
  );
}

/** Names of the traces that the legend will list. */
export function legendNames(data: readonly Trace[]): string[] {
  return data.flatMap(({ name, showlegend }) =>
    typeof name === "string" && showlegend !== false ? [name] : [],
  );
}

/** The title of a single x axis, wrapped to the width of the plotting area. */
function wrappedTitle(
  parts: { readonly [key: string]: PlotValue },
  room: number,
): { readonly parts: { readonly [key: string]: PlotValue }; readonly extraLines: number } {
  const axis = parts["xaxis"] as { readonly title?: { readonly text?: string } } | undefined;
  const text = axis?.title?.text ?? "";
  if (
    axis === undefined ||
    parts["xaxis2"] !== undefined ||
    textWidth(text, fontSizes.text) <= room + 16
  )
    return { parts: {}, extraLines: 0 };
  const lines = wrapText(text, room, fontSizes.text);
  return {
    parts: { xaxis: { ...axis, title: { ...axis.title, text: lines.join("<br>") } } },
    extraLines: lines.length - 1,
  };
}
