import { valueWords } from "../comparison";
import { DEMERIT_NOTE, type BeforeAfterScores } from "../proposals";
import type { TableText } from "./comparison-tables";
import { Table } from "./table";

/**
 * Safety and economy before and after, group by group: share below 1, mean ratio, demerit score and, where any group has
 * one, the least reliability index over the load ratios. What the score is stands under the table.
 */
export function beforeAfterScoreTable(scores: readonly BeforeAfterScores[], text: TableText): Table {
  const by = scores[0]?.by ?? { group: null };
  const indices = scores.some(({ before, after }) => before.leastIndex !== null || after.leastIndex !== null);
  return new Table({
    ...text,
    rowKey: Object.keys(by),
    columns: [
      ...Object.keys(by).map((key) => ({ key, title: key.replaceAll("_", " "), kind: "text" as const })),
      { key: "n", title: "n", kind: "integer", note: "tests that failed in the mode; lower bounds enter none of these numbers but the mean" },
      { key: "below_before", title: "share below 1, present", kind: "number", digits: 2, limit: null },
      { key: "below_after", title: "proposed", kind: "number", digits: 2, limit: null },
      { key: "mean_before", title: "mean, present", kind: "number" },
      { key: "mean_after", title: "proposed", kind: "number", note: "what the mean lies above 1 is capacity that is not used" },
      { key: "demerit_before", title: "demerit, present", kind: "integer" },
      { key: "demerit_after", title: "proposed", kind: "integer" },
      ...(indices ? [
        { key: "index_before", title: "least β, present", kind: "number" as const, limit: null },
        { key: "index_after", title: "proposed", kind: "number" as const, limit: null },
      ] : []),
    ],
    rows: scores.map(({ by: keys, before, after }) => ({
      ...Object.fromEntries(Object.entries(keys).map(([key, value]) => [key, valueWords(value)])),
      n: before.group.n, below_before: before.shareBelow1, below_after: after.shareBelow1, mean_before: before.mean, mean_after: after.mean,
      demerit_before: rounded(before.demerit.score), demerit_after: rounded(after.demerit.score),
      ...(indices ? { index_before: before.leastIndex, index_after: after.leastIndex } : {}),
    })),
    notes: [...(text.notes ?? []), DEMERIT_NOTE],
  });
}

function rounded(score: number | null): number | null {
  return score === null ? null : Math.round(score);
}
