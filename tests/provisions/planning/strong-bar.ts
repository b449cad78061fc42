import {
  code,
  modeMargins,
  type FailureMode,
  type ModeMargins,
  type PlanningSettings,
} from "../../../kernel-lib/src/provisions";
import type { TestRowInput } from "../../../kernel-lib/src/dataset";
import { capacity, table } from "../specimens";

export const aci = code("aci318-19");
/** A bar and a member strong enough that bond or the cone governs. */
export const strong = {
  bar_strength_MPa: 1200,
  member_thickness_mm: 600,
  extra: { bond_strength_mean_MPa: 16 },
} as const;
/** Capacity of the strong bar by one provision at an embedment, N. */
export const at = (embedment_mm: number, id: string, row: object = {}): number =>
  capacity(aci, id, { ...strong, ...row, embedment_mm });

/** Margins of one row as it stands. */
export const marginsOf = (
  row: Partial<TestRowInput>,
  mode: FailureMode,
  settings: PlanningSettings = {},
): ModeMargins => modeMargins(aci, table(row), 0, mode, {}, 1, settings);
