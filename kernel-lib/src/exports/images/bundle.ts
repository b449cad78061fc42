import type { Figure } from "../../figures/figure";
import { renderSvg } from "./svg";

/** A figure in the forms that a notebook front end chooses from. */
export interface FigureBundle {
  readonly "application/vnd.plotly.v1+json": { readonly data: unknown; readonly layout: unknown };
  readonly "image/svg+xml": string;
  readonly "text/plain": string;
}

/**
 * The interactive figure, its static picture and its text alternative together; missing numbers
 * become null.
 */
export async function figureBundle(figure: Figure): Promise<FigureBundle> {
  const plain = JSON.parse(JSON.stringify({ data: figure.data, layout: figure.layout })) as {
    data: unknown;
    layout: unknown;
  };
  return {
    "application/vnd.plotly.v1+json": plain,
    "image/svg+xml": await renderSvg(figure),
    "text/plain": figure.alt,
  };
}
