import { type Random } from "../../../kernel-lib/src/statistics";

/** The invented tests of line-by-series.py, ln ratio by series. */
const Y = [
  [-0.02, 0.05, -0.11],
  [0.08, 0.15],
  [-0.14, -0.05, -0.1, -0.02],
  [0.01],
  [0.12, 0.2, 0.09],
  [0.02, -0.07],
];
/** Bar sizes of these tests: one a series, or several. */
export const SAME = [[10, 10, 10], [10, 10], [16, 16, 16, 16], [16], [25, 25, 25], [25, 25]];
export const MIXED = [[10, 12, 16], [10, 25], [16, 16, 20, 25], [12], [25, 20, 10], [25, 12]];
/** All ln ratios, and the series of each. */
export const y = Y.flat();
export const series = Y.flatMap((one, j) => one.map(() => `s${j}`));
export const question = { grid: [10, 16, 25].map(Math.log), fractile: 0.05, confidence: 0.9 };
export const logs = (x: readonly number[]): number[] => x.map(Math.log);

export const SIZES = [10, 12, 16, 20, 25];
/** Series of the given sizes and numbers of tests, ln ratio about 0 with an SD of 1. */
export function draw(
  random: Random,
  design: readonly (readonly [size: number, count: number])[],
  correlation: number,
): { y: number[]; x: number[]; series: string[] } {
  const out = { y: [] as number[], x: [] as number[], series: [] as string[] };
  design.forEach(([size, count], j) => {
    const shift = Math.sqrt(correlation) * random.normal();
    for (let i = 0; i < count; i++) {
      out.y.push(shift + Math.sqrt(1 - correlation) * random.normal());
      out.x.push(size);
      out.series.push(`s${j}`);
    }
  });
  return out;
}
