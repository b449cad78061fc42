import { normalIntegral, normalQuantile } from "../special/normal-integral";
import type { NotEstimable } from "../result";
import { sumOfSquares } from "../sample/moments";
import type { NormalityOptions, NormalityTest } from "./normality-test";
import { normalityTest } from "./normality-test";

/**
 * Shapiro–Wilk test of normality (or of lognormality, on the logarithms), 3 to 5000 values.
 *
 * W = (Σ a_i x_(i))² / Σ(x − x̄)², with Royston's weights and p-value (Applied Statistics 44, 1995,
 * AS R94); p is exact for n = 3 and an approximation good to about 0.001 beyond.
 */
export function shapiroWilk(
  values: ArrayLike<number>,
  options: NormalityOptions = {},
): NormalityTest | NotEstimable {
  return normalityTest("Shapiro-Wilk test", values, options, [3, 5000], (sorted, centre) => {
    const n = sorted.length;
    const a = roystonWeights(n);
    let sum = 0;
    for (let i = 0; i < a.length; i++) sum += a[i]! * (sorted[n - 1 - i]! - sorted[i]!);
    // 1 − W is needed with its digits: for nearly normal data W rounds to 1.
    const w = Math.min(1, (sum * sum) / sumOfSquares(sorted, centre));
    return { statistic: w, p: roystonP(w, n) };
  });
}

/** Weights of the differences x_(n+1−i) − x_(i), i = 1 … n/2. */
function roystonWeights(n: number): number[] {
  const half = Math.floor(n / 2);
  if (n === 3) return [Math.SQRT1_2];
  const m = Array.from({ length: half }, (_, i) => -normalQuantile((i + 1 - 0.375) / (n + 0.25)));
  const total = 2 * m.reduce((sum, value) => sum + value * value, 0);
  const size = Math.sqrt(total);
  const r = 1 / Math.sqrt(n);
  const first =
    polynomial([0, 0.221157, -0.147981, -2.07119, 4.434685, -2.706056], r) + m[0]! / size;
  if (n <= 5) {
    const factor = Math.sqrt((total - 2 * m[0]! ** 2) / (1 - 2 * first ** 2));
    return [first, ...m.slice(1).map((value) => value / factor)];
  }
  const second =
    polynomial([0, 0.042981, -0.293762, -1.752461, 5.682633, -3.582633], r) + m[1]! / size;
  const factor = Math.sqrt(
    (total - 2 * m[0]! ** 2 - 2 * m[1]! ** 2) / (1 - 2 * first ** 2 - 2 * second ** 2),
  );
  return [first, second, ...m.slice(2).map((value) => value / factor)];
}

function roystonP(w: number, n: number): number {
  if (n === 3)
    return Math.max(0, (6 / Math.PI) * (Math.asin(Math.sqrt(w)) - Math.asin(Math.sqrt(0.75))));
  let y = Math.log(Math.max(1 - w, 1e-300));
  let centre: number;
  let spread: number;
  if (n <= 11) {
    const gamma = polynomial([-2.273, 0.459], n);
    if (y >= gamma) return 0;
    y = -Math.log(gamma - y);
    centre = polynomial([0.544, -0.39978, 0.025054, -6.714e-4], n);
    spread = Math.exp(polynomial([1.3822, -0.77857, 0.062767, -0.0020322], n));
  } else {
    const logN = Math.log(n);
    centre = polynomial([-1.5861, -0.31082, -0.083751, 0.0038915], logN);
    spread = Math.exp(polynomial([-0.4803, -0.082676, 0.0030302], logN));
  }
  return normalIntegral(-(y - centre) / spread);
}

/** Coefficients from the constant upwards. */
function polynomial(coefficients: readonly number[], x: number): number {
  return coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0);
}
