import type { TestRowInput } from "../../kernel-lib/src/dataset";

/**
 * 16 mm glass bar, 128 mm deep, remote from edges, uncracked: 10 MPa of bond, 150 MPa of transverse
 * shear strength.
 */
export const BOTH: Partial<TestRowInput> = {
  bar_diameter_mm: 16,
  bar_area_mm2: null,
  bar_strength_specified_MPa: 800,
  bar_shear_strength_specified_MPa: 150,
  hole_diameter_mm: 20,
  bond_strength_char_MPa: 10,
  bond_strength_uncracked_char_MPa: 12,
  concrete_strength_MPa: 30,
  cracked: "no",
  embedment_mm: 128,
  member_thickness_mm: 400,
  other_edges: "far",
  setup: "combined_loading",
  action: "tension_and_shear",
  load_angle_deg: 30,
  peak_load_kN: 50,
};
