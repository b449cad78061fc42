import type { Figure } from "../../figures/figure";
import { drawWithPlotly } from "./plotly";
import { tidySvg } from "./tidy-svg";

export async function renderSvg(figure: Figure): Promise<string> {
  return tidySvg(await drawWithPlotly(figure));
}
