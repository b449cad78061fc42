import { TestTable, type TestRowInput } from "../../../kernel-lib/src/dataset";
import {
  CODES,
  type CodeDefinition,
  type DevelopmentCase,
} from "../../../kernel-lib/src/provisions";
import { PLAIN } from "../specimens";

type Row = Partial<TestRowInput>;

const EDGES: readonly Row[] = [
  {},
  { edge_1_mm: 80 },
  { edge_1_mm: 90, edge_2_mm: 130 },
  { edge_1_mm: 90, edge_2_mm: 110, edge_4_mm: 100 },
];
const GROUPS: readonly Row[] = [
  {},
  {
    group_nx: 2,
    group_ny: 2,
    spacing_x_mm: 100,
    spacing_y_mm: 150,
    eccentricity_x_mm: 10,
    eccentricity_y_mm: 20,
  },
  { group_ny: 3, spacing_y_mm: 400 },
];
const CONCRETES: readonly Row[] = [
  { concrete_strength_MPa: 25, concrete_strength_basis: "cylinder" },
  { concrete_strength_MPa: 62, concrete_strength_basis: "cylinder" },
  {
    concrete_strength_MPa: 40,
    concrete_strength_basis: "cube_150",
    concrete_type: "lightweight",
    lightweight_factor: 0.85,
  },
];
const SURFACES: readonly Row[] = [
  {
    bar_material: "steel",
    bar_surface: "ribbed",
    bar_strength_MPa: 640,
    bar_yield_MPa: 520,
    bar_shear_strength_MPa: 380,
    bar_modulus_GPa: 200,
  },
  {
    bar_material: "gfrp",
    bar_surface: "sand_coated",
    bar_strength_MPa: 850,
    bar_shear_strength_MPa: 150,
    bar_shear_strength_specified_MPa: 131,
    bar_modulus_GPa: 46,
  },
  {
    bar_material: "gfrp",
    bar_surface: "helically_wrapped",
    bar_strength_MPa: 760,
    bar_shear_strength_MPa: 145,
    bar_modulus_GPa: 45,
  },
  {
    bar_material: "cfrp",
    bar_surface: "indented",
    bar_strength_MPa: 1800,
    bar_shear_strength_MPa: 200,
    bar_modulus_GPa: 130,
  },
  {
    bar_material: "afrp",
    bar_surface: "ribbed",
    bar_strength_MPa: 1300,
    bar_shear_strength_MPa: 140,
    bar_modulus_GPa: 65,
  },
];
const BARS = [10, 16, 25] as const;
const at = <T>(of: readonly T[], k: number): T => of[k % of.length] as T;

/**
 * Bonded bars: two materials, three diameters, two depths, four kinds of edges; concrete, group and
 * crack vary along.
 */
function anchors(): Row[] {
  const rows: Row[] = [];
  for (const material of SURFACES.slice(0, 2)) {
    for (const d of BARS) {
      for (const ratio of [5, 11]) {
        for (const edges of EDGES) {
          const k = rows.length;
          rows.push({
            ...material,
            ...edges,
            ...at(GROUPS, Math.floor(k / 5)),
            ...at(CONCRETES, Math.floor(k / 3)),
            bar_diameter_mm: d,
            bar_area_mm2: null,
            installation: at(
              ["post_installed", "post_installed", "post_installed", "cast_in"],
              k + Math.floor(k / 4),
            ),
            hole_diameter_mm: d + 4,
            embedment_mm: d * ratio,
            cracked: at(["yes", "no", "no", "yes", "no"], k),
            member_thickness_mm: at([110, 160, 500], k),
            bond_strength_char_MPa: 6 + (k % 5),
            bond_strength_uncracked_char_MPa: 9 + (k % 4),
            bond_strength_mean_MPa: 12 + (k % 6),
            cover_mm: null,
            bar_spacing_mm: null,
          });
        }
      }
    }
  }
  return rows;
}

/**
 * Embedded bars: five materials and surfaces, three diameters, two lengths; cover, spacing, casting
 * and concrete vary along.
 */
function embedded(): Row[] {
  return SURFACES.flatMap((material, m) =>
    BARS.flatMap((d, b) =>
      [8, 26].map((ratio, r): Row => {
        const k = m * 6 + b * 2 + r;
        return {
          ...material,
          ...at(CONCRETES, k),
          bar_diameter_mm: d,
          bar_area_mm2: Math.round((Math.PI / 4) * d * d),
          installation: "cast_in",
          embedment_mm: d * ratio,
          cracked: "no",
          cover_mm: at([20, 35, 80], k),
          bar_spacing_mm: at([null, 45, 140], k + m),
          casting_position: at(["good", "top"], k + b),
          setup: "beam_end",
          bond_strength_char_MPa: null,
          bond_strength_uncracked_char_MPa: null,
          member_thickness_mm: 400,
        };
      }),
    ),
  );
}

/** Deep heads beside an edge: one, one in a corner, two in a row. */
const HEADS: readonly Row[] = [{}, { edge_2_mm: 90 }, { group_ny: 2, spacing_y_mm: 160 }].map(
  (row, k) => ({
    ...SURFACES[0],
    ...CONCRETES[0],
    bar_diameter_mm: 16,
    installation: "cast_in" as const,
    embedment_mm: 250,
    cracked: k === 1 ? ("no" as const) : ("yes" as const),
    edge_1_mm: 60,
    member_thickness_mm: 500,
    bond_strength_char_MPa: null,
    bond_strength_uncracked_char_MPa: null,
    ...row,
  }),
);

/**
 * Bars bonded in near the surface of a beam end, and bars in shear with a lever arm or on grout.
 */
const DRILLED_IN: readonly Row[] = [
  ...SURFACES.slice(0, 2).flatMap((material) =>
    [9, 28].map((ratio): Row => ({
      ...material,
      ...CONCRETES[0],
      bar_diameter_mm: 16,
      embedment_mm: 16 * ratio,
      cover_mm: 40,
      bar_spacing_mm: 120,
      setup: "beam_end",
    })),
  ),
  ...SURFACES.slice(0, 2).flatMap((material) =>
    [
      { lever_arm_mm: 30 },
      { lever_arm_mm: 45, lever_restraint: 2 },
      { grout_thickness_mm: 12 },
    ].map((row): Row => ({
      ...material,
      ...CONCRETES[0],
      ...row,
      bar_diameter_mm: 16,
      embedment_mm: 160,
      action: "shear",
      setup: "direct_shear",
    })),
  ),
].map((row) => ({
  bond_strength_char_MPa: 9,
  bond_strength_uncracked_char_MPa: 11,
  bond_strength_mean_MPa: 15,
  member_thickness_mm: 400,
  ...row,
}));

/**
 * The specimens of the golden values; a-… are bonded, h-… deep heads, e-… embedded, p-… drilled in
 * near the surface or in shear.
 */
export function goldenSpecimens(): TestTable {
  const heads = HEADS.map((row, k) => ({ ...row, test_id: `h-${String(k + 1).padStart(2, "0")}` }));
  const rows = [
    ...heads,
    ...anchors().map((row, k) => ({ ...row, test_id: `a-${String(k + 1).padStart(2, "0")}` })),
    ...embedded().map((row, k) => ({ ...row, test_id: `e-${String(k + 1).padStart(2, "0")}` })),
    ...DRILLED_IN.map((row, k) => ({ ...row, test_id: `p-${String(k + 1).padStart(2, "0")}` })),
  ];
  return TestTable.fromRows(
    rows.map((row) => ({
      ...PLAIN,
      bar_strength_specified_MPa: null,
      bar_shear_strength_specified_MPa: null,
      ...row,
    })),
  );
}

/**
 * Another value for every option that any code offers, so that what only an option brings in has
 * values as well.
 */
const OTHER: Readonly<Record<string, number>> = {
  supplementary_reinforcement: 1,
  installation_category: 2,
  ductile: 1,
  edge_reinforcement: 1,
  grout_pad: 1,
  bond_table: 2,
  sustained: 1,
  seismic: 1,
  headed_cast_in: 1,
  product_k_c: 9,
  product_c_ac: 350,
  deep_breakout: 1,
  rows_share_shear: 1,
  front_row_along_edge: 1,
  gamma_Ms_frp: 1.8,
  extrapolate_below_20_d: 1,
  splitting_capped: 1,
  literal_steel_shear: 1,
  A_brg: 600,
  e_h: 56,
  welded_to_plate: 1,
  coated_bar: 1,
  transverse_index: 6,
  confining_stirrups: 1,
  drilled_in_for_comparison: 1,
  steel_grade: 80,
  torqued: 1,
  cover_required: 40,
  aggregate: 25,
  product_spacing: 50,
  product_edge: 60,
  product_thickness: 120,
  C_E: 0.8,
  lap_splice: 1,
  gamma_c: 1.4,
  gamma_inst: 1.2,
  yield_ratio: 0.7,
  dense_reinforcement: 1,
  compression_lever_arm: 60,
  sustained_share: 0.75,
  psi_sus_0: 0.7,
  c_cr_sp_ratio: 2,
  h_min: 100,
  splitting_with_factors: 1,
  splitting_reinforced: 0,
  k_8: 1.5,
  load_angle: 30,
  low_ductility: 1,
  grout_thickness: 15,
  tension_share: 0.3,
  lever_arm: 25,
  alpha_M: 2,
  f_yk: 600,
  gamma_s: 1.1,
  count_cover: 1,
  k_lb: 45,
  k_cp_poor: 1.3,
  semi_low_density: 1,
  k_4_basalt: 1.1,
  k_4: 0.8,
  alpha_2: 0.9,
  gamma_cb: 1.4,
  cover_ratio: 2,
  k_m: 6,
  K_tr: 0.02,
  mean_bond_stress: 14,
  k_cone: 15.5,
  A_k: 4.2,
  sp1: 0.3,
  sp2: 0.25,
  sp3: 0.6,
  sp4: 0.3,
  lb1: 0.5,
  k_cp: 1.5,
  k_q: 4,
  interaction_form: 1,
  crack_factor: 0.75,
  thin_member: 1,
  transverse_stress: 7,
  transverse_area: 150,
  R_r: 0.1,
};

/** What the splitting clause needs for its default reading. */
export const SPLITTING_STATED = { c_cr_sp_ratio: 2, h_min: 100 };

/**
 * The options of a code at their other values. @throws Error naming an option that has none here
 */
export function otherOptions(code: CodeDefinition): Record<string, number> {
  return Object.fromEntries(
    Object.keys(code.options).map((name) => {
      const value = OTHER[name];
      if (value === undefined)
        throw new Error(`option "${name}" of ${code.id} has no other value in golden/grid.ts`);
      return [name, value];
    }),
  );
}

/** Options named here that no code offers any more. */
export function unknownOptions(): string[] {
  return Object.keys(OTHER).filter(
    (name) => !CODES.some(({ options }) => Object.hasOwn(options, name)),
  );
}

/** Bars of which the development lengths are asked. */
export function goldenBars(): (DevelopmentCase & { readonly id: string })[] {
  const specimens = goldenSpecimens();
  return specimens.texts("test_id").flatMap((id, i) => {
    const row = specimens.row(i);
    if (!id?.startsWith("e-")) return [];
    const frp = row.bar_material === "steel" ? 0 : 1;
    return [
      {
        id,
        f_required: frp === 1 ? 480 : 400,
        d_a: row.bar_diameter_mm,
        A_b: row.bar_area_mm2 ?? NaN,
        f_c: row.concrete_strength_MPa,
        c_cover: row.cover_mm ?? NaN,
        s_clear: row.bar_spacing_mm ?? Infinity,
        E_b: (row.bar_modulus_GPa ?? NaN) * 1000,
        top_cast: row.casting_position === "top" ? 1 : 0,
        lightweight: row.concrete_type === "lightweight" ? 1 : 0,
        steel: 1 - frp,
        frp,
        [row.bar_material]: 1,
        [row.bar_surface ?? ""]: 1,
      },
    ];
  });
}
