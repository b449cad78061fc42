import jstat from "jstat";
import { cleanSample } from "../result/clean-sample";

/** Points of a smoothed density, for drawing. */
export interface DensityCurve {
  x: number[];
  density: number[];
  /** SD of the Gaussian kernel, in the unit of the values. */
  bandwidth: number;
}

/**
 * Gaussian kernel density of a sample with bandwidth 1.06 s n^(−1/5) (normal reference rule), from
 * jStat's normal density. For pictures: three digits are plenty there, and jStat gives nine.
 * @returns null for fewer than 3 values or no spread: a curve would be invention
 */
export function densityCurve(values: ArrayLike<number>, points: number = 101): DensityCurve | null {
  if (!Number.isInteger(points) || points < 2)
    throw new RangeError(
      `densityCurve: points are ${points}, expected a whole number of at least 2`,
    );
  const { values: sample } = cleanSample(values, "densityCurve");
  if (sample.length < 3) return null;
  const bandwidth = 1.06 * jstat.jStat.stdev(sample, true) * Math.pow(sample.length, -0.2);
  if (!(bandwidth > 0)) return null;
  const least = sample.reduce((a, b) => Math.min(a, b));
  const largest = sample.reduce((a, b) => Math.max(a, b));
  const step = (largest - least + 6 * bandwidth) / (points - 1);
  const x = Array.from({ length: points }, (_, i) => least - 3 * bandwidth + i * step);
  const density = x.map(
    (at) =>
      sample.reduce((sum, value) => sum + jstat.jStat.normal.pdf(at, value, bandwidth), 0) /
      sample.length,
  );
  return { x, density, bandwidth };
}
