import type { Figure } from "../../figures";
import type { FigureDrawer } from "../../notebook";

/** Pixels per inch in which drawings are laid out. */
const LAYOUT_DPI = 96;

/** A figure beyond this width or height in pixels, or of so many characters, is not drawn anew. */
const MOST_SIZE = 4000;
const MOST_CHARACTERS = 4_000_000;

/** Draws figures as a notebook does, but in this process, where no notebook reaches. */
export const FIGURE_DRAWER: FigureDrawer = {
  svg: async (figure, like, plain) => {
    const [, id, title, alt] =
      /<title id="([^"<>]*)-title">([^<]*)<\/title><desc\b[^<>]*>([^<]*)<\/desc>/.exec(like) ?? [];
    if (id === undefined || !isFigure(figure)) return undefined;
    const titles = {
      id,
      title: plainText(title ?? ""),
      alt: plain ?? plainText(alt ?? ""),
      caption: "",
    };
    const { renderSvg } = await import("../../exports/images/index.js");
    // A figure that cannot be drawn is no fault of the review: it is said.
    return renderSvg({ ...figure, ...titles }).catch(() => undefined);
  },
  png: async (svg, width) => {
    const own = Number(/<svg\b[^<>]*\bwidth="([\d.]+)(?:px)?"/.exec(svg)?.[1]);
    const dpi = Math.round((LAYOUT_DPI * width) / own);
    if (!(dpi >= 24 && dpi <= 600)) return undefined;
    const { svgToPng } = await import("../../exports/images/index.js");
    return svgToPng(svg, { dpi });
  },
};

/** What a notebook calls a figure may be of any size: only what a study prints is drawn. */
function isFigure(value: unknown): value is Pick<Figure, "data" | "layout"> {
  if (typeof value !== "object" || value === null) return false;
  const { data, layout } = value as { data?: unknown; layout?: unknown };
  if (!Array.isArray(data) || typeof layout !== "object" || layout === null) return false;
  const { width, height } = layout as { width?: unknown; height?: unknown };
  return (
    [width, height].every((size) => typeof size === "number" && size > 0 && size <= MOST_SIZE) &&
    JSON.stringify(value).length <= MOST_CHARACTERS
  );
}

/** The text that an XML text stands for. */
function plainText(xml: string): string {
  return xml
    .replace(/&lt;/g, "<")
    .replace(/&gt;/g, ">")
    .replace(/&quot;/g, '"')
    .replace(/&amp;/g, "&");
}
