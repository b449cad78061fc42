import { createRandom } from "../random";
import { mean as meanOf, sumOfSquares } from "../sample/moments";
import { bootstrapResult, type Bootstrap, type BootstrapOptions } from "./bootstrap-result";
import { createSumsDrawer } from "./index-words";
import { planResample } from "./resample-plan";

/**
 * Bootstrap interval of a statistic that needs only mean and SD, such as a characteristic value mean - K SD or a COV.
 *
 * It draws the same resamples as `bootstrap` with the same seed, but keeps running sums instead of the values (taken
 * from the mean of the data, so that nothing is lost to a large offset) and gives the values left out by arithmetic:
 * several times as fast. SD has the divisor n - 1. Missing values are set aside.
 *
 * @throws RangeError for fewer than 2 values or a statistic that is not finite on the data
 * @example bootstrapMoments(ratio, (mean, sd) => mean - 2.01 * sd, { seed: 1, confidence: 0.9 }).lower
 */
export function bootstrapMoments(
  values: ArrayLike<number>, statistic: (mean: number, sd: number) => number, options: Omit<BootstrapOptions, "strata" | "clusters">,
): Bootstrap {
  const kept = Float64Array.from(values).filter((value) => Number.isFinite(value));
  const setAside = Array.from({ length: values.length }, (_, row) => row).filter((row) => !Number.isFinite(values[row])).map((row) => ({ row, reason: "no finite value" }));
  const n = kept.length;
  const plan = planResample(n);
  const centre = meanOf(kept);
  const centred = kept.map((value) => value - centre);
  const of = (sum: number, squares: number, count: number): number => statistic(centre + sum / count, Math.sqrt(Math.max(0, squares - (sum * sum) / count) / (count - 1)));
  const squares = sumOfSquares(kept, centre);
  const result = bootstrapResult({
    plan, options, observed: of(0, squares, n),
    drawReplicate: () => {
      const draw = createSumsDrawer(createRandom(options.seed).fork("bootstrap"), centred);
      const sums = new Float64Array(2);
      return () => {
        draw(sums);
        return of(sums[0]!, sums[1]!, n);
      };
    },
    leftOut: () => centred.map((d) => of(-d, squares - d * d, n - 1)),
  });
  return { ...result, setAside };
}
