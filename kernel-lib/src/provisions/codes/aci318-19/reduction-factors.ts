import { step, type Step } from "../../model/definition";

const byCategory = (one: number, two: number, three: number): string =>
  `if(installation_category == 1, ${one}, if(installation_category == 2, ${two}, ${three}))`;

/**
 * Strength reduction factor for steel, Table 17.5.3(a). FRP has no yielding and is taken as brittle
 * here.
 */
export const steelReduction = (ductile: number, brittle: number): Step =>
  step(
    "phi",
    `if(ductile == 1 && steel == 1, ${ductile}, ${brittle})`,
    "number",
    "17.5.3(a)",
    "strength reduction factor, steel",
  );

/** Strength reduction factor for concrete breakout and bond in tension, Table 17.5.3(b). */
export const concreteTensionReduction: Step = step(
  "phi",
  `if(supplementary_reinforcement == 1, if(post_installed == 1, ${byCategory(0.75, 0.65, 0.55)}, 0.75), if(post_installed == 1, ${byCategory(0.65, 0.55, 0.45)}, 0.7))`,
  "number",
  "17.5.3(b)",
  "strength reduction factor, concrete or bond in tension",
);

/** Strength reduction factor for concrete breakout in shear, Table 17.5.3(b). */
export const concreteShearReduction: Step = step(
  "phi",
  "if(supplementary_reinforcement == 1, 0.75, 0.7)",
  "number",
  "17.5.3(b)",
  "strength reduction factor, concrete in shear",
);

/** Strength reduction factor for pryout, Table 17.5.3(c). */
export const pryoutReduction: Step = step(
  "phi",
  "0.7",
  "number",
  "17.5.3(c)",
  "strength reduction factor, pryout",
);

/** Strength reduction factor for pullout of cast-in heads, Table 17.5.3(c). */
export const headedPulloutReduction: Step = step(
  "phi",
  "0.7",
  "number",
  "17.5.3(c)",
  "strength reduction factor, pullout of a cast-in head",
);
