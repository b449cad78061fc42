import { readdirSync, readFileSync } from "node:fs";
import type { TestRowInput } from "../../../kernel-lib/src/dataset";
import {
  code,
  developmentLengthRule,
  type CodeDefinition,
  type DevelopmentCase,
  type DevelopmentLengthRule,
  type Level,
  type PredictionSettings,
  type ProvisionDefinition,
} from "../../../kernel-lib/src/provisions";

/**
 * One case of the JSON files beside this one: written from the clauses by somebody who had not read
 * the library.
 */
export interface RecomputedCase {
  readonly id: string;
  readonly clause: string;
  readonly code: string;
  readonly what: string;
  readonly inputs: Readonly<Record<string, number | boolean | string | null>>;
  readonly intermediate: Readonly<Record<string, number | boolean>>;
  readonly result: {
    readonly force_N?: number;
    readonly stress_MPa?: number;
    readonly length_mm?: number;
  };
}

/** Every case, file by file. */
export function recomputedCases(): RecomputedCase[] {
  const files = readdirSync(import.meta.dirname)
    .filter((name) => name.endsWith(".json"))
    .sort();
  return files.flatMap(
    (name) =>
      JSON.parse(readFileSync(`${import.meta.dirname}/${name}`, "utf8")) as RecomputedCase[],
  );
}

const CLAUSE_OF_MODE: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  "aci318-19": {
    breakout_tension: "17.6.2",
    bond_tension: "17.6.5",
    edge_shear: "17.7.2",
    edge_shear_parallel_to_edge_2: "17.7.2.1(c)-edge2",
    pryout: "17.7.3",
    bar_shear: "17.7.1.2",
    developed_stress: "25.4.2",
  },
  "en1992-4-2018": {
    cone_tension: "7.2.1.4",
    combined_pullout_and_cone: "7.2.1.6",
    splitting: "7.2.1.7",
    edge_shear: "7.2.2.5",
    pryout: "7.2.2.4",
  },
  "ccd-1995": { cone_tension: "tension", edge_shear: "shear" },
  "fib-mc2010": {
    basic_bond_strength: "6.1.3",
    anchorage_mean_stress: "6.1.3.3",
    splitting_bond_stress: "6.1.1-splitting",
  },
};
const CLAUSE_OF_CODE: Readonly<Record<string, string>> = {
  "aci440.1r-15": "10.1",
  "jsce-1997": "development",
  "en1992-1-1-2004": "8.4",
  "uniform-bond-1998": "bond",
  "cone-bond-1993": "tension",
  "combined-cone-bond": "tension",
  "edge-shear-2005": "shear",
  "wambeke-shield-2006": "bond",
  "orangun-1977": "bond",
  "aci408r-03": "bond",
};
/** Editions whose second form shares the provision ids of the first. */
const FAMILY: Readonly<Record<string, string>> = {
  "aci318-19m": "aci318-19",
  "ccd-1995-cube": "ccd-1995",
};

/** The library's provision of a case that asks for a force or a stress at an embedment. */
export function provisionOf(one: RecomputedCase): {
  readonly of: CodeDefinition;
  readonly provision: ProvisionDefinition;
} {
  const of = code(one.code);
  const family = FAMILY[one.code] ?? one.code;
  const clause =
    CLAUSE_OF_MODE[family]?.[String(one.inputs["mode"] ?? one.inputs["quantity"])] ??
    CLAUSE_OF_CODE[family];
  const provision = of.provisions.find(({ id }) => id === `${family}/${clause ?? ""}`);
  if (!provision)
    throw new Error(`${one.id}: no provision of ${one.code} for ${JSON.stringify(one.inputs)}`);
  return { of, provision };
}

/** A case as a row of tests.csv. */
export function rowOf({ inputs, code: codeId }: RecomputedCase): Partial<TestRowInput> {
  const number = (name: string): number | null =>
    typeof inputs[name] === "number" ? inputs[name] : null;
  const anchors = [
    "aci318-19",
    "aci318-19m",
    "en1992-4-2018",
    "ccd-1995",
    "ccd-1995-cube",
    "uniform-bond-1998",
    "cone-bond-1993",
    "combined-cone-bond",
    "edge-shear-2005",
  ];
  const headed = [inputs["installation"], inputs["fastener"]].some((word) =>
    String(word).includes("headed"),
  );
  const d = number("bar_diameter_mm") ?? NaN;
  const lambda = number("lightweight_factor");
  const [cracked, uncracked] = [
    number("bond_strength_characteristic_cracked_MPa"),
    number("bond_strength_characteristic_uncracked_MPa") ??
      number("bond_strength_characteristic_uncracked_C20_25_MPa"),
  ];
  return {
    bar_material: materialOf(inputs),
    bar_surface:
      inputs["surface"] === "sand_coated"
        ? "sand_coated"
        : inputs["surface"] === "indented"
          ? "indented"
          : "ribbed",
    bar_diameter_mm: d,
    // The JSCE case J4 goes through the perimeter, the library through the area: the same where the
    // area is that of the diameter.
    bar_area_mm2: codeId === "jsce-1997" ? null : number("bar_area_mm2"),
    bar_strength_MPa:
      number("bar_ultimate_strength_MPa") ?? number("guaranteed_strength_MPa") ?? 5000,
    bar_shear_strength_MPa: number("bar_transverse_shear_strength_MPa"),
    installation:
      anchors.includes(codeId) && !headed && inputs["cb_mm"] === undefined
        ? "post_installed"
        : "cast_in",
    embedment_mm: number("embedment_mm") ?? 5 * d,
    bond_strength_char_MPa:
      number("bond_strength_characteristic_MPa") ??
      (inputs["cracked"] === true ? cracked : uncracked),
    bond_strength_uncracked_char_MPa: uncracked,
    bond_strength_mean_MPa: number("bond_strength_mean_MPa"),
    concrete_strength_MPa:
      number("concrete_strength_MPa") ?? number("concrete_mean_strength_MPa") ?? 30,
    concrete_strength_basis: String(inputs["concrete_strength_basis"]).startsWith("cube_200")
      ? "cube_200"
      : "cylinder",
    concrete_type: lambda !== null && lambda < 1 ? "lightweight" : "normal",
    lightweight_factor: lambda,
    cracked: inputs["cracked"] === true ? "yes" : "no",
    member_thickness_mm: number("member_thickness_mm") ?? 1e5,
    edge_1_mm: number("edge_1_mm"),
    edge_2_mm: number("edge_2_mm"),
    edge_3_mm: number("edge_3_mm"),
    edge_4_mm: number("edge_4_mm"),
    group_nx: number("group_bars_along_axis_1"),
    group_ny: number("group_bars_along_axis_2"),
    spacing_x_mm: number("spacing_axis_1_mm") || null,
    spacing_y_mm: number("spacing_axis_2_mm") || null,
    eccentricity_x_mm: number("eccentricity_axis_1_mm"),
    eccentricity_y_mm: number("shear_eccentricity_mm") ?? number("eccentricity_axis_2_mm"),
    ...surroundings(inputs, d),
  };
}

function surroundings(
  inputs: RecomputedCase["inputs"],
  d: number,
): Pick<TestRowInput, "cover_mm" | "bar_spacing_mm" | "casting_position"> {
  const number = (name: string): number | null =>
    typeof inputs[name] === "number" ? inputs[name] : null;
  const [centre, spacing] = [number("cb_mm"), number("centre_spacing_mm")];
  return {
    cover_mm:
      centre !== null
        ? centre - d / 2
        : (number("cover_mm") ?? number("cmin_mm") ?? number("kc_cover_mm") ?? number("cd_mm")),
    bar_spacing_mm: spacing === null ? null : spacing - d,
    casting_position:
      (number("concrete_below_bar_mm") ?? 0) > 300 ||
      inputs["good_bond"] === false ||
      inputs["kcp"] === 1.2
        ? "top"
        : "good",
  };
}

function materialOf(inputs: RecomputedCase["inputs"]): TestRowInput["bar_material"] {
  const word = String(inputs["bar_material"] ?? inputs["fibre"] ?? "steel");
  return word.startsWith("glass")
    ? "gfrp"
    : word.startsWith("carbon")
      ? "cfrp"
      : word.startsWith("aramid")
        ? "afrp"
        : "steel";
}

/** The options and the level of a case. */
export function settingsOf(
  one: RecomputedCase,
  of: CodeDefinition,
  levels: readonly Level[],
): PredictionSettings {
  const { inputs } = one;
  const number = (name: string): number => (typeof inputs[name] === "number" ? inputs[name] : 0);
  const headed = [inputs["installation"], inputs["fastener"]].some((word) =>
    String(word).includes("headed"),
  );
  const [area, spacing, bars] = [
    number("transverse_area_mm2"),
    number("transverse_spacing_mm"),
    number("bars_developed_in_plane"),
  ];
  const stated: Readonly<Record<string, number>> = {
    headed_cast_in: Number(headed),
    installation_category: number("anchor_category") || 1,
    edge_reinforcement: inputs["psi_re_V"] === 1.4 || inputs["psi_c_V_cracked"] === 1.2 ? 1 : 0,
    literal_steel_shear: Number(inputs["mode"] === "bar_shear"),
    coated_bar:
      inputs["psi_e"] === 1.5 || inputs["surface"] === "epoxy_coated"
        ? 1
        : inputs["psi_e"] === 1.2
          ? 2
          : 0,
    steel_grade: inputs["psi_g"] === 1.15 ? 80 : 60,
    transverse_index:
      bars > 0
        ? (40 * area) / (spacing * bars)
        : one.code === "jsce-1997" && area > 0
          ? ((15 * area) / spacing) * (number("transverse_modulus_GPa") / 200)
          : 0,
    gamma_inst: number("partial_factor_installation") || 1,
    gamma_c: number("partial_factor_concrete") || 1.5,
    dense_reinforcement: Number(inputs["dense_reinforcement"] === true),
    compression_lever_arm: number("compression_lever_arm_mm"),
    sustained_share: number("sustained_ratio"),
    c_cr_sp_ratio: number("critical_edge_splitting_mm") / number("embedment_mm") || 0,
    h_min: number("minimum_thickness_mm"),
    load_angle: number("shear_angle_from_edge_normal_deg"),
    C_E: number("environmental_factor") || 1,
    semi_low_density: Number(inputs["concrete_density"] === "semi_low_density"),
    alpha_2: number("bond_ratio_alpha2") || 1,
    f_yk: number("bar_yield_strength_MPa") || 500,
    k_m: "km" in inputs ? number("km") : 12,
    K_tr: number("Ktr"),
    cover_ratio: "cmax_mm" in inputs ? number("cmax_mm") / number("cmin_mm") : 1,
    transverse_stress:
      area > 0 && spacing > 0
        ? (area * number("transverse_yield_strength_MPa")) / (spacing * number("bar_diameter_mm"))
        : 0,
    transverse_area:
      number("bars_developed") > 0
        ? (number("number_of_stirrups") * number("stirrup_leg_area_mm2")) / number("bars_developed")
        : 0,
    R_r: number("relative_rib_area") || 0.0727,
    count_cover: Number("cd_mm" in inputs),
  };
  const options = Object.fromEntries(
    Object.entries(stated).filter(([name]) => Object.hasOwn(of.options, name)),
  );
  return {
    level:
      inputs["level"] === "mean"
        ? "expected"
        : inputs["level"] === "design" && levels.includes("design")
          ? "design"
          : "nominal",
    options,
  };
}

/** The library's rule of a case that asks for a length. */
export function lengthRuleOf(one: RecomputedCase): DevelopmentLengthRule {
  return developmentLengthRule(one.code.startsWith("aci318") ? `${one.code}/25.4.2` : one.code);
}

/** A case that asks for a length. */
export function lengthCaseOf(one: RecomputedCase): DevelopmentCase {
  const row = rowOf(one);
  const strength =
    Number(one.inputs["guaranteed_strength_MPa"] ?? NaN) *
    Number(one.inputs["environmental_factor"] ?? (one.code === "aci440.11-22" ? 0.85 : 1));
  const frp = row.bar_material === "steel" ? 0 : 1;
  return {
    f_required: Number(
      one.inputs["required_stress_MPa"] ??
        one.inputs["bar_stress_MPa"] ??
        one.inputs["bar_yield_strength_MPa"] ??
        strength,
    ),
    d_a: row.bar_diameter_mm ?? NaN,
    ...(row.bar_area_mm2 === null ? {} : { A_b: row.bar_area_mm2 ?? NaN }),
    f_c: row.concrete_strength_MPa ?? NaN,
    c_cover: row.cover_mm ?? NaN,
    s_clear: row.bar_spacing_mm ?? Infinity,
    top_cast: row.casting_position === "top" ? 1 : 0,
    lightweight:
      row.concrete_type === "lightweight" ||
      String(one.inputs["concrete_density"] ?? "normal") !== "normal"
        ? 1
        : 0,
    steel: 1 - frp,
    frp,
    [row.bar_material ?? ""]: 1,
    [row.bar_surface ?? ""]: 1,
  };
}
