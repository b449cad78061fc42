import { capitalised, groupRatios, labelWords, valueWords, type Comparison, type RatioGroup } from "../../comparison";
import { characteristicFactor, type DerivedFactor, type FactorSettings, type Origin } from "../characteristic-factor";
import { homogeneityOfClasses, type Homogeneity } from "./homogeneity";

/** The factors of one mode: of each class, and of all classes together where they may be pooled. */
export interface FactorsOfMode {
  readonly mode: string;
  readonly classes: readonly RatioGroup[];
  readonly perClass: readonly DerivedFactor[];
  /** Null for a single class. */
  readonly homogeneity: Homogeneity | null;
  /** The factor of all classes together; null where they differ significantly or one has no factor. */
  readonly pooled: DerivedFactor | null;
  /** The factor of the class that needs the least; null where a class has none. */
  readonly worst: DerivedFactor | null;
  /** The one that holds for all classes: the worst, or the pooled one where that was asked for and may be. */
  readonly chosen: DerivedFactor | null;
  readonly reading: string;
}

/** Which factor holds for all classes of a mode. */
export interface PoolingSettings extends FactorSettings {
  /**
   * `never` (default): the factor of the worst class, so that no class is left short on its own tests. `where alike`: the
   * pooled factor where the homogeneity check finds no significant difference, which has more tests behind it and is
   * usually higher, else that of the worst class.
   */
  readonly pooling?: "never" | "where alike";
}

/**
 * Factors of each mode by class, and of all classes together where the homogeneity check finds no significant difference.
 * A mode with a class too small for a factor gets none. The check includes the series effect as the factors do, unless `basis` is `tests`.
 *
 * @param groups groups of the comparison that carry `mode`, one a class and mode, such as FRP materials
 * @example factorsOfModes(comparison, groups, originOf, { seed: 1 }).map(({ reading }) => reading)
 */
export function factorsOfModes(comparison: Comparison, groups: readonly RatioGroup[], originOf: (row: number) => Origin, settings: PoolingSettings = {}): FactorsOfMode[] {
  const modes = [...new Set(groups.map(({ by }) => String(by["mode"])))];
  return modes.map((mode) => {
    const classes = groups.filter(({ by }) => by["mode"] === mode);
    const perClass = classes.map((group) => characteristicFactor(group, originOf, settings));
    const homogeneity = classes.length < 2 ? null : homogeneityOfClasses(classes.map(({ by, evidence }) => ({ label: className(by), tests: settings.basis === "tests" ? evidence : evidence.map(({ ratio, bound, row }) => ({ ratio, bound, series: originOf(row).series })) })));
    const without = perClass.filter(({ status }) => status === "not derived");
    const pooled = homogeneity?.status === "no significant difference" && without.length === 0 ? pooledFactor(comparison, classes, originOf, settings) : null;
    const worst = without.length > 0 ? null : perClass.reduce<DerivedFactor | null>((low, one) => (low === null || (one.exact ?? Infinity) < (low.exact ?? Infinity) ? one : low), null);
    const chosen = settings.pooling === "where alike" && pooled?.status === "derived" ? pooled : worst;
    return { mode, classes, perClass, homogeneity, pooled, worst, chosen, reading: readingOf(mode, perClass, without, homogeneity, pooled, chosen) };
  });
}

/** The class without its mode, which is the same for all. */
function className(by: RatioGroup["by"]): string {
  return Object.entries(by).filter(([column]) => column !== "mode").map(([column, value]) => labelWords(column, value)).join(" ");
}

function pooledFactor(comparison: Comparison, classes: readonly RatioGroup[], originOf: (row: number) => Origin, settings: FactorSettings): DerivedFactor | null {
  const { fractile, confidence, distribution, basis } = settings;
  const question = { ...(basis === undefined ? {} : { basis }), ...(fractile === undefined ? {} : { fractile }), ...(confidence === undefined ? {} : { confidence }), ...(distribution === undefined ? {} : { distribution }) };
  const whole = groupRatios({ ...comparison, evidence: classes.flatMap(({ evidence }) => evidence) }, ["mode"], question)[0];
  return whole ? characteristicFactor({ ...whole, label: `${whole.label}, pooled` }, originOf, settings) : null;
}

function readingOf(mode: string, perClass: readonly DerivedFactor[], without: readonly DerivedFactor[], homogeneity: Homogeneity | null, pooled: DerivedFactor | null, chosen: DerivedFactor | null): string {
  const name = capitalised(valueWords(mode));
  if (without.length > 0) return `${name}: no factor for all classes, since ${without.map(({ label }) => label).join(", ")} ${without.length === 1 ? "has" : "have"} too few tests or series.`;
  if (chosen === null) return `${name}: no tests.`;
  const words = (factor: DerivedFactor): string => (factor.rounded ?? NaN).toFixed(2);
  if (homogeneity === null) return `${name}: one class only, ${chosen.label}, factor ${words(chosen)}.`;
  const worst = `the factor is that of the worst class, ${chosen.label}: ${words(chosen)}`;
  if (pooled === null) return `${name}: ${homogeneity.reading} So ${worst}.`;
  const lower = perClass.filter((one) => (one.rounded ?? 1) < (pooled.rounded ?? 1));
  if (chosen === pooled) return `${name}: ${homogeneity.reading} The pooled factor is ${words(pooled)}.${lower.length > 0 ? ` By themselves ${lower.map((one) => `the ${one.n} tests of ${one.label} would give ${words(one)}`).join(" and ")}.` : ""}`;
  return `${name}: ${homogeneity.reading} Pooled, all ${pooled.n} tests give ${words(pooled)}; so that no class is left short on its own tests, ${worst}.`;
}
