import {
  reported,
  required,
  step,
  type CodeDefinition,
  type Limit,
  type ProvisionDefinition,
  type Step,
} from "../../model/definition";
import { ANCHORS_AND_HEADS } from "../../model/tested-by";
import { SI } from "../../model/unit-system";

const CLAUSE = "dowel";
const SOURCE = "https://www.scribd.com/document/545030237/1986-Dowel-Action-Math-Models";

const COVERED: readonly Limit[] = [
  reported(
    CLAUSE,
    "min(c_1, c_2, c_3, c_4) >= 8 * d_a",
    "for bars at least 8 diameters from an edge, where splitting does not govern",
  ),
  reported(CLAUSE, "h_ef >= 8 * d_a", "for bars embedded at least 8 diameters"),
];

/**
 * Distance of the load from the surface: half the lever arm where the attached part cannot rotate.
 */
const eccentricity: Step = step(
  "e_V",
  "l_a / if(restraint > 0, restraint, 1)",
  "length",
  CLAUSE,
  "distance from the surface to the point of zero moment",
);

/**
 * Mean load of a steel bar as a dowel (Vintzeleou, Tassios 1986, after Rasmussen): V_u = n c d^2
 * sqrt(f_c f_y) with c = 1.3 [sqrt(1 + (1.3 eps)^2) - 1.3 eps], eps = 3 (e/d) sqrt(f_c/f_y); at
 * most n A_s f_y / sqrt(3) (N, mm, MPa). The concrete crushes under the bar and the bar yields in
 * bending.
 *
 * From memory. Does not hold where the concrete splits or an edge breaks out first. Needs the yield
 * strength; without it the load is withheld.
 */
const steelDowel: ProvisionDefinition = {
  id: "dowel-1986/steel",
  title: "Mean load of a steel bar as a dowel",
  action: "shear",
  modes: ["bar_shear"],
  confidence: "M",
  levels: ["expected"],
  limits: [required(CLAUSE, "steel == 1", "for steel bars; FRP bars do not yield"), ...COVERED],
  steps: [
    eccentricity,
    step(
      "eps",
      "3 * e_V / d_a * sqrt(f_c / f_y)",
      "number",
      CLAUSE,
      "relative eccentricity of the load",
    ),
    step(
      "c_dowel",
      "1.3 * (sqrt(1 + (1.3 * eps)^2) - 1.3 * eps)",
      "number",
      CLAUSE,
      "dowel coefficient; 1.3 for a load at the surface",
    ),
    step(
      "V_dowel",
      "n_x * n_y * c_dowel * d_a^2 * sqrt(f_c * f_y)",
      "force",
      CLAUSE,
      "load at which the concrete crushes and the bar yields",
    ),
    step(
      "V_shear",
      "n_x * n_y * A_b * f_y / sqrt(3)",
      "force",
      CLAUSE,
      "load at which the bar yields in shear",
    ),
    step("V_u", "min(V_dowel, V_shear)", "force", CLAUSE, "mean load"),
  ],
  capacity: "V_u",
};

/**
 * Mean load of an FRP bar as a dowel by the same equilibrium, with an elastic section: the concrete
 * bears with q = k_q f_c d by length, the bar breaks in bending at M = (pi d^3/32) f_u, so V_u = n
 * [sqrt((q e)^2 + 2 q M) - q e], at most n A_b f_v (N, mm, MPa). A derived form, not a published
 * one: k_q = 5 makes the steel form's 1.3 with a plastic section (1.291).
 *
 * The tensile strength stands for the strength in bending, which no column states. Withheld without
 * tensile and transverse shear strength. Kinking, which lends a bar that is deflected far a part of
 * its axial force, is left out: a brittle bar breaks before.
 */
const frpDowel: ProvisionDefinition = {
  id: "dowel-1986/frp",
  title: "Mean load of an FRP bar as a dowel (derived, no published equation)",
  action: "shear",
  modes: ["bar_shear"],
  confidence: "M",
  levels: ["expected"],
  limits: [required(CLAUSE, "frp == 1", "for FRP bars"), ...COVERED],
  steps: [
    eccentricity,
    step(
      "f_bearing",
      "k_q * f_c",
      "stress",
      CLAUSE,
      "bearing strength of the concrete under the bar",
    ),
    step("M_u", "pi * d_a^3 / 32 * f_u", "moment", CLAUSE, "moment at bar rupture"),
    step(
      "V_dowel",
      "n_x * n_y * (sqrt((f_bearing * d_a * e_V)^2 + 2 * f_bearing * d_a * M_u) - f_bearing * d_a * e_V)",
      "force",
      CLAUSE,
      "load at which the concrete crushes and the bar ruptures in bending",
    ),
    step(
      "V_shear",
      "n_x * n_y * A_b * f_v",
      "force",
      CLAUSE,
      "area times transverse shear strength",
    ),
    step("V_u", "min(V_dowel, V_shear)", "force", CLAUSE, "mean load"),
  ],
  capacity: "V_u",
};

/** Dowel action of bars in shear, mean loads. */
export const dowel1986: CodeDefinition = {
  id: "dowel-1986",
  title: "Dowel action of bars in shear, mean loads (Vintzeleou, Tassios 1986)",
  edition: "cylinder strength, N, mm, MPa",
  system: SI,
  covers:
    "Mean shear load of steel bars as dowels remote from edges, with or without a lever arm, and the same equilibrium for FRP bars.",
  testedBy: ANCHORS_AND_HEADS,
  options: {
    k_q: {
      quantity: "number",
      value: 5,
      meaning:
        "bearing strength of the concrete under the bar, as a multiple of the cylinder strength",
      clause: CLAUSE,
    },
  },
  readings: [
    `The mechanism and its parameters are confirmed by the synopsis of the paper (${SOURCE}); coefficients are from memory.`,
    "The lever arm is measured to the point where the attached part holds the bar. Where that part cannot rotate (lever_restraint 2), the moment is zero at half the lever arm.",
    "FRP: the section is linear elastic up to rupture at the tensile strength; the load is limited to the area times the transverse shear strength.",
    "The yield strength stated in the row is used, measured or not. At larger deflections a steel bar carries more load by kinking, so tests to rupture exceed the model.",
  ],
  provisions: [steelDowel, frpDowel],
  gaps: [
    "Splitting of the concrete beside a dowel near an edge.",
    "Published mean models of FRP dowels: none was found with an equation. The elastic foundation model requires a foundation modulus.",
    "Kinking.",
  ],
};
