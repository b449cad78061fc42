import type { FactorCase } from "../factor-case";
import {
  FRP_MODES_ACI318,
  oneFactorPerClass,
  oneFactorPerMode,
  type FactorPlace,
} from "../one-factor-per-mode";
import type { FactorsOfMode } from "../pooling";
import type { Proposal } from "../proposal";
import { proposedJointly } from "../proposed-jointly";
import { factorAlongVariable, simpleRules } from "../size-rules";
import type { Alternative } from "./compare-alternatives";

/**
 * The alternatives a committee asks for, from one case: no change; one factor for all modes; one a
 * mode, of the material that needs the lowest, or pooled where no significant difference was found;
 * one per mode and material; and along the bar size for each material.
 * @example
 * usualAlternatives(found).map(({ proposals }) => proposals)
 */
export function usualAlternatives(
  found: Pick<FactorCase, "derived" | "tests" | "present" | "deriveOn">,
  places: Readonly<Record<string, FactorPlace>> = FRP_MODES_ACI318,
): Alternative[] {
  const { derived, tests, present, deriveOn } = found;
  const jointly = (propose: (some: readonly FactorsOfMode[]) => Proposal[]): Proposal[] =>
    proposedJointly({ derived, places, code: present, deriveOn }, propose);
  const ofMode = (choose: (one: FactorsOfMode) => FactorsOfMode["chosen"]): Proposal[] =>
    jointly((some) =>
      oneFactorPerMode(
        some.map((one) => ({ ...one, chosen: choose(one) })),
        places,
        tests,
      ),
    );
  const worst = ofMode((one) => one.worst);
  const pooled = ofMode((one) => (one.pooled?.status === "derived" ? one.pooled : one.worst));
  const least = Math.min(...worst.map(({ factor }) => Number(factor)));
  const everywhere = worst.map((one): Proposal => ({
    ...one,
    symbol: "psi_FRP",
    factor: String(least),
    says: `${least} for FRP bars, 1 for steel`,
  }));
  const perClass = jointly((some) => oneFactorPerClass(some, places, tests));
  const same = (a: readonly Proposal[], b: readonly Proposal[]): boolean =>
    JSON.stringify(a.map(({ changes, where, factor }) => [changes, where, factor])) ===
    JSON.stringify(b.map(({ changes, where, factor }) => [changes, where, factor]));
  return [
    { label: "no change", proposals: [] },
    ...(worst.length > 1 ? [{ label: "one factor for all modes", proposals: everywhere }] : []),
    ...(worst.length > 0 ? [{ label: "one per mode, lowest material", proposals: worst }] : []),
    ...(pooled.length > 0 && !same(pooled, worst)
      ? [{ label: "one per mode, pooled where no difference was found", proposals: pooled }]
      : []),
    ...(perClass.length > 0
      ? [
          { label: "one per mode and material", proposals: perClass },
          {
            label: "by bar size, each material",
            proposals: jointly((some) =>
              alongSize({ ...found, derived: some }, oneFactorPerClass(some, places, tests)),
            ),
          },
        ]
      : []),
  ];
}

/**
 * Each factor of a class replaced by the cheapest simple rule along the bar size, where one is
 * derived and costs less than the constant.
 */
function alongSize(
  { derived, tests, present }: Pick<FactorCase, "derived" | "tests" | "present">,
  perClass: readonly Proposal[],
): Proposal[] {
  const diameter = tests.numbers("bar_diameter_mm");
  const series = tests.texts("series_id");
  const unit = present.system.inSi.length;
  const classes = derived.flatMap(({ classes: some, mode }) =>
    some.map((group) => ({
      id: `${String(group.by["bar_material"])}-${mode.replaceAll("_", "-")}`,
      evidence: group.evidence,
    })),
  );
  return perClass.map((one) => {
    const evidence = classes.find(({ id }) => id === one.id)?.evidence ?? [];
    const along = factorAlongVariable({
      ratios: evidence.map(({ ratio }) => ratio),
      lowerBounds: evidence.map(({ bound }) => bound),
      series: evidence.map(({ row }) => series[row] ?? ""),
      x: evidence.map(({ row }) => Number(((diameter[row] ?? NaN) / unit).toPrecision(6))),
      resamples: 499,
    });
    const rule = simpleRules(along, "d_a")[0];
    if (!rule || rule.kind === "constant" || along.p === null || along.p >= 0.05) return one;
    return {
      ...one,
      factor: rule.formula,
      says: `${rule.formula}, d_a in ${present.system.unit.length}`,
      derivation: `${along.reading} ${rule.reading}`,
    };
  });
}
