import { modeAgreement, modeTable, type Comparison as Pairs } from "../../comparison";
import { percent } from "../../statistics/reading";
import { count } from "../results/names";
import { shortTitle } from "./comparison-tables";

/**
 * How often a code's predicted mode is the observed one: "ACI 318-19, nominal level: of 1,434 tests
 * that are not excluded, 975 are judged; the predicted mode is the observed one in 879 of these
 * (90 %)."
 */
export function modeAgreementWords(pairs: Pairs): string {
  const { tests, judged, agree } = modeAgreement(modeTable(pairs));
  const of = `${shortTitle(pairs.code)}, ${pairs.prediction.level} level: of ${count(tests, "test")} that ${tests === 1 ? "is" : "are"} not excluded, ${judged.toLocaleString("en-US")} ${judged === 1 ? "is" : "are"} judged`;
  return judged === 0
    ? `${of}, so observed and predicted modes are not compared.`
    : `${of}; the predicted mode is the observed one in ${agree.toLocaleString("en-US")} of these (${percent(agree / judged, 0)}).`;
}
