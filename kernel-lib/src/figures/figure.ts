import type { Invented } from "../dataset";
/** Any value that survives JSON; numbers that are missing become null there. */
export type PlotValue =
  | string
  | number
  | boolean
  | null
  | readonly PlotValue[]
  | { readonly [key: string]: PlotValue | undefined };

/** One plotly trace as plain data. */
export interface Trace {
  readonly type: "scatter" | "bar" | "heatmap";
  readonly [attribute: string]: PlotValue | undefined;
}

/**
 * A plotly layout as plain data. Width and height are in pixels of 1/96 inch, so that they are also
 * the print size.
 */
export interface Layout {
  readonly width: number;
  readonly height: number;
  readonly font: { readonly family: string; readonly size: number; readonly color: string };
  readonly [attribute: string]: PlotValue | undefined;
}

/**
 * A figure as plain data: any plotly front end shows it, and the static renderer draws it without a
 * browser.
 */
export interface Figure {
  /** File name without ending: lower-case letters, digits and hyphens. */
  readonly id: string;
  readonly title: string;
  /** Text to stand under the figure: what is shown, from which provision, at which level. */
  readonly caption: string;
  /** One sentence for a reader who cannot see the figure. */
  readonly alt: string;
  readonly data: readonly Trace[];
  readonly layout: Layout;
  /**
   * Whether the data are invented, all or in part; the figure then carries a stamp that says so.
   */
  readonly invented?: Invented;
}

/** What every figure builder is told beside its data. */
export interface FigureText {
  /** File name without ending: lower-case letters, digits and hyphens. */
  readonly id: string;
  readonly title: string;
  /** Second line of the heading, e.g. the provision and the level. */
  readonly subtitle?: string;
  readonly caption: string;
  readonly invented?: Invented;
  readonly size?: PrintSize;
}

/** Printed width: one column 88 mm, a column and a half 120 mm, two columns 180 mm. */
export type PrintSize = "one-column" | "column-and-a-half" | "two-column";

/** Throws unless the id can be used as a file name on every system. */
export function checkFigureId(id: string): void {
  if (!/^[a-z0-9]+(?:-[a-z0-9]+)*$/.test(id)) {
    throw new Error(
      `The figure id "${id}" cannot be a file name. Expected lower-case letters, digits and single hyphens, like "ratio-by-size".`,
    );
  }
}

/**
 * Puts a builder's parts together; what the reader was told goes along, and a figure without data
 * says so.
 */
export function figureOf(
  text: FigureText,
  alt: string,
  data: readonly Trace[],
  layout: Layout,
): Figure {
  const { id, title, caption } = text;
  const told = data.some(hasData) ? layout : { ...layout, annotations: [emptyNote] };
  return {
    id,
    title,
    caption,
    alt,
    data,
    layout: told,
    ...(text.invented === undefined ? {} : { invented: text.invented }),
  };
}

const emptyNote: PlotValue = {
  xref: "paper",
  yref: "paper",
  x: 0.5,
  y: 0.5,
  showarrow: false,
  text: "No data to show",
};

/** Reference lines and keys are drawn without hover; everything else is data. */
function hasData(trace: Trace): boolean {
  const values = trace.type === "heatmap" ? trace["z"] : trace["y"];
  return trace["hoverinfo"] !== "skip" && Array.isArray(values) && values.length > 0;
}
