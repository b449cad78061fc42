import { classStrata, labelWords, type TrendPoint } from "../../comparison";
import type { ComparedRatios } from "../differences/ratio-differences";
import { knownName } from "../results/names";
import type { Setting } from "../results/result";
import { testRecords } from "../tests/test-records";
import { alongColumn, besideOf, Trend, trendUnit, type TrendOptions } from "./trend";

/** Columns whose groups are never compared with each other: another strength each. */
const FAMILIES = ["code", "mode", "provision", "clause"];

/**
 * Test-to-predicted ratios along a column of numbers, one line a group.
 * @throws UnknownNameError for a column that there is not or that holds words
 */
export function ratioTrend(
  setting: Setting,
  ratios: ComparedRatios & {
    readonly numberColumns: readonly string[];
    readonly columnNames: readonly string[];
  },
  x: string,
  options: TrendOptions,
): Trend {
  alongColumn(x, { numbers: ratios.numberColumns, names: ratios.columnNames });
  const allowed = (options.allowFor ?? []).map((name) =>
    knownName("column", String(name), ratios.columnNames),
  );
  const unit = trendUnit(options.unit);
  const by = ratios.columns.filter((name) => name !== "code");
  const named = ratios.columns.includes("code") || ratios.parts.length > 1;
  const points = ratios.parts.flatMap(({ pairs }) => {
    const records = testRecords(pairs.tests);
    return classStrata(pairs, by).flatMap(({ within, evidence }) => {
      const keys = Object.entries(named ? { code: pairs.code.id, ...within } : within);
      const labelOf = (some: typeof keys): string =>
        some.map(([column, value]) => labelWords(column, value)).join(", ");
      return evidence.map(({ row, ratio, bound, capacity, load }): TrendPoint => {
        const own: Readonly<Record<string, unknown>> = {
          ratio,
          capacity_kN: capacity,
          load_kN: load,
        };
        const cell = own[x] ?? records[row]![x as keyof (typeof records)[number]];
        return {
          group: labelOf(keys),
          family: labelOf(keys.filter(([column]) => FAMILIES.includes(column))),
          x: typeof cell === "number" ? cell : NaN,
          y: ratio,
          series: pairs.tests.text(row, options.unit ?? "series_id") || null,
          bound,
          label: pairs.tests.text(row, "test_id") ?? "",
          beside: besideOf({ ...records[row]!, ...own }, allowed),
        };
      });
    });
  });
  return new Trend(
    setting,
    {
      name: ratios.name,
      points,
      x,
      response: "ratio",
      yTitle: "Test-to-predicted ratio (–)",
      level: 1,
      basis: ratios.basis,
      unit,
    },
    options,
  );
}
