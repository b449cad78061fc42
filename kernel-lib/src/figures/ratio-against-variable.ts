import type { Figure, FigureText } from "./figure";
import { figureOf } from "./figure";
import { type FittedLine, fitTraces } from "./fitted-line";
import { frame, legendNames } from "./frame";
import { houseAxis } from "./house-style";
import { levelLine } from "./level-line";
import { paddedRange } from "./numbers";
import { pointTraces, seriesOf } from "./point-figure";

export interface VariableTest {
  /** The variable, in the unit of its axis. */
  readonly x: number;
  /** Test-to-predicted ratio, dimensionless. */
  readonly ratio: number;
  readonly series: string;
  readonly censored: boolean;
  readonly label?: string;
}

export interface RatioAgainstVariableInput extends FigureText {
  readonly tests: readonly VariableTest[];
  readonly fits: readonly FittedLine[];
  /** The variable as its axis names it, e.g. { title: "Bar diameter", unit: "mm" }. */
  readonly variable: { readonly title: string; readonly unit?: string };
  readonly ratioTitle?: string;
}

/**
 * Test-to-predicted ratio against one variable, every test a mark, with a fitted line and band for
 * each class.
 */
export function ratioAgainstVariable(input: RatioAgainstVariableInput): Figure {
  const { tests, fits, variable } = input;
  const classes = seriesOf(tests);
  const xRange = paddedRange([...tests.map((test) => test.x), ...fits.flatMap((fit) => fit.x)]);
  const ratios = [
    ...tests.map((test) => test.ratio),
    ...fits.flatMap((fit) => [...fit.y, ...(fit.lower ?? []), ...(fit.upper ?? [])]),
  ];
  const points = tests.map((test) => ({ ...test, y: test.ratio }));
  const title =
    variable.unit === undefined ? variable.title : `${variable.title} (${variable.unit})`;
  const unit = variable.unit ?? "";
  const data = [
    levelLine(1, xRange),
    ...fits.flatMap((fit) => fitTraces(fit, Math.max(0, classes.indexOf(fit.series)))),
    ...pointTraces(points, `${variable.title} %{x:.4~g} ${unit}<br>ratio %{y:.3f}`),
  ];
  const layout = frame(input, {
    defaultSize: "two-column",
    plotHeight: 300,
    legend: legendNames(data),
    parts: {
      xaxis: { ...houseAxis(title), range: xRange },
      yaxis: {
        ...houseAxis(input.ratioTitle ?? "Test-to-predicted ratio (–)"),
        range: paddedRange(ratios, [1]),
      },
    },
  });
  const alt = `Test-to-predicted ratio against ${variable.title.toLowerCase()} for ${tests.length} tests of ${classes.join(", ")}, with ${fits.length} fitted lines.`;
  return figureOf(input, alt, data, layout);
}
