import { valueWords, type RatioGroup } from "../comparison";
import { byColumns, byCells } from "./group-columns";
import { Table } from "./table";
import type { TableText } from "./table-text";

const P = { kind: "number", digits: 2, limit: null } as const;

/**
 * How well a normal and a lognormal distribution fit the failures of each group about the means of
 * their cells, and what each makes of the characteristic ratio in general and of the verdict.
 * @param normal the groups judged by a normal distribution
 * @param lognormal the same groups, in the same order, judged by a lognormal one
 */
export function distributionTable(
  normal: readonly RatioGroup[],
  lognormal: readonly RatioGroup[],
  text: TableText,
): Table {
  const by = normal[0]?.by ?? { group: null };
  const rows = normal.map((group, k) => {
    const other = lognormal[k]!;
    return {
      ...byCells(group.by),
      n: group.n,
      cells: group.inGeneral.cellColumns.map(valueWords).join(", ") || null,
      p_normal: group.inGeneral.residualFit.normal,
      p_lognormal: group.inGeneral.residualFit.lognormal,
      lower_normal: group.lower,
      verdict_normal: group.verdict,
      lower_lognormal: other.lower,
      verdict_lognormal: other.verdict,
    };
  });
  const p = "p of the Shapiro-Wilk test on the failures about their cell means";
  return new Table({
    ...text,
    rowKey: Object.keys(by),
    columns: [
      ...byColumns(by),
      { key: "n", title: "n", kind: "integer", note: "tests that failed in the mode" },
      {
        key: "cells",
        title: "cells by",
        kind: "text",
        note: "columns with which the mean ratio may differ within the group",
      },
      { key: "p_normal", title: "p, normal", ...P, note: p },
      { key: "p_lognormal", title: "p, lognormal", ...P, note: "the same of the logarithms" },
      {
        key: "lower_normal",
        title: "r_k, normal",
        kind: "number",
        note: "characteristic ratio in general",
      },
      { key: "verdict_normal", title: "in general, normal", kind: "verdict" },
      { key: "lower_lognormal", title: "r_k, lognormal", kind: "number" },
      { key: "verdict_lognormal", title: "in general, lognormal", kind: "verdict" },
    ],
    rows,
    notes: [
      "A small p is evidence against a distribution; a large p does not confirm it. Tests of one series are correlated, which makes p too small.",
      ...(text.notes ?? []),
    ],
  });
}
