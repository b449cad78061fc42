import { gripRules } from "./grip-rules";
import type { SuspicionRule } from "./suspicion-rule";

/**
 * Usual range of the tensile modulus in GPa. Common practice for FRP bars (glass 35-70, basalt
 * 40-75, carbon 100-600, aramid 40-140); steel 190-215.
 */
const MODULUS_RANGE: Readonly<Record<string, readonly [number, number]>> = {
  steel: [185, 215],
  gfrp: [30, 75],
  bfrp: [35, 80],
  cfrp: [95, 650],
  afrp: [35, 145],
};

const show = (value: number): string => String(Number(value.toPrecision(4)));

/** The bars that share the load: group_nx * group_ny, blank counting as one. */
function bars(value: (column: string) => number): number {
  const nx = value("group_nx");
  const ny = value("group_ny");
  return (Number.isNaN(nx) ? 1 : nx) * (Number.isNaN(ny) ? 1 : ny);
}

const RULES: ReadonlyArray<SuspicionRule> = [
  ...gripRules(),
  {
    // The uniform bond model was fitted within 4 <= hef/d <= 20 (Cook, Kunz, Fuchs, Konz 1998);
    // beams and splices go further.
    name: "embedment-ratio",
    column: "embedment_mm",
    expected: "an embedment of 4 to 20 diameters (beams and splices to 100)",
    finding: (value, text) => {
      const ratio = value("embedment_mm") / value("bar_diameter_mm");
      const most = ["hinged_beam", "beam_end", "splice"].includes(text("setup") ?? "") ? 100 : 20;
      return ratio < 4 - 1e-9 || ratio > most + 1e-9
        ? `the embedment is ${show(ratio)} diameters, expected 4 to ${String(most)}`
        : null;
    },
  },
  {
    name: "concrete-strength",
    column: "concrete_strength_MPa",
    expected: "10 to 200 MPa",
    finding: (value) =>
      value("concrete_strength_MPa") < 10 || value("concrete_strength_MPa") > 200
        ? `the concrete strength is ${show(value("concrete_strength_MPa"))} MPa, expected 10 to 200 MPa${value("concrete_strength_MPa") > 1000 ? ": is it in psi?" : ""}`
        : null,
  },
  {
    name: "bar-area",
    column: "bar_area_mm2",
    expected: "an area near pi d^2 / 4",
    finding: (value) => {
      const ratio = value("bar_area_mm2") / ((Math.PI / 4) * value("bar_diameter_mm") ** 2);
      return ratio < 0.7 || ratio > 1.4
        ? `the bar area is ${show(ratio)} of pi d^2/4, expected 0.7 to 1.4`
        : null;
    },
  },
  {
    name: "bar-stress",
    column: "peak_load_kN",
    expected: "a bar stress up to 1.1 times the bar strength",
    finding: (value, text) => {
      if (text("action") !== "tension") return null;
      const stress = (1000 * value("peak_load_kN")) / (bars(value) * value("bar_area_mm2"));
      const ratio = stress / value("bar_strength_MPa");
      return ratio > 1.1
        ? `the bar stress ${show(stress)} MPa is ${show(ratio)} of the measured bar strength, expected at most 1.1`
        : null;
    },
  },
  {
    name: "modulus",
    column: "bar_modulus_GPa",
    expected: "a modulus possible for the material",
    finding: (value, text) => {
      const material = text("bar_material") ?? "";
      const range = MODULUS_RANGE[material];
      const modulus = value("bar_modulus_GPa");
      return range !== undefined && (modulus < range[0] || modulus > range[1])
        ? `the modulus ${show(modulus)} GPa is outside the usual range for ${material}, expected ${String(range[0])} to ${String(range[1])} GPa`
        : null;
    },
  },
  {
    name: "bond-stress",
    column: "peak_load_kN",
    expected: "an average bond stress up to 60 MPa",
    finding: (value, text) => {
      if (text("action") !== "tension") return null;
      const stress =
        (1000 * value("peak_load_kN")) /
        (bars(value) * Math.PI * value("bar_diameter_mm") * value("embedment_mm"));
      return stress > 60
        ? `load / (pi d l) is ${show(stress)} MPa, expected at most 60 MPa: ${stress > 600 ? "is the load in N or lbf, or a length in inches or cm?" : "is the load of the whole group, or the embedment that of one bar?"}`
        : null;
    },
  },
  {
    name: "reported-bond-stress",
    column: "reported_bond_strength_MPa",
    expected: "the reported bond stress to be load / (pi d l) within 2 % with one of the diameters",
    finding: (value, text) => {
      const [named, short] = [value("reported_bond_strength_MPa"), value("bond_strength_MPa")];
      const reported = Number.isNaN(named) ? short : named;
      if (Number.isNaN(reported) || text("action") !== "tension") return null;
      const stress = (diameter: number): number =>
        (1000 * value("peak_load_kN")) / (bars(value) * Math.PI * diameter * value("embedment_mm"));
      const stresses = [value("bar_diameter_mm"), value("effective_diameter_mm")]
        .filter((diameter) => !Number.isNaN(diameter))
        .map(stress);
      return stresses.some((own) => Math.abs(own / reported - 1) <= 0.02)
        ? null
        : `load / (pi d l) is ${stresses.map(show).join(" or ")} MPa, but ${show(reported)} MPa is reported, expected both within 2 %`;
    },
  },
  ...[1, 2, 3, 4].map((edge): SuspicionRule => ({
    name: "edge-inside-bar",
    column: `edge_${String(edge)}_mm`,
    expected: "an edge distance of at least half the diameter",
    finding: (value) =>
      value(`edge_${String(edge)}_mm`) < value("bar_diameter_mm") / 2
        ? `edge ${String(edge)} lies inside the bar (${show(value(`edge_${String(edge)}_mm`))} mm), expected at least half the diameter`
        : null,
  })),
  {
    name: "hole",
    column: "hole_diameter_mm",
    expected: "a hole wider than the bar",
    finding: (value) =>
      value("hole_diameter_mm") <= value("bar_diameter_mm")
        ? `the hole ${show(value("hole_diameter_mm"))} mm is not wider than the bar, expected more than ${show(value("bar_diameter_mm"))} mm`
        : null,
  },
  {
    name: "thickness",
    column: "member_thickness_mm",
    expected: "a member at least as thick as the embedment",
    finding: (value, text) =>
      value("member_thickness_mm") < value("embedment_mm") &&
      text("setup") !== "hinged_beam" &&
      text("setup") !== "beam_end" &&
      text("setup") !== "splice"
        ? `the member (${show(value("member_thickness_mm"))} mm) is thinner than the embedment, expected at least ${show(value("embedment_mm"))} mm`
        : null,
  },
  ...(["x", "y"] as const).map((axis): SuspicionRule => ({
    name: "group-spacing",
    column: `spacing_${axis}_mm`,
    expected: "a spacing wider than the bar for every group",
    finding: (value) => {
      const count = value(`group_n${axis}`);
      const spacing = value(`spacing_${axis}_mm`);
      if (!(count > 1)) return null;
      if (Number.isNaN(spacing))
        return `${String(count)} bars along ${axis} but no spacing_${axis}_mm, expected a spacing`;
      return spacing <= value("bar_diameter_mm")
        ? `the spacing ${show(spacing)} mm is not wider than the bar`
        : null;
    },
  })),
  {
    name: "action-of-setup",
    column: "action",
    expected: "shear for direct_shear, tension for the other set-ups",
    finding: (_value, text) =>
      (text("setup") === "direct_shear") !== (text("action") === "shear") &&
      text("action") !== "tension_and_shear"
        ? `the action ${text("action") ?? "-"} does not go with the set-up ${text("setup") ?? "-"}`
        : null,
  },
  {
    name: "size-or-date",
    column: "bar_size",
    expected: "a size label such as 16 or #5",
    finding: (_value, text) =>
      /^(4\d{4}|\d{1,2}[-. ][a-zäé]{3,4}\.?|[a-zäé]{3,4}[-. ]\d{1,2}|\d{4}-\d{2}-\d{2})$/i.test(
        text("bar_size") ?? "",
      )
        ? `the size "${text("bar_size") ?? ""}" looks like a date that a spreadsheet made of it, expected a size label such as 16 or #5`
        : null,
  },
  {
    name: "yield-above-strength",
    column: "bar_yield_MPa",
    expected: "a yield strength below the tensile strength",
    finding: (value) =>
      value("bar_yield_MPa") > value("bar_strength_MPa")
        ? `the yield strength ${show(value("bar_yield_MPa"))} MPa is above the tensile strength ${show(value("bar_strength_MPa"))} MPa`
        : null,
  },
];

/** The rules in the order in which a row is held against them. */
export function suspicionRules(): ReadonlyArray<SuspicionRule> {
  return RULES;
}
