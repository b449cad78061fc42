import { Option } from "commander";
import type { RatioGroup } from "../../comparison";
import { absent } from "./help";
import { oneOf } from "./invalid-input";

const REQUIRED = ["meets", "meets_as_tested"] as const;

/** `--require`: a verdict that groups must have for exit code 0. */
export const requireOption = (groups: string): Option =>
  absent(
    new Option(
      "--require <verdict>",
      `exit with 1 unless ${groups} has this verdict: meets (in general) or meets_as_tested`,
    ),
    "no verdict is required",
  );

/** Whether a group has the verdict required; null where none is. @throws InvalidInput */
export function requiredVerdict(
  given: string | undefined,
): ((group: RatioGroup) => boolean) | null {
  if (given === undefined) return null;
  return oneOf("require", given, REQUIRED) === "meets"
    ? ({ verdict }) => verdict === "meets"
    : ({ asTested }) => asTested.verdict === "meets";
}
