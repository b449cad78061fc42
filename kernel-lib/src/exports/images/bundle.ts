import type { Figure } from "../../figures/figure";
import { svgToSmallPng } from "./png";
import { renderSvg } from "./svg";
import { escapeXml } from "./tidy-svg";

/** A figure in the forms that a notebook front end or a converter chooses from. */
export interface FigureBundle {
  /** The data, which a review compares; drawn anew where the page has an extension for it. */
  readonly "application/vnd.plotly.v1+json": { readonly data: unknown; readonly layout: unknown };
  /** The picture as every page shows it, trusted or not. */
  readonly "text/html": string;
  /** The picture in pixels, base64, for converters to print such as LaTeX. */
  readonly "image/png": string;
  readonly "text/plain": string;
}

/** Sharp enough in print at the figure's size, and half as large as at 300 dots per inch. */
const PIXELS_PER_INCH = 150;

/**
 * The figure as data, as a picture in two forms and as its text alternative; missing numbers become
 * null. A page that is not trusted strips inline SVG, and converters to HTML do too: an image that
 * carries its data is drawn by all of them.
 */
export async function figureBundle(figure: Figure): Promise<FigureBundle> {
  const plain = JSON.parse(JSON.stringify({ data: figure.data, layout: figure.layout })) as {
    data: unknown;
    layout: unknown;
  };
  const svg = await renderSvg(figure);
  const png = await svgToSmallPng(svg, { dpi: PIXELS_PER_INCH });
  return {
    "application/vnd.plotly.v1+json": plain,
    "text/html": imageHtml(svg, figure),
    "image/png": Buffer.from(png).toString("base64"),
    "text/plain": figure.alt,
  };
}

/** An image element that holds the SVG; a page narrower than the figure shrinks it. */
export function imageHtml(svg: string, { alt, layout }: Pick<Figure, "alt" | "layout">): string {
  const data = Buffer.from(svg, "utf8").toString("base64");
  return `<img src="data:image/svg+xml;base64,${data}" alt="${escapeXml(alt).replace(/\s+/g, " ")}" width="${layout.width}">`;
}
