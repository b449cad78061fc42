import { describe, expect, test } from "vitest";
import { outcomeWords } from "../../kernel-lib/src/notebook";
import type { CellOutput, CellReview } from "../../kernel-lib/src/notebook";
import { judgeCell } from "../../kernel-lib/src/notebook/review/judge-cell";

const TABLE = "application/vnd.code-comparison.table+json";

function printed(text: string): CellOutput[] {
  return [{ output_type: "stream", name: "stdout", text }];
}

function column(...values: number[]): CellOutput[] {
  const rows = values.map((ratio, index) => ({ series: `S${index}`, ratio }));
  const table = { columns: [{ key: "series" }, { key: "ratio" }], rows, key: ["series"] };
  return [{ output_type: "display_data", data: { [TABLE]: table }, metadata: {} }];
}

/** What a review says of a cell that recorded one thing and now gives another. */
function judged(
  metadata: Record<string, unknown>,
  recorded: CellOutput[],
  rerun: CellOutput[],
  tolerance = 1e-9,
): CellReview {
  const source = "ratios()";
  const cell = {
    cell_type: "code" as const,
    id: "a",
    metadata,
    source,
    outputs: recorded,
    execution_count: 1,
  };
  const run = {
    number: 1,
    title: "Ratios",
    status: "ok" as const,
    seconds: 0,
    outputs: rerun,
    executionCount: 1,
  };
  return judgeCell({ cell, number: 1, title: "Ratios" }, run, tolerance);
}

const own = (tolerance: unknown): Record<string, unknown> => ({ code_comparison: { tolerance } });
const VOLATILE = { tags: ["volatile"] };

describe("what only the author's wish accounts for is excused, never the same", () => {
  test.each([
    ["ratios times 1.5 under a tolerance of 2", own(2), column(1.5), column(1), "excused"],
    ["the same without a tolerance", {}, column(1.5), column(1), "changed"],
    ["a tolerance of 2 over something else", own(2), printed("safe"), printed("unsafe"), "changed"],
    ["a tolerance of 2 that is not needed", own(2), column(1), column(1), "same"],
    ["a tolerance of 2, 1e-7 apart", own(2), column(1), column(1 + 1e-7), "within_tolerance"],
    ["2e-6 apart under 1e-6", own(1e-6), column(1), column(1 + 2e-6), "changed"],
    ["2e-6 apart under 1e-5", own(1e-5), column(1), column(1 + 2e-6), "excused"],
    ["no number as tolerance", own("wide"), column(1.5), column(1), "changed"],
    ["all safe, tagged volatile", VOLATILE, printed("all safe"), printed("3 fail"), "excused"],
    ["tagged volatile and the same", VOLATILE, printed("all safe"), printed("all safe"), "same"],
    ["a time", {}, printed("failed after 23.4 min"), printed("failed after 1.2 min"), "excused"],
    [
      "a time beside a number within tolerance",
      {},
      printed("mean 1.25 after 2 s"),
      printed("mean 1.2500000000001 after 3 s"),
      "excused",
    ],
    [
      "a time beside a changed number",
      {},
      printed("1.25 in 2 s"),
      printed("1.3 in 3 s"),
      "changed",
    ],
  ] as const)("%s", (_name, metadata, recorded, rerun, verdict) => {
    expect(judged(metadata, recorded, rerun).verdict).toBe(verdict);
  });

  test("the explanation says whose wish it is and quotes what differs", () => {
    expect(judged(own(2), column(1.5), column(1)).explanation).toBe(
      "beyond the limit of 0.000001, within the cell's own tolerance of 2; 1 difference; output, table, row S0, column ratio: recorded 1.5, rerun 1; largest relative difference 3.33e-1 at output, table, row S0, column ratio",
    );
    expect(judged(VOLATILE, printed("all safe"), printed("3 fail")).explanation).toContain(
      "the cell is tagged volatile; 1 difference; output (stdout): recorded all safe, rerun 3 fail",
    );
    expect(judged({}, printed("took 9 ms"), printed("took 8 ms")).explanation).toBe(
      'masked phrase (elapsed-time): "took 9 ms" is now "took 8 ms"',
    );
  });

  test("the reviewer's own tolerance is no excuse of the author's", () => {
    expect(judged({}, column(1), column(1.001), 0.01).verdict).toBe("within_tolerance");
    expect(judged(own(1e-3), column(1), column(1.0001), 0.01).verdict).toBe("within_tolerance");
  });

  test("the outcome counts excused cells", () => {
    const cells = [
      judged(VOLATILE, printed("a"), printed("b")),
      judged({}, printed("a"), printed("a")),
    ];
    expect(outcomeWords({ cells, cellCount: 2 })).toBe(
      "reproduced except 1 cell excused by the author",
    );
    expect(outcomeWords({ cells: [...cells, cells[0]!], cellCount: 4 })).toBe(
      "reproduced so far except 2 cells excused by the author",
    );
    expect(outcomeWords({ cells: cells.slice(1), cellCount: 1 })).toBe("reproduced");
    const changed = judged({}, printed("a"), printed("b"));
    expect(outcomeWords({ cells: [...cells, changed], cellCount: 3 })).toBe("NOT reproduced");
  });
});

describe("rounding is judged by the size of the column", () => {
  test.each([
    ["1e-17 against -2e-17 in a column of ones", [1, 1e-17], [1, -2e-17], "within_tolerance"],
    ["1e-12 of the column's size", [1, 0], [1, 0.9e-12], "within_tolerance"],
    ["above 1e-12 of the column's size", [1, 0], [1, 1.1e-12], "changed"],
    ["small numbers in a column of small numbers", [1e-17, 1], [-2e-17, 1e-16], "changed"],
    ["one number alone is its own size", [1e-17], [-2e-17], "changed"],
  ] as const)("%s", (_name, recorded, rerun, verdict) => {
    expect(judged({}, column(...recorded), column(...rerun)).verdict).toBe(verdict);
  });

  test("a tolerance of 0 allows no rounding", () => {
    expect(judged({}, column(1, 1e-17), column(1, -2e-17), 0).verdict).toBe("changed");
  });
});
