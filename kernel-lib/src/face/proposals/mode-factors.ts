import { capitalised, valueWords } from "../../comparison";
import {
  changedProvisions,
  type FactorPlace,
  type FactorsOfMode,
  type Proposal as ProposedFactor,
} from "../../proposals";
import type { ModeFactor } from "../../tables";

export type { ModeFactor };

/**
 * Which of the factors become changes of the code: one a mode, from the class that needs the lowest
 * or from all classes pooled. Every other mode says why it gets none.
 */
export function modeFactors(
  byMode: readonly FactorsOfMode[],
  places: Readonly<Record<string, FactorPlace>>,
  proposed: readonly ProposedFactor[],
): ModeFactor[] {
  return byMode.map(({ mode, perClass, chosen }): ModeFactor => {
    const words = valueWords(mode);
    const change = proposed.find(({ changes }) => changes === places[mode]?.changes);
    const classes = perClass
      .map(
        ({ label, rounded }) =>
          `${label.split(", ").slice(1).join(", ") || label} ${rounded?.toFixed(2) ?? "none"}`,
      )
      .join(", ");
    const shared = { mode: words, classes, from: chosen?.label ?? null };
    if (change && chosen)
      return {
        ...shared,
        provisions: changedProvisions(change).join(", "),
        change: Number(change.factor),
        reason: `${capitalised(words)}: one change, factor ${Number(change.factor).toFixed(2)}, from ${chosen.label}.`,
      };
    return {
      ...shared,
      provisions: null,
      change: null,
      reason: `${capitalised(words)}: no change; ${whyNone({ mode, perClass, chosen }, places)}.`,
    };
  });
}

function whyNone(
  { mode, perClass, chosen }: Pick<FactorsOfMode, "mode" | "perClass" | "chosen">,
  places: Readonly<Record<string, FactorPlace>>,
): string {
  const without = perClass.filter(({ rounded }) => rounded === null).map(({ label }) => label);
  if (!(mode in places))
    return `propose() changes only ${Object.keys(places).map(valueWords).join(", ")}, in which FRP bars may behave differently from steel; another mode is changed by study.propose`;
  if (without.length > 0) return `no factor for ${without.join(" and ")}`;
  return chosen?.rounded === 1 ? "no factor below 1.0 is needed" : "no factor is derived";
}
