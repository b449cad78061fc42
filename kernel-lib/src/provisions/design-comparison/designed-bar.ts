import { TestTable, type BAR_MATERIALS, type BAR_SURFACES, type TestRowInput } from "../../dataset";

/** A bar whose design is compared: what a designer knows of it. Lengths in mm, stresses in MPa. */
export interface DesignedBar {
  readonly material?: (typeof BAR_MATERIALS)[number];
  readonly surface?: (typeof BAR_SURFACES)[number];
  readonly diameter?: number;
  /** mm²; that of the diameter where left out. */
  readonly area?: number;
  /** Specified (guaranteed) tensile strength. */
  readonly strength?: number;
  /** Specified yield strength of a steel bar. */
  readonly yieldStrength?: number;
  /** Cylinder strength of the concrete. */
  readonly concrete?: number;
  readonly cracked?: boolean;
  /** From the bar's axis to the nearest edge; the clear cover is this less half a diameter. */
  readonly edge?: number;
  readonly thickness?: number;
  /**
   * Characteristic bond stress of the adhesive in this concrete state, and in uncracked concrete.
   */
  readonly bond?: number;
  readonly uncrackedBond?: number;
}

/**
 * An invented case: glass bars bonded into the wall of an old breakwater, in cracked concrete near
 * the front face.
 */
export const PARAPET_BAR = {
  material: "gfrp",
  surface: "ribbed",
  diameter: 15.9,
  strength: 840,
  concrete: 30,
  cracked: true,
  edge: 150,
  bond: 6,
  uncrackedBond: 10.5,
} as const satisfies DesignedBar;

/**
 * One row of the data contract for a bar bonded into a drilled hole under tension, away from the
 * support; what is left out is that of `PARAPET_BAR`.
 * @example designedBar({ diameter: 12.7, edge: 200 }).numbers("cover_mm")[0] // 193.65
 */
export function designedBar(bar: DesignedBar = {}): TestTable {
  const all = { ...PARAPET_BAR, ...bar };
  const row: TestRowInput = {
    test_id: "design",
    study_id: "design",
    series_id: "design",
    bar_material: all.material,
    bar_surface: all.surface,
    bar_diameter_mm: all.diameter,
    bar_area_mm2: all.area ?? null,
    bar_strength_MPa: all.strength,
    bar_strength_specified_MPa: all.strength,
    bar_yield_MPa: all.yieldStrength ?? null,
    installation: "post_installed",
    concrete_strength_MPa: all.concrete,
    concrete_strength_basis: "cylinder",
    concrete_type: "normal",
    cracked: all.cracked ? "yes" : "no",
    bond_strength_char_MPa: all.bond,
    bond_strength_uncracked_char_MPa: all.uncrackedBond,
    embedment_mm: 10 * all.diameter,
    edge_1_mm: all.edge,
    cover_mm: all.edge - all.diameter / 2,
    member_thickness_mm: all.thickness ?? null,
    setup: "unconfined_tension",
    action: "tension",
    peak_load_kN: 1,
    failure_mode: "bond",
  };
  return TestTable.fromRows([row]);
}
