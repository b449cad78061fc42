import { interruptsSoFar } from "./interrupts";
import type { Figure } from "../../figures/figure";
import { drawWithPlotly } from "./plotly";
import { tidySvg } from "./tidy-svg";

/**
 * Draws a figure as SVG without a browser: text measured in the shipped DejaVu Sans, the same bytes
 * every time.
 *
 * @example const svg = await renderSvg(figure);
 */
export async function renderSvg(figure: Figure): Promise<string> {
  // SVG, PNG and PDF of one figure are often asked for together; a figure changed meanwhile is
  // drawn anew.
  const content = JSON.stringify(figure);
  // One that an interrupt cut off never ends.
  const interrupts = interruptsSoFar();
  const known = drawn.get(figure);
  if (known !== undefined && known.content === content && known.interrupts === interrupts)
    return known.svg;
  const svg = drawWithPlotly(figure).then((raw) => tidySvg(raw, figure));
  drawn.set(figure, { content, svg, interrupts });
  return svg;
}

const drawn = new WeakMap<
  Figure,
  { readonly content: string; readonly svg: Promise<string>; readonly interrupts: number }
>();
