import { groupRatios, type Comparison, type Evidence, type RatioGroup } from "../comparison";
import { predict } from "../provisions";
import { applyProposal } from "./apply-proposal";
import {
  FactorDerivation,
  type Criterion,
  type DerivedFactor,
  type FactorSettings,
} from "./criteria";
import { changedProvisions, type ProposedChange } from "./proposal";
import { testedLimits, type ValidityLimit } from "./validity-limits";

/** The tests that a change concerns. */
export interface ChangeEvidence {
  readonly proposal: ProposedChange;
  /** Tests that failed in the mode, lower bounds, series and studies with a failure. */
  readonly n: number;
  readonly lowerBounds: number;
  readonly series: number;
  readonly studies: number;
  /** The tested range. */
  readonly limits: readonly ValidityLimit[];
  /** By mode and material: what the tests require by the criterion of the change. */
  readonly factors: readonly DerivedFactor[];
  readonly groups: readonly RatioGroup[];
  /** The factor on the capacity of each group by its label, its geometric mean where it varies. */
  readonly applied: ReadonlyMap<string, number>;
  /**
   * Whether the tests show that a reduction is needed: the upper bound of the factor is below 1 in
   * every group; false without tests.
   */
  readonly supported: boolean;
  readonly reason: string;
}

const LIMITED = ["bar_diameter_mm", "embedment_mm", "concrete_strength_MPa"] as const;

/** Evidence whose capacity a change alters, with the factor on it; NaN where it is withheld. */
export interface ChangedPair {
  readonly one: Evidence;
  readonly factor: number;
}

/**
 * The evidence of a comparison whose capacity a change alters or withholds; none for an added
 * provision, which the present code does not judge.
 * @example changedEvidence(compare(tests, code("aci318-19")), proposal).length
 */
export function changedEvidence(comparison: Comparison, proposal: ProposedChange): ChangedPair[] {
  const ids = changedProvisions(proposal);
  const { columns, settings } = comparison.prediction;
  const concerned = comparison.evidence.filter(({ column }) =>
    ids.includes(columns[column]?.provision.id ?? ""),
  );
  if (concerned.length === 0) return [];
  const changed = predict(applyProposal(comparison.code, proposal), comparison.tests, settings);
  const after = new Map(changed.columns.map((one) => [one.provision.id, one.capacity]));
  return concerned.flatMap((one) => {
    const before = columns[one.column];
    const [old, now] = [
      before?.capacity[one.row] ?? NaN,
      after.get(before?.provision.id ?? "")?.[one.row] ?? NaN,
    ];
    return Object.is(old, now) ? [] : [{ one, factor: now / old }];
  });
}

/**
 * The tests behind a change and whether they show that it is needed.
 * @param comparison with the present code; beside other changes with `codeBeforeChange`
 * @param known factors derived already from the same tests, such as those the change comes from
 * @example evidenceOfChange(compare(tests, code("aci318-19")), proposal).reason
 */
export function evidenceOfChange(
  comparison: Comparison,
  proposal: ProposedChange,
  settings: FactorSettings = {},
  known: readonly DerivedFactor[] = [],
): ChangeEvidence {
  const { tests } = comparison;
  const pairs = changedEvidence(comparison, proposal);
  const evidence = pairs.map(({ one }) => one);
  const groups = groupRatios(
    { ...comparison, evidence, notJudged: [] },
    ["mode", "bar_material"],
    settings,
  );
  const derivation = new FactorDerivation(comparison, settings);
  const criterion = "factor" in proposal ? (proposal.criterion ?? "fractile") : "fractile";
  const frp = groups.filter(({ by }) => by["bar_material"] !== "steel");
  const factors = frp.map(
    (group) =>
      known.find((one) => same(one, group, criterion)) ?? derivation.derive(group, criterion),
  );
  const failed = evidence.filter(({ bound }) => !bound).map(({ row }) => row);
  const rows = evidence.map(({ row }) => row);
  const filled = LIMITED.filter((name) =>
    rows.some((row) => !Number.isNaN(tests.numbers(name)[row] ?? NaN)),
  );
  const different = (column: string): number =>
    new Set(failed.map((row) => tests.text(row, column))).size;
  const short = factors.filter(({ supported }) => !supported);
  return {
    proposal,
    n: failed.length,
    lowerBounds: evidence.length - failed.length,
    series: different("series_id"),
    studies: different("study_id"),
    limits: testedLimits(tests, rows, filled),
    factors,
    groups,
    applied: appliedFactors(pairs, groups),
    supported: factors.length > 0 && short.length === 0,
    reason:
      factors.length === 0
        ? "no test that the comparison judges is changed"
        : short.length === 0
          ? `the upper bound of the factor by the criterion "${criterion}" is below 1.0 in every group it changes`
          : `these tests do not show that a reduction is needed (criterion "${criterion}"): ${short.map(({ label }) => label).join("; ")}`,
  };
}

function same(one: DerivedFactor, group: RatioGroup, criterion: Criterion): boolean {
  return (
    one.criterion === criterion &&
    one.n === group.n &&
    one.lowerBounds === group.lowerBounds &&
    JSON.stringify(one.by) === JSON.stringify(group.by)
  );
}

function appliedFactors(
  pairs: readonly ChangedPair[],
  groups: readonly RatioGroup[],
): ReadonlyMap<string, number> {
  const factorOf = new Map(pairs.map(({ one, factor }) => [one, factor]));
  return new Map(
    groups.flatMap(({ label, evidence }) => {
      const logs = evidence
        .map((one) => Math.log(factorOf.get(one) ?? NaN))
        .filter((value) => !Number.isNaN(value));
      if (logs.length === 0) return [];
      const mean = Math.exp(logs.reduce((sum, value) => sum + value, 0) / logs.length);
      // The logarithm of a product of decimals is not exact.
      return [[label, Number(mean.toPrecision(12))] as const];
    }),
  );
}
