import type { CodeDefinition, CodeOption } from "../../model/definition";
import type { DevelopmentLengthRule } from "../../model/development-length";
import { SI } from "../../model/unit-system";
import * as first from "./anchorage-2004";
import * as second from "./anchorage-2023";
import { whether } from "../../model/yes-or-no";
import { DEVELOPED_BARS } from "../../model/tested-by";

const steel = (clause: string, factorClause: string): Readonly<Record<string, CodeOption>> => ({
  f_yk: {
    quantity: "stress",
    value: 500,
    meaning: "characteristic yield strength for rows without a stated yield strength",
    clause,
  },
  gamma_s: {
    quantity: "number",
    value: 1.15,
    meaning: "partial factor of steel",
    clause: factorClause,
  },
});
const YIELD =
  "The yield strength stated in the row is used as f_yk, although it is measured. Option f_yk applies to rows without one.";
const NO_ANCHORS = "Anchoring to concrete: fastenings are covered by another part (EN 1992-4).";

/** EN 1992-1-1:2004, anchorage of ribbed bars. */
export const en1992Bars2004: CodeDefinition = {
  id: "en1992-1-1-2004",
  title: "EN 1992-1-1, anchorage of ribbed steel bars",
  edition: "2004",
  system: SI,
  covers:
    "8.4.2 to 8.4.4 (anchorage length, and force anchored at an embedment) and yield of the bar.",
  testedBy: DEVELOPED_BARS,
  options: {
    ...steel("3.2.7", "2.4.2.4"),
    gamma_c: {
      quantity: "number",
      value: 1.5,
      meaning: "partial factor of concrete",
      clause: "2.4.2.4",
    },
    count_cover: {
      quantity: "number",
      value: 0,
      meaning: whether(
        "the benefit of cover (alpha_2 of straight bars, from memory, to be checked) is included",
      ),
      clause: "8.4.4",
    },
  },
  readings: [
    YIELD,
    "Poor bond conditions are assumed for top bars in the data, with more than 300 mm of fresh concrete below. The clause has other limits, by depth and position in the member (from memory 250 and 300 mm).",
  ],
  jumps: ["f_ctm decreases by 0.2 % at f_ck = 50 MPa, where its equation changes."],
  provisions: [first.anchoredForce, first.barYield("en1992-1-1-2004/3.2.7", "3.2.7", "2.4.2.4")],
  gaps: [
    NO_ANCHORS,
    "The factors alpha_1 and alpha_3 to alpha_5 of 8.4.4 (shape, transverse bars and pressure) are 1; alpha_2 is 1 unless its option is set.",
    "Bars in lightweight concrete (Section 11).",
  ],
};

/** EN 1992-1-1:2023, anchorage of ribbed bars; to be checked against a licensed copy. */
export const en1992Bars2023: CodeDefinition = {
  id: "en1992-1-1-2023",
  title: "EN 1992-1-1, anchorage of ribbed steel bars",
  edition: "2023",
  system: SI,
  covers: "11.4.2 (anchorage length, and force anchored at an embedment) and yield of the bar.",
  testedBy: DEVELOPED_BARS,
  options: {
    ...steel("5.2", "4.3"),
    k_lb: {
      quantity: "number",
      value: 50,
      meaning: "coefficient for persistent situations; includes the partial factor",
      clause: "11.4.2",
    },
    k_cp_poor: {
      quantity: "number",
      value: 1.2,
      meaning: "factor for a poor casting position (from memory, to be checked)",
      clause: "11.4.2",
    },
  },
  readings: [YIELD],
  provisions: [second.anchoredForce, first.barYield("en1992-1-1-2023/yield", "5.2", "4.3")],
  gaps: [
    NO_ANCHORS,
    "The limits of the individual factors could not be verified and are omitted.",
    "Confinement by transverse bars and pressure.",
    "A nominal level, because the coefficient includes the partial factor.",
    "Clause numbers for steel and its partial factor are from memory.",
  ],
};

export const en1992Length2004: DevelopmentLengthRule = {
  code: en1992Bars2004,
  definition: first.lengthForStress,
};
export const en1992Length2023: DevelopmentLengthRule = {
  code: en1992Bars2023,
  definition: second.lengthForStress,
};
