import { capitalised, listed } from "../../statistics/reading";
import { name, proposedWords } from "./doubts";
import type { BallotSheet } from "./sheet";

const MOST = 5;

/**
 * What speaks against a change, the strongest first, at most five findings; none is an opinion. The
 * last is what the evaluation takes no account of.
 */
export function againstWords(
  { classes, consequences, scope }: Pick<BallotSheet, "classes" | "consequences" | "scope">,
  doubts: readonly string[],
): string[] {
  const frp = classes.filter(({ steel }) => !steel);
  const steel = classes.find((one) => one.steel);
  const percent = (share: number): string => (100 * (1 - share)).toFixed(0);
  const unused = frp.filter(({ usedAfter }) => usedAfter !== null);
  const more = frp.filter(({ factors, criterion, applied }) => {
    const own = factors[criterion];
    return own !== null && applied !== null && applied.most < own - 0.05;
  });
  const studies = Math.max(0, ...frp.map((one) => one.studies));
  const found = [
    ...doubts.map((one) => `${capitalised(one)}.`),
    ...(more.length === 0
      ? []
      : [
          `${listed(more.map((one) => `${name(one)} bars would need ${one.factors[one.criterion]!.toFixed(2)} alone and get ${proposedWords(one)}`))}.`,
        ]),
    ...(unused.length === 0
      ? []
      : [
          `On average ${listed(unused.map((one) => `${percent(one.usedAfter!)} % (${name(one)})`))} of the strength would not be used${steel?.usedBefore ? `, with steel ${percent(steel.usedBefore)} %` : ""}.`,
        ]),
    ...consequences
      .slice(0, 1)
      .map(
        ({ clause, label }) =>
          `${clause} moves with it: it uses the changed strength (${label}${consequences.length > 1 ? ` and ${consequences.length - 1} more` : ""}, block 5).`,
      ),
    ...(studies === 1
      ? ["All tests are of one study: no other laboratory has confirmed them."]
      : []),
    ...scope.says
      .filter((one) => one.startsWith("one adhesive"))
      .map((one) => `The tests hold ${one}.`),
  ];
  return [
    ...found.slice(0, MOST - 1),
    "Sustained and repeated load, fire, moisture and alkali are not part of this evaluation.",
  ];
}
