import { createRandom } from "../random";
import { bootstrapResult, type Bootstrap, type BootstrapOptions } from "./bootstrap-result";
import { createDrawer, planResample, rowsWithout } from "./resample-plan";

/**
 * Bootstrap interval of a statistic of one column of numbers.
 *
 * The statistic receives a buffer that the next resample overwrites: it must not keep or change it.
 * Missing values are excluded.
 *
 * @throws RangeError for fewer than 2 values or a statistic that is not finite on the data
 * @example bootstrap(ratio, (x) => Math.max(...x), { seed: 1, resamples: 200 }).lower
 */
export function bootstrap(
  values: ArrayLike<number>,
  statistic: (sample: Float64Array) => number,
  options: BootstrapOptions,
): Bootstrap {
  const rows = Array.from({ length: values.length }, (_, i) => i).filter((i) =>
    Number.isFinite(values[i]),
  );
  const kept = Float64Array.from(rows, (i) => values[i]!);
  const excluded = Array.from({ length: values.length }, (_, i) => i)
    .filter((i) => !Number.isFinite(values[i]))
    .map((row) => ({ row, reason: "no finite value" }));
  const labels = (given: ArrayLike<string | number>, name: string): (string | number)[] => {
    if (given.length !== values.length)
      throw new RangeError(
        `Bootstrap ${name}: got ${given.length} labels, expected ${values.length}, one per row`,
      );
    return rows.map((i) => given[i]!);
  };
  let buffer = new Float64Array(kept.length);
  const onRows = (drawn: Int32Array): number => {
    const size = drawn.length;
    if (buffer.length !== size) buffer = new Float64Array(size);
    for (let i = 0; i < size; i += 1) buffer[i] = kept[drawn[i]!]!;
    return statistic(buffer);
  };
  const result = bootstrapRows(kept.length, onRows, {
    ...options,
    ...(options.strata === undefined ? {} : { strata: labels(options.strata, "strata") }),
    ...(options.clusters === undefined ? {} : { clusters: labels(options.clusters, "clusters") }),
  });
  return { ...result, excluded };
}

/**
 * Bootstrap interval of any statistic of a table: the statistic receives the row indices of a
 * resample (repeats included, in a buffer that the next resample overwrites).
 *
 * @throws RangeError for fewer than 2 units to draw or a statistic that is not finite on the data
 * @example
 * bootstrapRows(ratio.length, (rows) => ratio[rows[0]], { seed: "first", clusters: study_id })
 */
export function bootstrapRows(
  rows: number,
  statistic: (rows: Int32Array) => number,
  options: BootstrapOptions,
): Bootstrap {
  const plan = planResample(rows, options);
  const observed = statistic(Int32Array.from({ length: rows }, (_, i) => i));
  return bootstrapResult({
    plan,
    observed,
    options,
    drawReplicate: (): (() => number) => {
      const draw = createDrawer(plan, createRandom(options.seed).fork("bootstrap"));
      return () => statistic(draw());
    },
    leftOut: () => Float64Array.from(plan.units, (_, u) => statistic(rowsWithout(plan, u))),
  });
}
