import { compare, type Comparison } from "../../../kernel-lib/src/comparison";
import { TestTable, type TestRowInput } from "../../../kernel-lib/src/dataset";
import { code, predict } from "../../../kernel-lib/src/provisions";
import { createRandom } from "../../../kernel-lib/src/statistics";
import { PLAIN } from "../../provisions/specimens";

const random = createRandom("campaign tests");
/**
 * Bars in the field with strong bars, of which some fail in bond and some by a cone, about the ACI
 * predictions.
 */
export const rows = Array.from({ length: 24 }, (_, k): TestRowInput => ({
  ...PLAIN,
  test_id: `t${k}`,
  series_id: `s${k % 6}`,
  bar_size: k < 22 ? "16" : "25",
  bar_strength_MPa: 9000,
  bar_strength_specified_MPa: 9000,
  concrete_strength_MPa: 70,
  setup: "unconfined_tension",
  failure_mode: k % 2 === 0 ? "concrete_breakout" : "bond",
  peak_load_kN: 1,
}));
export const aci = code("aci318-19");
const capacities = predict(aci, TestTable.fromRows(rows), { level: "nominal" });
const capacityOf = (row: number, mode: string): number =>
  Math.min(
    ...capacities.columns
      .filter(({ provision }) => provision.modes[0] === mode)
      .map(({ capacity }) => capacity[row] ?? NaN)
      .filter(Number.isFinite),
  ) / 1000;
export const tests = TestTable.fromRows(
  rows.map((row, k) => ({
    ...row,
    peak_load_kN:
      capacityOf(k, k % 2 === 0 ? "concrete_breakout" : "bond") *
      Math.exp(0.5 + 0.1 * random.normal()),
  })),
);
export const comparison = compare(tests, aci, { level: "nominal", lowerBounds: "stopped early" });

/**
 * Shear tests of GFRP bars that failed in pryout, with or without a transverse shear strength: the
 * case of a blank that seemed to be safe.
 */
export function shearComparison(bar_shear_strength_MPa: number | null): Comparison {
  const specimens = Array.from({ length: 12 }, (_, k): TestRowInput => ({
    ...PLAIN,
    test_id: `v${k}`,
    series_id: `s${k % 4}`,
    bar_size: "16",
    action: "shear",
    setup: "direct_shear",
    failure_mode: "pryout",
    concrete_strength_MPa: 40,
    embedment_mm: 65,
    bar_shear_strength_MPa,
    peak_load_kN: 1,
  }));
  const pryout = predict(aci, TestTable.fromRows(specimens), { level: "nominal" }).columns.find(
    ({ provision }) => provision.modes[0] === "pryout",
  )!;
  const noise = createRandom("shear tests");
  return compare(
    TestTable.fromRows(
      specimens.map((one, k) => ({
        ...one,
        peak_load_kN: (pryout.capacity[k]! / 1000) * (1.25 + 0.05 * noise.normal()),
      })),
    ),
    aci,
    { level: "nominal", lowerBounds: "stopped early" },
  );
}

/** Two of the series only: too few for a verdict. */
export function twoSeries(data: Comparison): Comparison {
  return {
    ...data,
    evidence: data.evidence.filter(
      ({ row }) =>
        data.tests.text(row, "series_id") === "s0" || data.tests.text(row, "series_id") === "s1",
    ),
  };
}
