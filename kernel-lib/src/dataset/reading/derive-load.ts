import type { Column } from "../schema/column";

const measure = (name: string, unit: string, meaning: string): Column => ({
  name,
  kind: "number",
  unit,
  required: false,
  above: 0,
  meaning,
});

/**
 * Measures of a test's strength that records give in place of its load, and the diameter that
 * belongs to one of them. Read like our own columns, kept as further ones.
 */
export const MEASURE_COLUMNS: ReadonlyArray<Column> = [
  measure("peak_bar_stress_MPa", "MPa", "stress in the bar at the highest load"),
  measure(
    "reported_bond_strength_MPa",
    "MPa",
    "average bond stress at the highest load, as reported",
  ),
  measure("bond_strength_MPa", "MPa", "average bond stress at the highest load, as reported"),
  measure(
    "effective_diameter_mm",
    "mm",
    "the diameter that the reported bond stress was calculated with, where it is not bar_diameter_mm",
  ),
];

/** The column that can be derived. */
export const DERIVED_LOAD = "peak_load_kN";

/** What may stand in place of the load, for messages. */
export const INSTEAD_OF_LOAD =
  "peak_load_kN, or in tension peak_bar_stress_MPa (with bar_area_mm2 or bar_diameter_mm) or reported_bond_strength_MPa (with bar_diameter_mm and embedment_mm), from which the load is derived";

/** A load derived from another measure of the same row, with the rule by its name. */
export interface DerivedLoad {
  readonly load_kN: number;
  readonly rule: string;
}

/**
 * The peak load of a test whose record gives another measure; null where the row does not hold what
 * that needs.
 *
 * P = n sigma A, with A the area of one bar (bar_area_mm2, else pi d^2 / 4), or P = n pi d l tau,
 * with d the diameter that the stress was calculated with (effective_diameter_mm, else
 * bar_diameter_mm); n = group_nx group_ny; N, mm, MPa. Tension only. With both diameters given the
 * rule says by how much the other one would change the load.
 * @example
 * deriveLoad(name => ({ bar_diameter_mm: 16, embedment_mm: 80, reported_bond_strength_MPa: 15 })[name] ?? NaN, "tension")?.load_kN // 60.32
 */
export function deriveLoad(
  value: (column: string) => number,
  action: string | null,
): DerivedLoad | null {
  if (action !== "tension") return null;
  const [nx, ny] = [value("group_nx"), value("group_ny")];
  const bars = (Number.isNaN(nx) ? 1 : nx) * (Number.isNaN(ny) ? 1 : ny);
  const diameter = value("bar_diameter_mm");
  const stress = value("peak_bar_stress_MPa");
  if (stress > 0) {
    const area = value("bar_area_mm2");
    const used = area > 0 ? area : (Math.PI / 4) * diameter ** 2;
    return used > 0
      ? {
          load_kN: rounded((bars * stress * used) / 1000),
          rule:
            area > 0
              ? "peak_bar_stress_MPa x bar_area_mm2"
              : "peak_bar_stress_MPa x pi/4 bar_diameter_mm^2",
        }
      : null;
  }
  const given = ["reported_bond_strength_MPa", "bond_strength_MPa"].find((name) => value(name) > 0);
  if (given === undefined) return null;
  const effective = value("effective_diameter_mm");
  const used = effective > 0 ? effective : diameter;
  const load = (bars * Math.PI * used * value("embedment_mm") * value(given)) / 1000;
  if (!(load > 0)) return null;
  const other = effective > 0 && diameter > 0 ? Math.round(100 * (diameter / effective - 1)) : 0;
  const name = effective > 0 ? "effective_diameter_mm" : "bar_diameter_mm";
  return {
    load_kN: rounded(load),
    rule: `pi x ${name} x embedment_mm x ${given}${other === 0 ? "" : ` (with bar_diameter_mm ${other > 0 ? "+" : ""}${String(other)} %)`}`,
  };
}

/** Without the last bits' noise. */
function rounded(value: number): number {
  return Number(value.toPrecision(12));
}
