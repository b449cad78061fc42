import { groupRatios, type Comparison, type RatioGroup } from "../../comparison";
import { columnSymbol } from "../condition-formula";
import { factorAlongVariable, type FactorAlong } from "./factor-along-variable";
import { simpleRules, type SimpleRule } from "./simple-rules";

/** The factor of one group along a variable, and the simple rules for it. */
export interface RulesOfGroup {
  readonly label: string;
  readonly by: RatioGroup["by"];
  readonly along: FactorAlong;
  /** Cheapest first; empty where no factor was derived. */
  readonly rules: readonly SimpleRule[];
  /** Each value of the variable by itself, as tested: a size has too few series for more. */
  readonly sizes: readonly {
    /** In the unit of the column. */
    readonly x: number;
    readonly n: number;
    readonly fractile: number | null;
    readonly lower: number | null;
    readonly upper: number | null;
  }[];
}

/** How rules along a variable are made. */
export interface RulesSettings {
  readonly fractile?: number;
  readonly confidence?: number;
  /** Rounded down to this step; default 0.05. */
  readonly step?: number;
  readonly seed?: number | string;
}

/**
 * The factor of each group along a column of the tests, with simple rules in the unit of the code.
 * Tests with a blank there are left out.
 * @param column a number column that a provision reads, such as `bar_diameter_mm`
 * @throws RangeError for a column that no provision reads
 * @example rulesOfGroups(comparison, [group], "bar_diameter_mm", { seed: 1 })[0]?.rules[0]?.formula
 */
export function rulesOfGroups(
  comparison: Comparison,
  groups: readonly RatioGroup[],
  column: string,
  settings: RulesSettings = {},
): RulesOfGroup[] {
  const read = columnSymbol(column, comparison.code);
  if (read === null)
    throw new RangeError(
      `No provision reads the column ${column}; expected one such as bar_diameter_mm.`,
    );
  const values = comparison.tests.numbers(column);
  const series = comparison.tests.texts("series_id");
  const { step, ...question } = settings;
  return groups.map(({ label, by, evidence: all }) => {
    const evidence = all.filter(({ row }) => (values[row] ?? NaN) > 0);
    const along = factorAlongVariable({
      ...question,
      ratios: evidence.map(({ ratio }) => ratio),
      lowerBounds: evidence.map(({ bound }) => bound),
      series: evidence.map(({ row }) => series[row] ?? ""),
      x: evidence.map(({ row }) => Number(((values[row] ?? NaN) / read.size).toPrecision(6))),
    });
    const sizes = groupRatios({ ...comparison, evidence, notJudged: [] }, [column], {
      ...(settings.fractile === undefined ? {} : { fractile: settings.fractile }),
      ...(settings.confidence === undefined ? {} : { confidence: settings.confidence }),
    });
    return {
      label,
      by,
      along,
      rules: simpleRules(along, read.symbol, step),
      sizes: sizes.map(({ by: key, n, asTested: { fractile, lower, upper } }) => ({
        x: Number(key[column]),
        n,
        fractile,
        lower,
        upper,
      })),
    };
  });
}
