import { characteristicAlong, type TrendByGroup, type TrendLine } from "../comparison";
import { normalQuantilePlot, rowDiagnostics } from "../regression";
import type { SizePanel } from "./bar-size-regression";
import { finite, shown } from "./numbers";
import type { QqInput, ResidualsInput } from "./residual-plots";

const STEPS = 8;

/**
 * The lines of a trend as panels of `barSizeRegression`: the line with the two-sided interval of its
 * height over the sizes tested and those asked for.
 */
export function trendPanels({ lines, question }: TrendByGroup, unit: string | null): SizePanel[] {
  const back = (values: ArrayLike<number>): number[] =>
    Array.from(values, (value) => (question.scale === "log" ? Math.exp(value) : value));
  return lines.map((line) => {
    const tests = line.points.map(({ x, y, bound, label }) => ({
      diameter: x,
      ratio: y,
      censored: bound,
      label,
    }));
    if (line.fit === null || line.slope === null) return { label: line.group, tests };
    const x = gridOf(line, question.at);
    const bands = line.fit.predict({ x }, { confidence: question.confidence ?? 0.95 });
    const characteristic = characteristicAlong(line, question, x);
    const { estimate } = line.slope;
    const per = unit === null ? "per unit" : `per ${unit}`;
    const slope =
      question.scale === "log"
        ? `${shown(100 * Math.expm1(estimate), 2)} % ${per}`
        : `${shown(estimate, 2)} ${per}`;
    return {
      label: line.group,
      tests,
      note: `slope ${slope}`,
      fit: {
        x,
        y: back(bands.fitted),
        lower: back(bands.confidenceLower),
        upper: back(bands.confidenceUpper),
        tested: [line.from, line.to] as const,
        ...(characteristic === null ? {} : { characteristic }),
      },
    };
  });
}

/** Steps below, within and above the range tested, whose ends are corner points of the line. */
function gridOf({ from, to }: TrendLine, at: readonly number[]): number[] {
  const ends = [...new Set([Math.min(from, ...at), from, to, Math.max(to, ...at)])];
  const steps = ends
    .slice(0, -1)
    .flatMap((low, k) =>
      Array.from({ length: STEPS }, (_, i) => low + ((ends[k + 1]! - low) * i) / STEPS),
    );
  return [...steps, ends.at(-1)!];
}

/** Studentized residuals of all lines against their fitted values, as input of `residuals`. */
export function trendResiduals({
  lines,
  question,
}: TrendByGroup): Pick<ResidualsInput, "fitted" | "residuals" | "xTitle" | "yTitle" | "sd"> {
  const fits = lines.flatMap(({ fit }) => (fit === null ? [] : [fit]));
  return {
    fitted: fits.flatMap((fit) => Array.from(fit.fitted)),
    residuals: fits.flatMap((fit) => Array.from(rowDiagnostics(fit).studentised)),
    xTitle: question.scale === "log" ? `Fitted ln ${question.response} (–)` : "Fitted value",
    yTitle: "Studentized residual (–)",
    sd: 1,
  };
}

/** Studentized residuals of all lines against normal quantiles, as input of `qq`. */
export function trendQuantiles({
  lines,
}: TrendByGroup): Pick<QqInput, "theoretical" | "sample" | "line" | "yTitle"> {
  const values = finite(
    lines.flatMap(({ fit }) => (fit === null ? [] : Array.from(rowDiagnostics(fit).studentised))),
  );
  const points = normalQuantilePlot(values);
  return {
    theoretical: Array.from(points.scores),
    sample: Array.from(points.values),
    line: { slope: 1, intercept: 0 },
    yTitle: "Studentized residual (–)",
  };
}
