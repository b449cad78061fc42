import type { PlotValue, PrintSize } from "./figure";

/**
 * Pixels of 1/96 inch in a millimetre: figures are laid out at the size at which they are printed.
 */
export const pixelsPerMillimetre = 96 / 25.4;

export const printWidths: Record<PrintSize, number> = {
  "one-column": 88,
  "column-and-a-half": 120,
  "two-column": 180,
};

/** Width of a printed figure in pixels. */
export function printWidth(size: PrintSize): number {
  return Math.round(printWidths[size] * pixelsPerMillimetre);
}

/** Font sizes in pixels: 9, 8 and 7 point, the smallest that journals and committees ask for. */
export const fontSizes = { title: 12, text: 10.67, small: 9.33 } as const;

export const fontFamily = "DejaVu Sans, Verdana, sans-serif";

/**
 * Greys that stay apart in black-and-white print, and one restrained accent that prints as a dark
 * grey.
 */
export const colours = {
  ink: "#1a1a1a",
  text: "#262626",
  quiet: "#595959",
  mid: "#8c8c8c",
  pale: "#bfbfbf",
  grid: "#e6e6e6",
  band: "rgba(140,140,140,0.22)",
  paper: "#ffffff",
  accent: "#0b5394",
} as const;

export const lineWidths = { thin: 0.75, line: 1.25, strong: 2 } as const;

/**
 * What sets one series apart: shape, fill and line dash, so that colour is never needed to tell
 * them.
 */
export interface SeriesLook {
  readonly symbol: string;
  readonly fill: string;
  readonly edge: string;
  readonly dash: string;
}

const looks: readonly SeriesLook[] = [
  { symbol: "circle", fill: colours.accent, edge: colours.accent, dash: "solid" },
  { symbol: "square", fill: colours.paper, edge: colours.ink, dash: "dash" },
  { symbol: "triangle-up", fill: colours.mid, edge: colours.ink, dash: "dot" },
  { symbol: "diamond", fill: colours.paper, edge: colours.accent, dash: "dashdot" },
  { symbol: "cross", fill: colours.pale, edge: colours.ink, dash: "longdash" },
  { symbol: "pentagon", fill: colours.ink, edge: colours.ink, dash: "longdashdot" },
  { symbol: "star", fill: colours.paper, edge: colours.ink, dash: "2px,3px,8px,3px" },
  { symbol: "hexagon", fill: colours.pale, edge: colours.accent, dash: "10px,2px" },
];

/**
 * Look of the i-th series; after the eighth they repeat, and a reader should be shown panels
 * instead.
 */
export function seriesLook(index: number): SeriesLook {
  return looks[index % looks.length] as SeriesLook;
}

/** Marker of a series' tests. */
export function testMarker(look: SeriesLook, size: number = 6): PlotValue {
  return {
    symbol: look.symbol,
    size,
    color: look.fill,
    opacity: 0.9,
    line: { color: look.edge, width: 1 },
  };
}

/**
 * Marker of a censored test: an open triangle towards larger values, since the load is a lower
 * bound.
 */
export function censoredMarker(
  direction: "up" | "right",
  edge: string = colours.ink,
  size: number = 8,
): PlotValue {
  return {
    symbol: `triangle-${direction}`,
    size,
    color: colours.paper,
    line: { color: edge, width: 1.1 },
  };
}

/** Axis lines, ticks and grid that every figure shares. */
export function houseAxis(title: string): { readonly [key: string]: PlotValue } {
  return {
    title: { text: title, standoff: 8, font: { size: fontSizes.text } },
    showline: true,
    linecolor: colours.ink,
    linewidth: 0.75,
    ticks: "outside",
    ticklen: 4,
    tickwidth: 0.75,
    tickcolor: colours.ink,
    tickfont: { size: fontSizes.text },
    gridcolor: colours.grid,
    gridwidth: 0.75,
    zeroline: false,
  };
}
