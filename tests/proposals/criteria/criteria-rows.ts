import {
  compare,
  groupRatios,
  type Comparison,
  type RatioGroup,
} from "../../../kernel-lib/src/comparison";
import type { TestRowInput } from "../../../kernel-lib/src/dataset";
import { code } from "../../../kernel-lib/src/provisions";
import { table } from "../../provisions/specimens";

/** One invented test: what it is and the ratio that it shall have. */
export interface RatioRow extends Partial<TestRowInput> {
  readonly ratio: number;
}

export const present = code("aci318-19");

/**
 * A comparison in one mode whose ratios are the given ones: the loads are those ratios times what
 * the code predicts.
 */
export function comparisonOf(rows: readonly RatioRow[], mode: string = "bond"): Comparison {
  const bare = rows.map(({ ratio: _, ...row }) => row);
  const unit = compare(table(...bare.map((row) => ({ ...row, peak_load_kN: 1 }))), present);
  const capacity = new Map(
    unit.evidence.filter((one) => one.mode === mode).map((one) => [one.row, one.capacity]),
  );
  const tests = table(
    ...bare.map((row, i) => ({ ...row, peak_load_kN: rows[i]!.ratio * (capacity.get(i) ?? NaN) })),
  );
  const all = compare(tests, present);
  return { ...all, evidence: all.evidence.filter((one) => one.mode === mode) };
}

/** The group of one material in the comparison's mode. */
export function groupOf(comparison: Comparison, material: string): RatioGroup {
  return groupRatios(comparison, ["mode", "bar_material"]).find(
    ({ by }) => by["bar_material"] === material,
  )!;
}
