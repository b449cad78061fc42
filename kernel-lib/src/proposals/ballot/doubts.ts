import { listed } from "../../statistics/reading";
import type { BallotSheet, SheetClass } from "./sheet";

/**
 * What of a change its own evidence does not support, each as a clause of a sentence; empty where
 * every class misses the target without it, keeps its factor without any one study, and shows that
 * a reduction is needed.
 */
export function doubtsOf({
  classes,
  changes,
  target,
}: Pick<BallotSheet, "classes" | "changes" | "target">): string[] {
  const frp = classes.filter(({ steel }) => !steel);
  if (frp.length === 0) return ["no test that the comparison judges is changed"];
  const [first] = changes;
  if (first !== undefined && "kind" in first && first.kind === "addition") {
    const missed = frp.filter(({ verdictAfter }) => verdictAfter !== "meets");
    return missed.length === 0
      ? []
      : [
          `with the new provision ${missed.map((one) => `${name(one)} ${one.verdictAfter ?? "has no verdict"}`).join(", ")}`,
        ];
  }
  const met = frp.filter(({ indexBefore }) => indexBefore !== null && indexBefore >= target);
  const lost = frp.filter(({ withoutWorst }) => withoutWorst?.adequate === false);
  const unshown = frp.filter(({ reductionShown }) => !reductionShown);
  return [
    ...(lost.length === 0
      ? []
      : [
          lost
            .map(
              (one) =>
                `without study ${one.withoutWorst!.left} the tests of ${name(one)} require ${one.withoutWorst!.factor.toFixed(2)}, and ${proposedWords(one)} is proposed`,
            )
            .join("; "),
        ]),
    ...(met.length === 0
      ? []
      : [
          `${listed(met.map(name))} ${met.length === 1 ? "meets" : "meet"} the target index ${target} without a factor (${listed(met.map(({ indexBefore }) => indexBefore!.toFixed(2)))})`,
        ]),
    ...(unshown.length === 0
      ? []
      : [
          `the tests of ${listed(unshown.map(name))} do not show that a reduction is needed (criterion “${unshown[0]!.criterion}”)`,
        ]),
  ];
}

/** The class alone: "bond, GFRP" is GFRP on the sheet of bond. */
export function name({ label }: Pick<SheetClass, "label">): string {
  return label.slice(label.lastIndexOf(",") + 1).trim();
}

/** The factor proposed for a class; its range where it follows a size. */
export function proposedWords({ applied }: Pick<SheetClass, "applied">): string {
  if (applied === null) return "–";
  const [least, most] = [applied.least.toFixed(2), applied.most.toFixed(2)];
  return least === most ? least : `${least} to ${most}`;
}
