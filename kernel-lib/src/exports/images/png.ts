import type { Figure } from "../../figures/figure";
import { fontFaces, fontFile } from "./fonts";
import { renderSvg } from "./svg";

export interface PngOptions {
  /** Pixels per printed inch; 300 by default. */
  readonly dpi?: number;
}

/** Pixels per inch in which figures are laid out. */
const layoutDpi = 96;

/** A figure as PNG, at 300 dots per printed inch unless told otherwise. */
export async function renderPng(figure: Figure, options: PngOptions = {}): Promise<Uint8Array> {
  return svgToPng(await renderSvg(figure), options);
}

/** Draws an SVG as PNG with the shipped fonts only, so that every machine gives the same picture. */
export async function svgToPng(svg: string, options: PngOptions = {}): Promise<Uint8Array> {
  const dpi = options.dpi ?? 300;
  if (!(dpi >= 24 && dpi <= 2400)) throw new RangeError(`The resolution is ${dpi} dpi. Expected a number from 24 to 2400.`);
  const { Resvg } = await import("@resvg/resvg-js");
  const drawing = new Resvg(svg, {
    background: "#ffffff",
    fitTo: { mode: "zoom", value: dpi / layoutDpi },
    font: { loadSystemFonts: false, fontFiles: fontFaces.map(fontFile), defaultFontFamily: "DejaVu Sans", sansSerifFamily: "DejaVu Sans" },
    // Heat maps are small pictures of one pixel a cell: smoothing would blur the borders between cells.
    imageRendering: 1,
  });
  return drawing.render().asPng();
}
