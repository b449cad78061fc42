import type { RenderedImage } from "@resvg/resvg-js";
import type { Figure } from "../../figures/figure";
import { fontFaces, fontFile } from "./fonts";
import { encodePalettePng } from "./png-encode";
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

/**
 * Draws an SVG as PNG with the shipped fonts only, so that every machine gives the same picture.
 */
export async function svgToPng(svg: string, options: PngOptions = {}): Promise<Uint8Array> {
  return drawn(svg, options, (rendered) => rendered.asPng());
}

/** The same with a palette of rounded colors: a third of the bytes, for notebook files. */
export async function svgToSmallPng(svg: string, options: PngOptions = {}): Promise<Uint8Array> {
  return drawn(svg, options, ({ width, height, pixels }) =>
    encodePalettePng(width, height, pixels),
  );
}

async function drawn(
  svg: string,
  options: PngOptions,
  encode: (rendered: RenderedImage) => Uint8Array,
): Promise<Uint8Array> {
  const dpi = options.dpi ?? 300;
  if (!(dpi >= 24 && dpi <= 2400))
    throw new RangeError(`The resolution is ${dpi} dpi. Expected a number from 24 to 2400.`);
  const { Resvg } = await import("@resvg/resvg-js");
  const drawing = new Resvg(svg, {
    background: "#ffffff",
    fitTo: { mode: "zoom", value: dpi / layoutDpi },
    font: {
      loadSystemFonts: false,
      fontFiles: fontFaces.map(fontFile),
      defaultFontFamily: "DejaVu Sans",
      sansSerifFamily: "DejaVu Sans",
    },
    // Heat maps are small pictures of one pixel a cell: smoothing would blur the borders between
    // cells.
    imageRendering: 1,
  });
  const rendered = drawing.render();
  const png = encode(rendered);
  pixelsOf.set(rendered, new Uint8Array(4 * rendered.width * rendered.height));
  // Pixels are let go of between turns of the event loop only.
  await new Promise((turned) => setImmediate(turned));
  return png;
}

/**
 * The engine does not see the pixels of a picture, some 20 MB, and would let those of many pictures
 * wait for its next collection. So each is given as many bytes that it does see; never touched,
 * they take no memory.
 */
const pixelsOf = new WeakMap<object, Uint8Array>();
