import { valueWords, type RatioGroup } from "../comparison";
import type { TestTable } from "../dataset";
import type { Criterion, DerivedFactor } from "./criteria";
import type { FactorsOfMode } from "./pooling";
import type { Proposal } from "./proposal";
import { testedLimits, type ValidityLimit } from "./validity-limits";

/** The provision a factor goes to, and the symbol of the factor. */
export interface FactorPlace {
  readonly changes: string;
  /**
   * Further provisions of the family: the same failure towards other edges must not keep the old
   * strength.
   */
  readonly alsoChanges?: readonly string[];
  readonly symbol: string;
}

/**
 * The modes of ACI 318-19 in which FRP may behave differently from steel, each with the provision a
 * factor goes to.
 */
export const FRP_MODES_ACI318: Readonly<Record<string, FactorPlace>> = {
  bond: { changes: "aci318-19/17.6.5", symbol: "psi_FRP_Na" },
  concrete_edge_breakout: {
    changes: "aci318-19/17.7.2",
    alsoChanges: ["aci318-19/17.7.2.1(c)-edge2", "aci318-19/17.7.2.1(c)-edge4"],
    symbol: "psi_FRP_V",
  },
  pryout: { changes: "aci318-19/17.7.3", symbol: "psi_FRP_cp" },
  bar_shear: { changes: "aci318-19/frp-transverse-shear", symbol: "psi_FRP_s" },
};

/**
 * One factor a mode for all FRP bars: that of the material that needs the least, or the pooled one
 * where the derivation chose it. A mode in which a material has no factor, or whose factor is not
 * below 1, gets no proposal.
 *
 * @param derived the factors of each mode, from `factorsOfModes`
 * @param tests the tests they came from, from which the limits of validity are read
 * @example oneFactorPerMode(factorsOfModes(comparison, groups), FRP_MODES_ACI318)
 */
export function oneFactorPerMode(
  derived: readonly FactorsOfMode[],
  places: Readonly<Record<string, FactorPlace>>,
  tests?: TestTable,
): Proposal[] {
  return Object.entries(places).flatMap(([mode, { changes, alsoChanges, symbol }]) => {
    const of = derived.find((one) => one.mode === mode);
    const factor = of?.chosen?.rounded ?? null;
    if (!of || factor === null || factor >= 1) return [];
    return [
      {
        id: `frp-${mode.replaceAll("_", "-")}`,
        title: `FRP bars in ${valueWords(mode)}`,
        changes,
        ...(alsoChanges ? { alsoChanges } : {}),
        symbol,
        where: "frp == 1",
        factor: String(factor),
        says: `${factor} for FRP bars, 1 for steel`,
        criterion: of.criterion,
        supported: of.chosen?.supported ?? false,
        rationale: rationaleOf(of.criterion, "FRP bars"),
        derivation: `${of.reading} ${of.perClass.map(({ reading }) => reading).join(" ")}`,
        evidence: evidenceWords(of.perClass),
        ...(tests ? { limits: limitsOf(tests, of.classes) } : {}),
      },
    ];
  });
}

/**
 * One factor a mode and class: simple to derive, but a designer must find one number for each
 * class.
 * @example oneFactorPerClass(derived, FRP_MODES_ACI318, tests)
 */
export function oneFactorPerClass(
  derived: readonly FactorsOfMode[],
  places: Readonly<Record<string, FactorPlace>>,
  tests?: TestTable,
  column: string = "bar_material",
): Proposal[] {
  return Object.entries(places).flatMap(([mode, { changes, alsoChanges, symbol }]) => {
    const of = derived.find((one) => one.mode === mode);
    return (of?.perClass ?? []).flatMap((one, k): Proposal[] => {
      const value = of?.classes[k]?.by[column];
      if (one.rounded === null || one.rounded >= 1 || typeof value !== "string") return [];
      const words = valueWords(value);
      return [
        {
          id: `${value}-${mode.replaceAll("_", "-")}`,
          title: `${words} bars in ${valueWords(mode)}`,
          changes,
          ...(alsoChanges ? { alsoChanges } : {}),
          symbol: `${symbol}_${value}`,
          where: `${value} == 1`,
          factor: String(one.rounded),
          says: `${one.rounded} for ${words} bars, 1 for others`,
          criterion: one.criterion,
          supported: one.supported,
          rationale: rationaleOf(one.criterion, `${words} bars`),
          derivation: one.reading,
          evidence: evidenceWords([one]),
          ...(tests ? { limits: limitsOf(tests, of?.classes.slice(k, k + 1) ?? []) } : {}),
        },
      ];
    });
  });
}

const RATIONALES: Readonly<Record<Criterion, string>> = {
  fractile: "the characteristic test-to-predicted ratio is below 1.0",
  "as steel":
    "the 5 % fractile of test/predicted is lower than for steel bars under the present provision",
  reliability: "the target reliability index is not reached at the code's own strength reduction",
};

function rationaleOf(criterion: Criterion, bars: string): string {
  return `For ${bars} ${RATIONALES[criterion]}.`;
}

const LIMITED = ["bar_diameter_mm", "embedment_mm", "concrete_strength_MPa"] as const;

/** The tested range; a factor holds nowhere else. */
function limitsOf(tests: TestTable, classes: readonly RatioGroup[]): ValidityLimit[] {
  return testedLimits(
    tests,
    classes.flatMap(({ evidence }) => evidence.map(({ row }) => row)),
    LIMITED,
  );
}

function evidenceWords(factors: readonly DerivedFactor[]): string {
  return `${factors.reduce((sum, { n }) => sum + n, 0)} tests that failed in the mode, ${factors.reduce((sum, { lowerBounds }) => sum + lowerBounds, 0)} lower bounds`;
}
