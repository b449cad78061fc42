import type { Figure, FigureText, PlotValue, Trace } from "./figure";
import { figureOf } from "./figure";
import { frame, legendNames } from "./frame";
import { colours, houseAxis, lineWidths } from "./house-style";
import { logTicks, shown } from "./numbers";
import { pointTraces } from "./point-figure";

export interface PredictedTest {
  /** Predicted capacity, in `unit`. */
  readonly predicted: number;
  /** Peak load of the test, in `unit`. */
  readonly observed: number;
  readonly series: string;
  readonly censored: boolean;
  readonly label?: string;
}

export interface TestAgainstPredictedInput extends FigureText {
  readonly tests: readonly PredictedTest[];
  /**
   * Characteristic test-to-predicted ratio, the lower bound of its fractile; a line is drawn at this slope. NaN
   * leaves it out.
   */
  readonly characteristicRatio?: number;
  /** Unit of both loads; kN by default. */
  readonly unit?: string;
}

/**
 * Peak load of each test against its predicted capacity, on logarithmic scales, with the 1:1 line
 * and the line below which 5 % of the tests are expected. Loads that are not positive cannot be
 * drawn and are left out.
 */
export function testAgainstPredicted(input: TestAgainstPredictedInput): Figure {
  const unit = input.unit ?? "kN";
  const drawable = input.tests.filter(
    (test) =>
      test.predicted > 0 &&
      test.observed > 0 &&
      test.predicted < Infinity &&
      test.observed < Infinity,
  );
  const [low, high] = range(drawable.flatMap((test) => [test.predicted, test.observed]));
  const points = drawable.map((test) => ({ ...test, x: test.predicted, y: test.observed }));
  const hover = `predicted %{x:.3~g} ${unit}<br>test %{y:.3~g} ${unit}`;
  const data = [
    ...lines(low, high, input.characteristicRatio ?? NaN),
    ...pointTraces(points, hover),
  ];
  const ticks = logTicks(low, high);
  const axis = (title: string): PlotValue => ({
    ...houseAxis(title),
    type: "log",
    range: [Math.log10(low), Math.log10(high)],
    tickvals: ticks,
    ticktext: ticks.map((tick) => String(tick)),
  });
  const layout = frame(input, {
    defaultSize: "column-and-a-half",
    plotHeight: 340,
    legend: legendNames(data),
    margin: { left: 58 },
    parts: {
      xaxis: axis(`Predicted capacity (${unit})`),
      yaxis: axis(`Peak load in the test (${unit})`),
    },
  });
  const below = drawable.filter((test) => !test.censored && test.observed < test.predicted).length;
  const alt = `Peak load against predicted capacity of ${drawable.length} tests on logarithmic scales; ${below} tests other than lower bounds are below the 1:1 line.`;
  return figureOf(input, alt, data, layout);
}

function range(loads: readonly number[]): [number, number] {
  if (loads.length === 0) return [1, 100];
  const low = loads.reduce((a, b) => Math.min(a, b));
  const high = loads.reduce((a, b) => Math.max(a, b));
  return [low / 1.25, high * 1.25];
}

function lines(low: number, high: number, ratio: number): Trace[] {
  const line = (name: string, slope: number, look: PlotValue): Trace => ({
    type: "scatter",
    mode: "lines",
    name,
    x: [low, high],
    y: [low * slope, high * slope],
    line: look,
    hoverinfo: "skip",
  });
  const unit = line("test = predicted", 1, { color: colours.ink, width: lineWidths.line });
  const dashed = { color: colours.accent, width: lineWidths.line, dash: "dash" };
  return Number.isFinite(ratio)
    ? [unit, line(`characteristic ratio ${shown(ratio)}`, ratio, dashed)]
    : [unit];
}
