import { normalBlocks } from "../../statistics";
import type { LimitStateColumns } from "./limit-state";

/** Samples in a block. A block's numbers depend on the seed and its own number alone. */
export const BLOCK_SAMPLES = 8192;

/**
 * What is drawn: the seed, the number of samples, and the point in standard normal space drawn
 * about.
 */
export interface SamplingPlan {
  readonly seed: number | string;
  readonly samples: number;
  readonly centre: readonly number[];
}

/** x from a column of v, the distance from the point drawn about, for the variable of an index. */
export type ColumnTransform = (variable: number, v: Float64Array, x: Float64Array) => void;

/** Sum of weights, of their squares, and number of failures. */
export interface SamplingSums {
  readonly sum: number;
  readonly squares: number;
  readonly failures: number;
}

/**
 * Draws the samples of a plan block by block, the last block shorter, and adds what each block
 * gives.
 * @throws RangeError where the limit state is not a number
 */
export function sampleBlocks(
  plan: SamplingPlan,
  transform: ColumnTransform,
  limitState: LimitStateColumns,
): SamplingSums {
  const { centre, samples } = plan;
  const variables = centre.length;
  const half = 0.5 * centre.reduce((total, value) => total + value * value, 0);
  const source = normalBlocks(plan.seed);
  const normals = new Float64Array(variables * BLOCK_SAMPLES);
  const columns = centre.map(() => new Float64Array(BLOCK_SAMPLES));
  const g = new Float64Array(BLOCK_SAMPLES);
  const total = { sum: 0, squares: 0, failures: 0 };
  for (let block = 0; block * BLOCK_SAMPLES < samples; block += 1) {
    const n = Math.min(BLOCK_SAMPLES, samples - block * BLOCK_SAMPLES);
    source.fill(block, normals);
    for (let k = 0; k < variables; k++) {
      transform(
        k,
        normals.subarray(k * BLOCK_SAMPLES, (k + 1) * BLOCK_SAMPLES),
        columns[k] as Float64Array,
      );
    }
    limitState(n, columns, g);
    const one = sumsOfBlock(n, g, normals, centre, half);
    total.sum += one.sum;
    total.squares += one.squares;
    total.failures += one.failures;
  }
  return total;
}

function sumsOfBlock(
  n: number,
  g: Float64Array,
  normals: Float64Array,
  centre: readonly number[],
  half: number,
): SamplingSums {
  let [sum, squares, failures] = [0, 0, 0];
  for (let i = 0; i < n; i++) {
    const value = g[i] as number;
    if (value >= 0) continue;
    if (Number.isNaN(value))
      throw new RangeError(
        "simulatedReliability: the limit state is not a number (NaN) for a sample, expected a value for every set of the variables",
      );
    let exponent = half;
    if (half !== 0)
      for (let k = 0; k < centre.length; k++)
        exponent += (normals[k * BLOCK_SAMPLES + i] as number) * (centre[k] as number);
    const weight = half === 0 ? 1 : Math.exp(-exponent);
    sum += weight;
    squares += weight * weight;
    failures += 1;
  }
  return { sum, squares, failures };
}
