import { required, step, type ProvisionDefinition, type Step } from "../../model/definition";
import { combinedSteps } from "./combined-failure";
import { coneSteps, normalWeight } from "./concrete-cone";
import { concreteShearFactor } from "./partial-factors";

const lastSteps = (drawn: string): Step[] => [
  step("k_8_used", "if(k_8 > 0, k_8, if(h_ef < 60, 1, 2))", "number", "7.2.2.4", "pry-out factor"),
  step(
    "V_Rk_cp",
    `k_8_used * if(supplementary_reinforcement == 1, 0.75, 1) * ${drawn}`,
    "force",
    "7.2.2.4",
    "characteristic pry-out strength",
  ),
];

/**
 * Pry-out of bonded bars, 7.2.2.4: V_Rk,cp = k_8 min(N_Rk,c, N_Rk,p), k_8 = 1 below 60 mm of
 * embedment, else 2, or the product's; 0.75 of it with supplementary reinforcement. psi_sus is 1
 * here, and psi_g,Np takes the mean spacing (both to be checked against a licensed copy).
 *
 * Bars act together up to the cone's spacing. Where they are apart in bond, N_Rk,p takes the areas
 * they cover and the nearest edge's factor for all: a little under the sum over single bars, never
 * above it.
 */
export const pryoutBonded: ProvisionDefinition = {
  id: "en1992-4-2018/7.2.2.4",
  title: "Concrete pry-out failure of bonded bars",
  action: "shear",
  modes: ["pryout"],
  confidence: "M",
  toCheck: "psi_sus = 1 in N_Rk,p, and the mean spacing in psi_g,Np; the rest is well known",
  searched: "November 2026",
  levels: ["nominal", "design"],
  limits: [
    required(
      "7.2.2.4",
      "post_installed == 1",
      "for bars bonded into drilled holes; headed bars have a separate provision",
    ),
    normalWeight,
  ],
  steps: [
    ...coneSteps(),
    ...combinedSteps(false, false),
    step("s_cr_cp", "max(s_cr_N_full, s_cr_Np)", "length", "7.2.2.4", "critical spacing of bars"),
    ...lastSteps("min(N_Rk_c, N_Rk_p)"),
  ],
  capacity: "V_Rk_cp",
  reduction: concreteShearFactor,
  split: { x: "s_cr_cp", y: "s_cr_cp" },
};

/** Pry-out of headed cast-in bars, 7.2.2.4: V_Rk,cp = k_8 N_Rk,c. */
export const pryoutHeaded: ProvisionDefinition = {
  id: "en1992-4-2018/7.2.2.4-headed",
  title: "Concrete pry-out failure of headed cast-in bars",
  action: "shear",
  modes: ["pryout"],
  confidence: "H",
  levels: ["nominal", "design"],
  limits: [
    required(
      "7.2.2.4",
      "post_installed == 0 && headed_cast_in == 1",
      "for cast-in bars treated as headed (option headed_cast_in)",
    ),
    normalWeight,
  ],
  steps: [...coneSteps(), ...lastSteps("N_Rk_c")],
  capacity: "V_Rk_cp",
  reduction: concreteShearFactor,
  split: { x: "s_cr_N_full", y: "s_cr_N_full" },
};
