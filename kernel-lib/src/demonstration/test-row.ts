import type { FailureMode, TestRowInput } from "../dataset";
import type { PlannedSeries } from "./campaign";
import type { Specimen } from "./mean-capacity";
import { BAR_SIZES, barStrengths } from "./truth";

/** The row of one test, with the specimen as it would be reported. */
export function rowOf(
  series: PlannedSeries,
  specimen: Specimen,
  outcome: {
    test_id: string;
    study_id: string;
    series_id: string;
    load: number;
    failure: FailureMode;
    slip: number | null;
  },
): TestRowInput {
  const size = BAR_SIZES[series.size];
  if (size === undefined)
    throw new RangeError(`no bar size ${String(series.size)}: expected 0 to 4`);
  const { kind, adhesive, cracked } = specimen;
  const strengths = barStrengths(kind, size);
  const isGroup = specimen.nx * specimen.ny > 1;
  const near = (distance: number): number | null => (Number.isFinite(distance) ? distance : null);
  return {
    test_id: outcome.test_id,
    study_id: outcome.study_id,
    series_id: outcome.series_id,
    replicates: 1,
    bar_material: kind.material,
    bar_surface: kind.surface,
    bar_size: size.label,
    bar_diameter_mm: size.diameter_mm,
    bar_area_mm2: size.area_mm2,
    diameter_basis: "nominal",
    bar_strength_MPa: strengths.mean,
    bar_strength_specified_MPa: strengths.specified,
    bar_yield_MPa: strengths.yield,
    bar_shear_strength_MPa: Math.round(10 * strengths.shear) / 10,
    bar_shear_strength_specified_MPa: strengths.shearSpecified,
    bar_modulus_GPa: kind.modulus_GPa,
    installation: adhesive === null ? "cast_in" : "post_installed",
    adhesive: series.adhesive,
    hole_diameter_mm: adhesive === null ? null : Math.ceil(size.diameter_mm + 4),
    bond_strength_char_MPa:
      adhesive === null ? null : cracked ? adhesive.charCracked : adhesive.charUncracked,
    bond_strength_uncracked_char_MPa: adhesive?.charUncracked ?? null,
    concrete_strength_MPa: specimen.concrete,
    concrete_strength_basis: "cylinder",
    concrete_type: "normal",
    lightweight_factor: 1,
    cracked: cracked ? "yes" : "no",
    crack_width_mm: cracked ? 0.3 : null,
    embedment_mm: specimen.embedment,
    member_thickness_mm: specimen.thickness,
    edge_1_mm: near(specimen.edges[0]),
    edge_2_mm: near(specimen.edges[1]),
    edge_3_mm: null,
    edge_4_mm: null,
    group_nx: isGroup ? specimen.nx : null,
    group_ny: isGroup ? specimen.ny : null,
    spacing_x_mm: specimen.nx > 1 ? specimen.sx : null,
    spacing_y_mm: specimen.ny > 1 ? specimen.sy : null,
    casting_position: adhesive === null ? "good" : null,
    cover_mm: near(specimen.cover),
    setup: series.setup,
    action: series.setup === "direct_shear" ? "shear" : "tension",
    peak_load_kN: Math.round(outcome.load / 100) / 10,
    slip_at_peak_mm: outcome.slip,
    failure_mode: outcome.failure,
    extra: {
      bar_family: kind.family,
      layout: series.adhesive === null ? "bond_specimen" : series.layout,
    },
  };
}
