import { concreteTensionFactor } from "../en1992-4-2018/partial-factors";
import { lesserClearDistance } from "../../model/bar-surroundings";
import {
  reported,
  required,
  step,
  type CodeOption,
  type ProvisionDefinition,
} from "../../model/definition";
import type { TestedBy } from "../../model/tested-by-rule";

const CLAUSE = "bond-splitting";

/** Bond-splitting of bars bonded into drilled holes. */
const DRILLED_IN_BARS: TestedBy = {
  setups: ["beam_end", "hinged_beam", "splice", "unconfined_tension"],
  installations: ["post_installed"],
  because:
    "The report covers bars anchored near the surface of a member, in concrete that is not compressed next to them: " +
    "beam-type tests of bars in drilled holes, and bars pulled with the support well away from them. " +
    "A pull-out block bears on its loaded face, and a confining support restrains splitting.",
};

const product = (meaning: string): CodeOption => ({
  quantity: "number",
  value: 0,
  meaning: `${meaning} from the product assessment; 0 if not stated`,
  clause: CLAUSE,
});

/** The values of the product, and what the bar's surroundings add. */
export const SPLITTING_OPTIONS = {
  A_k: { ...product("basic factor of bond-splitting"), quantity: "stress" },
  sp1: product("exponent of the concrete strength"),
  sp2: product("exponent of the bar diameter"),
  sp3: product("exponent of the cover"),
  sp4: product("exponent of the ratio of covers"),
  lb1: product("exponent of the bonded length"),
  cover_ratio: {
    quantity: "number",
    value: 1,
    clause: CLAUSE,
    meaning: "ratio of largest to smallest cover, c_max / c_d; 1 gives no benefit",
  },
  k_m: {
    quantity: "number",
    value: 12,
    meaning: "effectiveness of transverse bars: 12, 6 or 0",
    clause: CLAUSE,
  },
  K_tr: { quantity: "number", value: 0, meaning: "amount of transverse bars", clause: CLAUSE },
} as const satisfies Readonly<Record<string, CodeOption>>;

/**
 * Bond-splitting of a bar bonded into a drilled hole: N_Rk,sp = n tau_Rk,sp pi phi l_b with
 * tau_Rk,sp = eta_1 A_k (f_ck/25)^sp1 (25/phi)^sp2 [(c_d/phi)^sp3 (c_max/c_d)^sp4 + k_m K_tr] (7
 * phi/l_b)^lb1, at most the bond strength by pull-out, which falls as (20 phi/l_b)^lb1 beyond 20
 * diameters (N, mm, MPa).
 *
 * eta_1 is 1 in good, 0.7 in other bond conditions; c_d the lesser of cover and half the clear
 * spacing. A_k and the exponents come from the product's assessment (options; withheld without
 * them). With 13.5 x 7^-0.45 MPa, 0.25, 0.2, 0.25, 0.1 and 0.45 the equation is that of the fib
 * Model Code 2010, (6.1-19). Pull-out is the row's characteristic bond stress in its own crack
 * state, where the report takes that of uncracked concrete times a product's factor.
 *
 * From memory, to be checked against a copy: the length below which (7 phi/l_b) is 1, the cap and
 * its fall. Does not hold for bars held by compression across the joint, nor for FRP bars, on which
 * no assessment rests (given and flagged).
 */
export const bondSplitting: ProvisionDefinition = {
  id: "eota-tr069-2019/splitting",
  title: "Bond-splitting of bars bonded into drilled holes",
  action: "tension",
  modes: ["splitting", "bond"],
  testedBy: DRILLED_IN_BARS,
  confidence: "M",
  levels: ["nominal", "design"],
  limits: [
    required(
      CLAUSE,
      "post_installed == 1",
      "for bars bonded into drilled holes; cast-in bars follow the anchorage-length rules",
    ),
    required(
      CLAUSE,
      "A_k > 0 && sp1 > 0 && sp2 > 0 && sp3 > 0 && sp4 > 0 && lb1 > 0",
      "needs the values of the product assessment: options A_k, sp1, sp2, sp3, sp4 and lb1",
    ),
    reported("scope", "steel == 1", "for ribbed steel bars; no assessment is based on FRP bars"),
    reported("scope", "f_c >= 20 && f_c <= 50", "for concrete C20/25 to C50/60"),
    reported(
      CLAUSE,
      "h_ef >= 7 * d_a",
      "for bonded lengths of at least 7 diameters; no increase is applied below",
    ),
    reported(
      CLAUSE,
      "cover_ratio <= 3.5 && K_tr <= 0.05",
      "for c_max/c_d up to 3.5 and K_tr up to 0.05",
    ),
  ],
  steps: [
    lesserClearDistance("c_d", CLAUSE),
    step("eta_1", "if(top_cast == 1, 0.7, 1)", "number", CLAUSE, "bond condition"),
    step(
      "confinement",
      "(c_d / d_a)^sp3 * cover_ratio^sp4 + k_m * K_tr",
      "number",
      CLAUSE,
      "confinement by cover and transverse bars",
    ),
    step(
      "length_factor",
      "(7 * d_a / max(h_ef, 7 * d_a))^lb1",
      "number",
      CLAUSE,
      "factor for the bonded length",
    ),
    step(
      "tau_split",
      "eta_1 * A_k * (f_c / 25)^sp1 * (25 / d_a)^sp2 * confinement * length_factor",
      "stress",
      CLAUSE,
      "bond-splitting strength before it is limited by pull-out",
    ),
    step(
      "tau_pull_out",
      "tau_k * (20 * d_a / max(h_ef, 20 * d_a))^lb1",
      "stress",
      CLAUSE,
      "bond strength by pull-out",
    ),
    step(
      "tau_Rk_sp",
      "min(tau_split, tau_pull_out)",
      "stress",
      CLAUSE,
      "characteristic bond-splitting strength",
    ),
    step(
      "N_Rk_sp",
      "n_x * n_y * tau_Rk_sp * pi * d_a * h_ef",
      "force",
      CLAUSE,
      "characteristic resistance to bond-splitting",
    ),
  ],
  capacity: "N_Rk_sp",
  reduction: concreteTensionFactor,
  notes: [
    "An exponent of exactly 0 is treated as not stated.",
    "No mean value is published; the product factor is a characteristic value.",
  ],
};
