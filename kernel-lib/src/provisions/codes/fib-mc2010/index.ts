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
    "6.1.1 local bond strength by pull-out and by splitting with the local bond law, 6.1.3 basic bond strength and (6.1-19) mean anchorage, both ways.",
  testedBy: DEVELOPED_BARS,
  options: {
    f_yk: {
      quantity: "stress",
      value: 500,
      meaning: "characteristic yield strength of bars for which the row states none",
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
      meaning: "largest over least cover, c_max / c_min; 1 counts no benefit",
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
        "the splitting strength (6.1-5) is also capped by the pull-out strength; else it is as published",
      ),
    },
    K_tr: { quantity: "number", value: 0, meaning: "amount of transverse bars", clause: "6.1.1" },
  },
  readings: [
    "The exponent of c_min/phi is 0.33 in the local splitting strength and 0.25 in the mean anchorage: two fits, not to be mixed.",
    "The splitting strength (6.1-5) is as published and may exceed the pull-out strength, which has its own provision; the hand calculation prints it capped as well, which option splitting_capped takes.",
    "A yield strength that the row states is used for f_yk, though it is measured; eta_4 is then that of the nearest grade (limits 450, 550, 650 and 750 MPa). Option f_yk is for rows that state none.",
    "eta_4 of a grade by option f_yk between those of the table is that of the next higher one.",
  ],
  jumps: ["eta_4 steps by steel grade, the size factor of large bars not."],
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
    "Bond of FRP bars: by test, no general value.",
    "Gain from confinement in design (alpha_2, alpha_3, transverse pressure).",
    "The 2020 edition.",
    "Bars bonded into drilled holes: given and flagged; eota-tr069-2019 has their bond-splitting by the product's values.",
  ],
};

export { localBondLaw, slipAtSplitting, type LocalBond } from "./local-law";
export const fibBasicLength: DevelopmentLengthRule = {
  code: fibModelCode,
  definition: basicLength,
};
export const fibMeanLength: DevelopmentLengthRule = { code: fibModelCode, definition: meanLength };
