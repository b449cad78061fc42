import { barYield } from "../en1992-1-1/anchorage-2004";
import type { CodeDefinition } from "../../model/definition";
import type { DevelopmentLengthRule } from "../../model/development-length";
import { SI } from "../../model/unit-system";
import { basicBondForce, basicLength } from "./design-bond";
import { localPullOut, localSplitting, meanAnchorage, meanLength } from "./mean-bond";
import { whether } from "../../model/yes-or-no";
import { DEVELOPED_BARS } from "../../model/tested-by";

/** fib Model Code 2010, bond and anchorage of steel bars. */
export const fibModelCode: CodeDefinition = {
  id: "fib-mc2010",
  title: "fib Model Code for concrete structures, bond and anchorage",
  edition: "2010",
  system: SI,
  covers:
    "Local bond strength by pull-out and by splitting, with the local bond law (6.1.1); basic bond strength (6.1.3) and mean anchorage (6.1-19), as an anchorage length and as the force anchored at an embedment.",
  testedBy: DEVELOPED_BARS,
  options: {
    f_yk: {
      quantity: "stress",
      value: 500,
      meaning: "characteristic yield strength for rows without a stated yield strength",
      clause: "5.2",
    },
    gamma_cb: {
      quantity: "number",
      value: 1.5,
      meaning: "partial factor of bond",
      clause: "6.1.3.2",
    },
    gamma_s: {
      quantity: "number",
      value: 1.15,
      meaning: "partial factor of steel",
      clause: "4.5.2",
    },
    coated_bar: {
      quantity: "number",
      value: 0,
      meaning: whether("the bar is epoxy-coated"),
      clause: "6.1.3.2",
    },
    cover_ratio: {
      quantity: "number",
      value: 1,
      meaning: "ratio of largest to smallest cover, c_max / c_min; 1 gives no benefit",
      clause: "6.1.1",
    },
    k_m: {
      quantity: "number",
      value: 12,
      meaning: "effectiveness of transverse bars: 12, 6 or 0",
      clause: "6.1.1",
    },
    splitting_capped: {
      quantity: "number",
      value: 0,
      clause: "6.1.1",
      meaning: whether(
        "the splitting strength (6.1-5) is limited by the pull-out strength; otherwise it is as published",
      ),
    },
    K_tr: { quantity: "number", value: 0, meaning: "amount of transverse bars", clause: "6.1.1" },
  },
  readings: [
    "The exponent of c_min/phi is 0.33 in the local splitting strength and 0.25 in the mean anchorage. These are two separate fits.",
    "The splitting strength (6.1-5) is as published and may exceed the pull-out strength, which is a separate provision. The hand calculation also prints the value limited by pull-out; option splitting_capped uses it.",
    "The yield strength stated in the row is used as f_yk, although it is measured; eta_4 is then that of the nearest grade (limits 450, 550, 650 and 750 MPa). Option f_yk applies to rows without one.",
    "Where option f_yk is between two grades of the table, eta_4 is that of the higher grade.",
  ],
  jumps: [
    "eta_4 changes in steps with the steel grade; the size factor for large bars is continuous.",
  ],
  provisions: [
    basicBondForce,
    localPullOut,
    localSplitting,
    meanAnchorage,
    barYield("fib-mc2010/yield", "5.2", "4.5.2"),
  ],
  called: [
    {
      id: "local-law",
      clause: "Table 6.1-1",
      title: "Local bond law, pull-out",
      call: "localBondLaw({ f_cm, goodConditions, clearRibSpacing_mm })",
      confidence: "H",
    },
    {
      id: "slip-at-splitting",
      clause: "6.1.1",
      title: "Slip at which splitting ends the ascending branch",
      call: "slipAtSplitting(splitting stress, law)",
      confidence: "H",
    },
  ],
  gaps: [
    "Bond strength of FRP bars, which must be determined by tests.",
    "Benefit of confinement in design (alpha_2, alpha_3, transverse pressure).",
    "The 2020 edition.",
    "Bars bonded into drilled holes: a value is given and marked. See eota-tr069-2019 for their bond-splitting with product values.",
  ],
};

export { localBondLaw, slipAtSplitting, type LocalBond } from "./local-law";
export const fibBasicLength: DevelopmentLengthRule = {
  code: fibModelCode,
  definition: basicLength,
};
export const fibMeanLength: DevelopmentLengthRule = { code: fibModelCode, definition: meanLength };
