import { logNormalIntegral } from "../special/normal-integral";
import type { NotEstimable } from "../result";
import type { NormalityOptions, NormalityTest } from "./normality-test";
import { normalityTest } from "./normality-test";

/**
 * Anderson–Darling test of normality with mean and SD estimated (or of lognormality, on the
 * logarithms), 8 values or more.
 *
 * A² = −n − Σ (2i − 1)[ln Φ(z_i) + ln Φ(−z_{n+1−i})]/n; p from A²(1 + 0.75/n + 2.25/n²) by
 * Stephens' formulas (D'Agostino and Stephens, "Goodness-of-fit techniques", 1986, Table 4.9). The
 * statistic given is A² itself.
 */
export function andersonDarling(
  values: ArrayLike<number>,
  options: NormalityOptions = {},
): NormalityTest | NotEstimable {
  return normalityTest(
    "Anderson-Darling test",
    values,
    options,
    [8, Infinity],
    (sorted, centre, sd) => {
      const n = sorted.length;
      let sum = 0;
      for (let i = 0; i < n; i++) {
        sum +=
          (2 * i + 1) *
          (logNormalIntegral((sorted[i]! - centre) / sd) +
            logNormalIntegral(-(sorted[n - 1 - i]! - centre) / sd));
      }
      const statistic = -n - sum / n;
      return { statistic, p: stephensP(statistic * (1 + 0.75 / n + 2.25 / (n * n))) };
    },
  );
}

function stephensP(a: number): number {
  if (a < 0.2) return -Math.expm1(-13.436 + 101.14 * a - 223.73 * a * a);
  if (a < 0.34) return -Math.expm1(-8.318 + 42.796 * a - 59.938 * a * a);
  if (a < 0.6) return Math.exp(0.9177 - 4.279 * a - 1.38 * a * a);
  // Beyond 10 the last formula would rise again; p is nil there anyway.
  const b = Math.min(a, 10);
  return Math.exp(1.2937 - 5.709 * b + 0.0186 * b * b);
}
