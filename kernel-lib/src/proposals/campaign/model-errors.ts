import type { Comparison, Evidence } from "../../comparison";
import type { TestTable } from "../../dataset";
import { createRandom, fitCensored } from "../../statistics";
import { stepsOf } from "../../statistics/censoring/kaplan-meier";
import { limitAbove } from "../../statistics/censoring/limits-above";

/**
 * Model error of a mode without 3 failures: mean 1, coefficient of variation 0.15 (assumed, no
 * source).
 */
const ASSUMED_COV = 0.15;
const FEWEST = 3;

/** Test/predicted of the modes of a material. */
export interface ModelErrors {
  /**
   * Draws of test/predicted of a mode, the same for every candidate so that candidates differ by
   * geometry alone.
   */
  draws(mode: string): Float64Array;
  readonly assumed: ReadonlySet<string>;
}

/** Log-normal model errors by mode, lower bounds counted as such. */
export function modelErrors(
  comparison: Comparison,
  material: string,
  seed: number | string,
  simulations: number,
): ModelErrors {
  const known = new Map<string, Float64Array>();
  const assumed = new Set<string>();
  const materials = comparison.tests.texts("bar_material");
  return {
    assumed,
    draws: (mode) => {
      const found = known.get(mode);
      if (found) return found;
      const fitted = fittedError(
        comparison.evidence.filter(
          (one) => (one.mode as string) === mode && materials[one.row] === material,
        ),
      );
      if (!fitted) assumed.add(mode);
      const { location, scale } = fitted ?? {
        location: -0.5 * Math.log1p(ASSUMED_COV ** 2),
        scale: Math.sqrt(Math.log1p(ASSUMED_COV ** 2)),
      };
      const random = createRandom(seed).fork(mode);
      const draws = Float64Array.from({ length: simulations }, () =>
        Math.exp(location + scale * random.normal()),
      );
      known.set(mode, draws);
      return draws;
    },
  };
}

/** Location and scale of ln(test/predicted); null with fewer than 3 failures or without scatter. */
function fittedError(
  evidence: readonly Evidence[],
): { readonly location: number; readonly scale: number } | null {
  if (evidence.filter(({ bound }) => !bound).length < FEWEST) return null;
  const fit = fitCensored({
    values: evidence.map(({ ratio }) => ratio),
    censored: evidence.map(({ bound }) => bound),
    distribution: "lognormal",
  });
  return fit.status === "ok" && fit.scale > 0 ? fit : null;
}

/**
 * Draws of the grip's breaking load over the bar's strength, from the tests that the comparison
 * judges; null where no grip broke.
 */
export function gripShares(
  { tests, evidence }: Comparison,
  material: string,
  seed: number | string,
  simulations: number,
): Float64Array | null {
  const rows = [...new Set(evidence.map(({ row }) => row))]
    .sort((a, b) => a - b)
    .filter(
      (row) =>
        tests.text(row, "bar_material") === material && tests.text(row, "action") === "tension",
    );
  const shares = rows.map((row) => barShare(tests, row));
  const usable = rows.map((_, k) => k).filter((k) => Number.isFinite(shares[k]));
  const broke = usable.map((k) => tests.text(rows[k] ?? 0, "failure_mode") === "rupture_at_grip");
  if (!broke.some(Boolean)) return null;
  const steps = stepsOf(
    Float64Array.from(usable, (k) => shares[k] ?? NaN),
    Uint8Array.from(broke, (one) => (one ? 0 : 1)),
    1,
  ).filter(({ failures }) => failures > 0);
  const random = createRandom(seed).fork("grip");
  return Float64Array.from({ length: simulations }, () =>
    limitAbove(steps, -Infinity, random.uniform()),
  );
}

function barShare(tests: TestTable, row: number): number {
  const bars = (tests.number(row, "group_nx") || 1) * (tests.number(row, "group_ny") || 1);
  return (
    (1000 * tests.number(row, "peak_load_kN")) /
    (bars * tests.number(row, "bar_area_mm2") * tests.number(row, "bar_strength_MPa"))
  );
}
