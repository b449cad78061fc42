import { interruptsSoFar } from "./interrupts";
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import type { Figure } from "../../figures/figure";
import { fontFamily } from "./fonts";
import { forgettableSelections } from "./forget-selections";
import { type LayoutWindow, openLayoutWindow } from "./layout-window";

interface Plotly {
  toImage(
    figure: { data: unknown; layout: unknown; config: { staticPlot: boolean } },
    options: { format: "svg"; width: number; height: number; imageDataOnly: boolean },
  ): Promise<string>;
}

export interface PlotlyWindow extends LayoutWindow {
  readonly plotly: Plotly;
  /** Lets go of the last drawing. */
  readonly forget: () => void;
}

/** Text of the plotly.js bundle that the project depends on. */
export async function plotlySource(): Promise<string> {
  return readFile(createRequire(__filename).resolve("plotly.js"), "utf8");
}

/** Text of that bundle's license, which pages that hold the bundle carry. */
export async function plotlyLicense(): Promise<string> {
  return readFile(createRequire(__filename).resolve("plotly.js/LICENSE"), "utf8");
}

let opened: Promise<PlotlyWindow> | undefined;

/** Loads jsdom, the fonts and plotly.js on first use (well under a second) and keeps them. */
export function openPlotly(): Promise<PlotlyWindow> {
  opened ??= (async () => {
    const [layout, source] = await Promise.all([openLayoutWindow(), plotlySource()]);
    layout.window.eval(source);
    return {
      ...layout,
      forget: forgettableSelections(layout.window),
      plotly: (layout.window as unknown as { Plotly: Plotly }).Plotly,
    };
  })();
  return opened;
}

let last: Promise<unknown> = Promise.resolve();
let interrupts = interruptsSoFar();

/**
 * Plotly's own SVG of a figure, before tidying. Figures are drawn one after another: they share one
 * window.
 */
export function drawWithPlotly(figure: Figure): Promise<string> {
  if (interruptsSoFar() !== interrupts) {
    // The drawing that was cut off never ends, and its window is left half-made.
    interrupts = interruptsSoFar();
    last = Promise.resolve();
    opened = undefined;
  }
  const drawn = last.then(async () => {
    const { window, plotly, forget } = await openPlotly();
    // Plotly names its clip paths by random numbers; the same seed for each figure gives the same
    // bytes.
    let state = 20_240_229;
    window.Math.random = (): number => {
      state = (state * 16_807) % 2_147_483_647;
      return state / 2_147_483_647;
    };
    const plain = JSON.stringify({
      data: figure.data,
      layout: { ...figure.layout, font: { ...figure.layout.font, family: fontFamily } },
    });
    const { data, layout } = window.JSON.parse(plain) as { data: unknown; layout: unknown };
    const { width, height } = figure.layout;
    return plotly
      .toImage(
        { data, layout, config: { staticPlot: true } },
        { format: "svg", width, height, imageDataOnly: true },
      )
      .finally(forget);
  });
  last = drawn.catch(() => undefined);
  return drawn;
}
