import { CUBE_FORM, MEAN_OPTIONS, meanBreakoutTension } from "../ccd-1995";
import { MEAN_BOND_STRESS } from "../combined-cone-bond/cone-with-bond";
import {
  reported,
  step,
  type CodeDefinition,
  type ProvisionDefinition,
} from "../../model/definition";
import { SI } from "../../model/unit-system";
import { ANCHORS_AND_HEADS, BONDED_ANCHORS } from "../../model/tested-by";
import { uniformBondSteps } from "./steps";

/**
 * Mean bond load of bonded bars, uniform bond (Cook, Kunz, Fuchs, Konz 1998): N = n tau pi d h_ef
 * remote from edges; near edges and in groups times A_N/A_N0 and 0.7 + 0.3 c/c_cr, with s_cr = 20 d
 * sqrt(tau/10) <= 3 h_ef (Eligehausen, Cook, Appl 2006; N, mm, MPa). tau is the mean bond stress on
 * the bar's diameter.
 */
export const uniformBond: ProvisionDefinition = {
  id: "uniform-bond-1998/bond",
  title: "Mean bond load, uniform bond stress",
  action: "tension",
  modes: ["bond", "combined_cone_bond"],
  testedBy: BONDED_ANCHORS,
  confidence: "H",
  levels: ["expected"],
  limits: [
    reported(
      "uniform bond",
      "h_ef >= 4 * d_a && h_ef <= 20 * d_a",
      "compared with tests for embedments of about 4 to 20 diameters",
    ),
  ],
  steps: uniformBondSteps,
  capacity: "N_tau",
  split: { x: "s_cr", y: "s_cr" },
  notes: [
    "The group factor of the 2006 model for closely spaced bars is omitted, which underestimates such groups; uniform-bond-2006 includes it.",
  ],
};

/**
 * Mean rupture load of the bar: N = n A_b f_u with the measured strength; closes the smaller-of
 * rule.
 */
export const barRupture: ProvisionDefinition = {
  id: "uniform-bond-1998/bar-rupture",
  title: "Mean rupture load of the bar",
  action: "tension",
  modes: ["bar_rupture", "yield"],
  confidence: "H",
  levels: ["expected"],
  limits: [],
  steps: [step("N_u", "n_x * n_y * A_b * f_u", "force", "bar", "mean rupture load")],
  capacity: "N_u",
};

/** Mean cone load, so that the least of cone, bond and rupture can be had from one model. */
export const cone: ProvisionDefinition = {
  ...meanBreakoutTension(CUBE_FORM),
  id: "uniform-bond-1998/cone",
};

/** Uniform bond, mean loads of bonded bars. */
export const uniformBondModel: CodeDefinition = {
  id: "uniform-bond-1998",
  title:
    "Uniform bond stress, mean loads (Cook, Kunz, Fuchs, Konz 1998; groups and edges after Eligehausen, Cook, Appl 2006)",
  edition: "N, mm, MPa; needs the mean bond stress in column bond_strength_mean_MPa or as option",
  system: SI,
  covers:
    "Mean bond load of single bars and groups, cone of the concrete capacity method and bar rupture; the lowest is the usual benchmark.",
  testedBy: ANCHORS_AND_HEADS,
  options: {
    mean_bond_stress: MEAN_BOND_STRESS,
    crack_factor: MEAN_OPTIONS.crack_factor,
    headed_cast_in: MEAN_OPTIONS.headed_cast_in,
  },
  readings: [
    "The bond stress acts on the diameter of the bar, not of the hole.",
    "The cone is that of the concrete capacity method with 200 mm cube strength.",
    "The mean bond stress is that of the concrete of the row, cracked or not; the factor for cracking applies only to the cone.",
  ],
  jumps: [
    "At the critical spacing of a group near an edge: a bar that leaves the group is no longer reduced by the edge factor of the others, which raises the sum.",
  ],
  provisions: [uniformBond, cone, barRupture],
  gaps: [
    "The group factor of the 2006 model: see code uniform-bond-2006.",
    "Lightweight concrete: no factor is stated and none is applied.",
  ],
};
