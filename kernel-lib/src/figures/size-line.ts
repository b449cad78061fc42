import type { Trace } from "./figure";
import { fitTraces } from "./fitted-line";
import { colours, lineWidths } from "./house-style";

/** Fitted line and band over the diameter, mm. */
export interface SizeFit {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly lower?: readonly number[];
  readonly upper?: readonly number[];
  /** Bound of the 5 % fractile along the line, dotted. */
  readonly characteristic?: readonly number[];
  /** Range of the tests: beyond it the line is dashed. All of it by default. */
  readonly tested?: readonly [from: number, to: number];
}

/** Band, line (dashed beyond the range tested) and dotted bound of the 5 % fractile of a panel. */
export function sizeLine(
  fit: SizeFit,
  series: string,
  axes: { readonly xaxis: string; readonly yaxis: string },
): Trace[] {
  const { x, y, characteristic, tested: [from, to] = [-Infinity, Infinity] } = fit;
  const line = (of: readonly number[], dash: string, kept: (x: number) => boolean): Trace => ({
    type: "scatter",
    mode: "lines",
    x: x.filter(kept),
    y: of.filter((_, k) => kept(x[k]!)),
    line: { color: colours.accent, width: lineWidths.strong, dash },
    showlegend: false,
    hoverinfo: "skip",
    ...axes,
  });
  const within = [...x.keys()].filter((k) => x[k]! >= from && x[k]! <= to);
  const of = (values: readonly number[]): number[] => within.map((k) => values[k]!);
  const [band, solid] = splitOff(fitTraces({ ...fit, series }, 0, axes));
  return [
    ...band,
    { ...solid, x: of(x), y: of(y) },
    ...(x.some((one) => one < from) ? [line(y, "dash", (one) => one <= from)] : []),
    ...(x.some((one) => one > to) ? [line(y, "dash", (one) => one >= to)] : []),
    ...(characteristic === undefined ? [] : [line(characteristic, "dot", () => true)]),
  ];
}

/** The band below and the line on top. */
function splitOff(traces: readonly Trace[]): [band: readonly Trace[], line: Trace] {
  return [traces.slice(0, -1), traces.at(-1)!];
}
