import { CUBE_FORM, MEAN_OPTIONS, meanBreakoutTension } from "../ccd-1995";
import { MEAN_BOND_STRESS } from "../combined-cone-bond/cone-with-bond";
import {
  reported,
  required,
  step,
  type CodeDefinition,
  type ProvisionDefinition,
  type Step,
} from "../../model/definition";
import { ANCHORS_AND_HEADS, BONDED_ANCHORS } from "../../model/tested-by";
import { SI } from "../../model/unit-system";
import { uniformBondBeside } from "../uniform-bond-1998/steps";

const CLAUSE = "pryout";
const cone = meanBreakoutTension(CUBE_FORM);

const COEFFICIENT: Step = step(
  "k_cp_used",
  "if(k_cp > 0, k_cp, if(h_ef < 65, 1, 2))",
  "number",
  CLAUSE,
  "pryout coefficient",
);

/**
 * Mean pryout load by the cone: V_um = k_cp N_um with N_um the mean breakout load of the concrete
 * capacity method (Fuchs, Eligehausen, Breen 1995), k_cp = 1 below an embedment of 65 mm, else 2
 * (N, mm, MPa; 200 mm cube strength).
 *
 * The coefficients are those that the codes took over, whose characteristic pryout rests on the
 * same indirect tension; from memory. Low for short stocky bars (published comparisons, see the
 * code's readings). For a bonded bar the cone alone is the most that pryout draws on: where the
 * mean bond stress is known, `bonded` stands beside it and the lesser counts; where it is not, the
 * load is given and flagged, and judges no test.
 */
const byCone: ProvisionDefinition = {
  ...cone,
  id: "pryout-1995/cone",
  title: "Mean pryout load, by the mean cone load",
  action: "shear",
  modes: ["pryout"],
  confidence: "M",
  toCheck: "k_cp and its depth; the cone is well known",
  limits: [
    ...cone.limits,
    reported(
      CLAUSE,
      "post_installed == 0 || mean_bond_stress > 0 || tau_mean_stated > 0",
      "for bonded bars with a stated mean bond stress; without one, the cone alone gives an upper limit and the pryout load may be much lower",
    ),
  ],
  steps: [
    ...cone.steps,
    COEFFICIENT,
    step("V_um", "k_cp_used * N_um", "force", CLAUSE, "mean pryout load"),
  ],
  capacity: "V_um",
};

/**
 * Mean pryout load of a bonded bar: V_um = k_cp min(N_um, N_tau), the mean loads of cone and
 * uniform bond. Needs the mean bond stress. A group is taken apart by the cone's spacing, 3 h_ef,
 * which is never below that of bond; where its bars are apart in bond, the ground between them is
 * left out.
 */
const bonded: ProvisionDefinition = {
  ...byCone,
  id: "pryout-1995/bonded",
  title: "Mean pryout load of bonded bars, by the smaller of the mean cone and bond loads",
  testedBy: BONDED_ANCHORS,
  limits: [required(CLAUSE, "post_installed == 1", "for bars bonded into drilled holes")],
  steps: [
    ...cone.steps,
    ...uniformBondBeside,
    COEFFICIENT,
    step("N_least", "min(N_um, N_tau)", "force", CLAUSE, "mean load in tension used in pryout"),
    step("V_um", "k_cp_used * N_least", "force", CLAUSE, "mean pryout load"),
  ],
};

/** Pryout as a multiple of the mean load in tension. */
export const pryout1995: CodeDefinition = {
  id: "pryout-1995",
  title:
    "Pryout, mean loads (multiple of the mean loads in tension; Fuchs, Eligehausen, Breen 1995)",
  edition:
    "200 mm cube strength, N, mm, MPa; bond needs the mean bond stress in column bond_strength_mean_MPa or as option",
  system: SI,
  covers: "Mean pryout load of single bars and groups; post-installed bars and cast-in heads.",
  testedBy: ANCHORS_AND_HEADS,
  options: {
    k_cp: {
      quantity: "number",
      value: 0,
      meaning:
        "pryout coefficient; with 0, 1 is used below an embedment of 65 mm and 2 from there on",
      clause: CLAUSE,
    },
    mean_bond_stress: MEAN_BOND_STRESS,
    crack_factor: MEAN_OPTIONS.crack_factor,
    headed_cast_in: MEAN_OPTIONS.headed_cast_in,
  },
  readings: [
    "The depth of 2.5 in. at which k_cp doubles is taken as 65 mm, as printed in metric editions; EN 1992-4 has 60 mm.",
    "Published tests exceed this model, mostly for bars shorter than 4.5 diameters (214 tests are reviewed in https://www2.mdpi.com/2673-4109/4/3/44).",
  ],
  jumps: [
    "k_cp doubles at an embedment of 65 mm.",
    "At a spacing of 3 h_ef of a group near an edge: a bar that leaves the group is no longer reduced by the edge factor of the others, which raises the sum.",
  ],
  provisions: [byCone, bonded],
  gaps: [
    "The fits to push-off tests of short headed studs (2005) and of studs and post-installed anchors (2023), whose equations could not be checked.",
    "Lightweight concrete: no factor is stated and none is applied.",
  ],
};
