import {
  capitalised,
  groupRatios,
  labelWords,
  valueWords,
  type Comparison,
  type RatioGroup,
} from "../../comparison";
import {
  FactorDerivation,
  type Criterion,
  type DerivedFactor,
  type FactorSettings,
} from "../criteria";
import { homogeneityOfClasses, type Homogeneity } from "./homogeneity";

/** The factors of one mode: of each class, and of all classes together where they may be pooled. */
export interface FactorsOfMode {
  readonly mode: string;
  /** The criterion that all classes of the mode are derived by. */
  readonly criterion: Criterion;
  readonly classes: readonly RatioGroup[];
  readonly perClass: readonly DerivedFactor[];
  /** Null for a single class. */
  readonly homogeneity: Homogeneity | null;
  /**
   * The factor of all classes together; null where they differ significantly or one has no factor.
   */
  readonly pooled: DerivedFactor | null;
  /** The factor of the class that needs the lowest; null where a class has none. */
  readonly worst: DerivedFactor | null;
  /**
   * The one proposed for all classes: the worst, or the pooled one where that was asked for and is
   * allowed.
   */
  readonly chosen: DerivedFactor | null;
  readonly reading: string;
}

/** Which factor holds for all classes of a mode. */
export interface PoolingSettings extends FactorSettings {
  /**
   * `never` (default): the factor of the worst class, so that no class is left short on its own
   * tests. `no difference found`: the pooled factor where the homogeneity check finds no
   * significant difference, which has more tests behind it and is usually higher, else that of the
   * worst class.
   */
  readonly pooling?: "never" | "no difference found";
}

/**
 * Factors of each mode by class, and of all classes together where the homogeneity check finds no
 * significant difference. All classes of a mode use one criterion: as steel where every class has
 * such a factor, else fractile, unless the settings name one. A mode with a class too small for a
 * factor gets none.
 *
 * @param groups groups of the comparison that carry `mode`, one a class and mode, such as FRP
 *   materials
 * @example factorsOfModes(comparison, groups).map(({ reading }) => reading)
 */
export function factorsOfModes(
  comparison: Comparison,
  groups: readonly RatioGroup[],
  settings: PoolingSettings = {},
): FactorsOfMode[] {
  const derivation = new FactorDerivation(comparison, settings);
  const series = comparison.tests.texts("series_id");
  const modes = [...new Set(groups.map(({ by }) => String(by["mode"])))];
  return modes.map((mode) => {
    const classes = groups.filter(({ by }) => by["mode"] === mode);
    const found = classes.map((group) => ({ group, of: derivation.criteria(group) }));
    const criterion =
      settings.criterion ??
      (found.every(({ of }) => of.criteria["as steel"].factor !== null) ? "as steel" : "fractile");
    const perClass = found.map(({ group, of }) => derivation.derive(group, criterion, of));
    const homogeneity =
      classes.length < 2
        ? null
        : homogeneityOfClasses(
            classes.map(({ by, evidence }) => ({
              label: className(by),
              tests: evidence.map(({ ratio, bound, row }) => ({
                ratio,
                bound,
                series: series[row] ?? "",
              })),
            })),
          );
    const without = perClass.filter(({ status }) => status === "not derived");
    const mayPool = homogeneity?.status === "no significant difference";
    const pooled =
      mayPool && without.length === 0
        ? pooledFactor(comparison, classes, derivation, criterion, settings)
        : null;
    const worst =
      without.length > 0
        ? null
        : perClass.reduce<DerivedFactor | null>(
            (low, one) =>
              low === null || (one.exact ?? Infinity) < (low.exact ?? Infinity) ? one : low,
            null,
          );
    const chosen =
      settings.pooling === "no difference found" && pooled?.status === "derived" ? pooled : worst;
    return {
      mode,
      criterion,
      classes,
      perClass,
      homogeneity,
      pooled,
      worst,
      chosen,
      reading: readingOf(mode, perClass, without, homogeneity, pooled, chosen),
    };
  });
}

/** The class without its mode, which is the same for all. */
function className(by: RatioGroup["by"]): string {
  return Object.entries(by)
    .filter(([column]) => column !== "mode")
    .map(([column, value]) => labelWords(column, value))
    .join(" ");
}

function pooledFactor(
  comparison: Comparison,
  classes: readonly RatioGroup[],
  derivation: FactorDerivation,
  criterion: Criterion,
  settings: FactorSettings,
): DerivedFactor | null {
  const { fractile, confidence, distribution, cells } = settings;
  const question = {
    ...(fractile === undefined ? {} : { fractile }),
    ...(confidence === undefined ? {} : { confidence }),
    ...(distribution === undefined ? {} : { distribution }),
    ...(cells === undefined ? {} : { cells }),
  };
  const whole = groupRatios(
    { ...comparison, evidence: classes.flatMap(({ evidence }) => evidence), notJudged: [] },
    ["mode"],
    question,
  )[0];
  return whole ? derivation.derive({ ...whole, label: `${whole.label}, pooled` }, criterion) : null;
}

function readingOf(
  mode: string,
  perClass: readonly DerivedFactor[],
  without: readonly DerivedFactor[],
  homogeneity: Homogeneity | null,
  pooled: DerivedFactor | null,
  chosen: DerivedFactor | null,
): string {
  const name = capitalised(valueWords(mode));
  if (without.length > 0)
    return `${name}: no factor for all classes; ${without.map(({ label }) => label).join(", ")} ${without.length === 1 ? "has" : "have"} too few tests or series.`;
  if (chosen === null) return `${name}: no tests.`;
  const words = (factor: DerivedFactor): string => (factor.rounded ?? NaN).toFixed(2);
  if (homogeneity === null)
    return `${name}: one class only, ${chosen.label}; factor ${words(chosen)}.`;
  const worst = `The factor is ${words(chosen)}, from ${chosen.label}, the class that requires the lowest.`;
  if (pooled === null) return `${name}: ${homogeneity.reading} ${worst}`;
  const lower = perClass.filter((one) => (one.rounded ?? 1) < (pooled.rounded ?? 1));
  if (chosen === pooled)
    return `${name}: ${homogeneity.reading} The pooled factor is ${words(pooled)}.${lower.length > 0 ? ` ${lower.map((one) => `The ${one.n} tests of ${one.label} alone give ${words(one)}.`).join(" ")}` : ""}`;
  return `${name}: ${homogeneity.reading} Pooled, all ${pooled.n} tests give ${words(pooled)}. ${worst}`;
}
