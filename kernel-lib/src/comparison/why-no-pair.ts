import type { TestTable } from "../dataset";
import type { CodePrediction } from "../provisions";
import { evidenceOf, type LowerBoundRule } from "./lower-bound-rule";
import { valueWords } from "./labels";
import type { NotJudgedStatus } from "./scope";

/** Why a test has no pair with any provision: a status and the reason. */
export function whyNoPair(
  { columns, code, level }: CodePrediction,
  tests: TestTable,
  lowerBounds: LowerBoundRule,
  row: number,
): [NotJudgedStatus, string] {
  const [observed, action, setup] = [
    tests.text(row, "failure_mode"),
    tests.text(row, "action"),
    tests.text(row, "setup"),
  ];
  if (observed === null || observed === "unknown")
    return ["input missing", "the failure mode is unknown"];
  const concerned = columns.some(
    ({ provision }) =>
      provision.action === action &&
      evidenceOf(observed, provision.modes, lowerBounds) !== "nothing",
  );
  if (concerned)
    return [
      "set-up does not test this",
      `a test by ${valueWords(setup)} permits no mode that ${code.id} predicts`,
    ];
  const of = ["stopped", "rupture_at_grip"].includes(observed)
    ? `for which a test in ${action ?? "an unstated action"} is a lower bound`
    : `for the mode ${valueWords(observed)}`;
  return ["capacity of another mode", `${code.id} has no provision at the ${level} level ${of}`];
}
