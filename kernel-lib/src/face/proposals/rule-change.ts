import { valueWords, type Comparison as Pairs, type Evidence } from "../../comparison";
import type { ProposedChange, RulesOfGroup, SimpleRule } from "../../proposals";
import type { ProvisionId } from "../results/generated-names";
import { proposedChange, type ChangeInput } from "./change-input";

/** A rule along a variable as a change of one provision, for the bars that it was derived from. */
export function ruleChange(
  provision: ProvisionId,
  {
    group,
    rule,
    evidence,
  }: {
    readonly group: RulesOfGroup;
    readonly rule: SimpleRule;
    readonly evidence: readonly Evidence[];
  },
  pairs: Pairs,
  k: number,
): ProposedChange {
  const materials = [
    ...new Set(evidence.map(({ row }) => pairs.tests.text(row, "bar_material") ?? "")),
  ];
  const where: ChangeInput["where"] = materials.includes("steel")
    ? undefined
    : materials.length === 1
      ? `${materials[0]} == 1`
      : { bar_class: "frp" };
  const bars = materials.length === 1 ? valueWords(materials[0]!) : "FRP";
  const change = proposedChange(
    {
      provision,
      factor: rule.formula,
      title: `${materials.includes("steel") ? "Bars" : `${bars} bars`}, ${rule.kind} rule`,
      rationale: "The factor that the tests require changes along the variable.",
      ...(where === undefined ? {} : { where }),
    },
    pairs.code,
    k,
  );
  return { ...change, derivation: `${group.along.reading} ${rule.reading}` };
}
