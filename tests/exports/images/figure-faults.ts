import type { Figure } from "../../../kernel-lib/src/figures/figure";
import { placedBox } from "../../../kernel-lib/src/exports/images/element-boxes";
import type { Box } from "../../../kernel-lib/src/exports/images/matrix";
import { openPlotly } from "../../../kernel-lib/src/exports/images/plotly";
import { renderSvg } from "../../../kernel-lib/src/exports/images/svg";

/** A flaw of layout: text cut by the edge, text over text, or a figure without a single mark. */
export interface FigureFault {
  readonly kind: "clipped" | "overlapping" | "empty";
  readonly message: string;
}

interface PlacedText {
  readonly text: string;
  readonly box: Box;
}

/** Boxes may touch: line height is larger than the letters, by about this many pixels. */
const tolerance = 2;

/**
 * Measures the drawn figure and lists what a reader would trip over; an empty list means a clean
 * layout.
 */
export async function figureFaults(figure: Figure): Promise<FigureFault[]> {
  const svg = await renderSvg(figure);
  const { window, measure } = await openPlotly();
  const holder = window.document.createElement("div");
  holder.innerHTML = svg;
  const texts: PlacedText[] = Array.from(holder.querySelectorAll("text"))
    .map((element) => ({ text: element.textContent ?? "", box: placedBox(element, measure) }))
    .filter(({ text }) => text.trim() !== "");
  return [...clipped(texts, figure), ...overlapping(texts), ...empty(figure)];
}

function clipped(texts: readonly PlacedText[], figure: Figure): FigureFault[] {
  const { width, height } = figure.layout;
  return texts
    .filter(
      ({ box }) =>
        box.x < -0.5 ||
        box.y < -0.5 ||
        box.x + box.width > width + 0.5 ||
        box.y + box.height > height + 0.5,
    )
    .map(({ text, box }) => ({
      kind: "clipped",
      message: `"${text}" reaches from (${at(box.x)}, ${at(box.y)}) to (${at(box.x + box.width)}, ${at(box.y + box.height)}), the figure to (${width}, ${height}).`,
    }));
}

function overlapping(texts: readonly PlacedText[]): FigureFault[] {
  return texts.flatMap((a, i) =>
    texts.slice(i + 1).flatMap((b): FigureFault[] => {
      const across =
        Math.min(a.box.x + a.box.width, b.box.x + b.box.width) - Math.max(a.box.x, b.box.x);
      const down =
        Math.min(a.box.y + a.box.height, b.box.y + b.box.height) - Math.max(a.box.y, b.box.y);
      if (across <= tolerance / 2 || down <= tolerance) return [];
      return [
        {
          kind: "overlapping",
          message: `"${a.text}" and "${b.text}" share ${at(across)} × ${at(down)} pixels.`,
        },
      ];
    }),
  );
}

function empty(figure: Figure): FigureFault[] {
  const marks = figure.data.filter(
    (trace) =>
      trace["hoverinfo"] !== "skip" &&
      hasNumber(trace["type"] === "heatmap" ? trace["z"] : trace["y"]),
  );
  return marks.length > 0
    ? []
    : [{ kind: "empty", message: `The figure "${figure.id}" shows no mark.` }];
}

function hasNumber(values: unknown): boolean {
  return Array.isArray(values)
    ? values.some(hasNumber)
    : typeof values === "number" && Number.isFinite(values);
}

function at(pixels: number): string {
  return pixels.toFixed(1);
}
