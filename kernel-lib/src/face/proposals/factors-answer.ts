import type { DerivedFactor } from "../../proposals";
import type { ModeFactor } from "../../tables";
import { count } from "../results/names";
import type { GroupsOfCode } from "./judged-groups";

/** How many groups have a factor, how many of those the tests support, and what is proposed. */
export function factorsAnswer(
  { byWords, basis }: GroupsOfCode,
  factors: readonly DerivedFactor[],
  modes: readonly ModeFactor[],
): string {
  if (factors.length === 0) return `No factor: no group of FRP bars by ${byWords}.`;
  const found = factors.filter(({ status }) => status === "derived");
  const below = found.filter(({ rounded }) => (rounded ?? 1) < 1);
  const supported = below.filter((one) => one.supported);
  const least = below.reduce<DerivedFactor | null>(
    (low, one) => (low === null || (one.exact ?? 1) < (low.exact ?? 1) ? one : low),
    null,
  );
  const lowest =
    least === null
      ? ""
      : ` The lowest is ${least.rounded!.toFixed(2)} for ${least.label} (${least.criterion}).`;
  return `${count(factors.length, "group")} of FRP bars by ${byWords}, ${basis}: ${found.length} with a factor, ${below.length} of them below 1.0, supported by the tests for ${supported.length}; ${factors.length - found.length} with too few tests or series.${lowest}${proposedWords(modes)}`;
}

function proposedWords(modes: readonly ModeFactor[]): string {
  const changed = modes.flatMap(({ mode, change }) =>
    change === null ? [] : [`${change.toFixed(2)} in ${mode}`],
  );
  if (modes.length === 0) return "";
  return changed.length === 0
    ? " No mode is changed."
    : ` ${count(changed.length, "change")} proposed: ${changed.join(", ")}.`;
}
