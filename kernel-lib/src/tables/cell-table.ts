import { valueWords, type RatioGroup } from "../comparison";
import type { TableText } from "./table-text";
import { Table } from "./table";

/**
 * The cells of each group that has several, with the bounds of their fractile and the pooled group
 * beside them.
 */
export function cellTable(groups: readonly RatioGroup[], text: TableText): Table {
  const by = Object.keys(groups[0]?.by ?? { group: null });
  const several = groups.filter(({ inGeneral }) => inGeneral.cells.length > 1);
  return new Table({
    ...text,
    rowKey: [...by, "cell"],
    columns: [
      ...by.map((key) => ({ key, title: key.replaceAll("_", " "), kind: "text" as const })),
      {
        key: "cell",
        title: "cell",
        kind: "text",
        note: "values of the columns with which the mean ratio differs",
      },
      { key: "n", title: "n", kind: "integer" },
      { key: "n_lower_bounds", title: "lower bounds", kind: "integer" },
      { key: "series", title: "series", kind: "integer" },
      { key: "mean", title: "mean", kind: "number" },
      {
        key: "cov",
        title: "COV",
        kind: "number",
        digits: 2,
        note: "for a further test of a further series; the same scatter in all cells of a group",
      },
      { key: "fractile", title: "fractile", kind: "number" },
      { key: "lower", title: "r_k", kind: "number", note: "lower one-sided bound" },
      {
        key: "upper",
        title: "upper bound",
        kind: "number",
        note: "simultaneous over the judged cells of the group",
      },
      {
        key: "judged",
        title: "judged",
        kind: "text",
        note: "a separate verdict on a cell needs at least 3 series",
      },
    ],
    rows: several.flatMap(({ by: keys, inGeneral }) => {
      const named = Object.fromEntries(
        Object.entries(keys).map(([key, value]) => [key, valueWords(value)]),
      );
      const pooled =
        inGeneral.pooled === null
          ? []
          : [
              {
                ...named,
                cell: "all cells pooled",
                n: null,
                n_lower_bounds: null,
                series: null,
                mean: null,
                cov: null,
                ...inGeneral.pooled,
                judged: "for comparison",
              },
            ];
      return [
        ...inGeneral.cells.map((one) => ({
          ...named,
          cell: one.cell,
          n: one.n,
          n_lower_bounds: one.lowerBounds,
          series: one.series,
          mean: one.mean,
          cov: one.cov,
          fractile: one.fractile,
          lower: one.lower,
          upper: one.upper,
          judged: one.judged ? "yes" : "too few series",
        })),
        ...pooled,
      ];
    }),
  });
}
