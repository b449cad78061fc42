import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { reviewNotebook } from "../../kernel-lib/src/notebook";
import type { CellVerdict, NotebookReview } from "../../kernel-lib/src/notebook";
import { fixtureCopy } from "./notebook-in-scratch";
import { sharedKernel } from "./shared-kernel";

// Those that end or hang a kernel, and one that is as it comes, get a fresh one each.
const FRESH = ["hangs", "exits", "same"];
const startKernel = sharedKernel();

async function review(ending: string): Promise<NotebookReview> {
  const file = fixtureCopy(ending);
  const before = readFileSync(file, "utf8");
  const result = await reviewNotebook(file, {
    timeLimitSeconds: ending === "hangs" ? 1 : 60,
    graceSeconds: 1,
    ...(FRESH.includes(ending) ? {} : { startKernel }),
  });
  expect(readFileSync(file, "utf8")).toBe(before);
  return result;
}

function verdicts(result: NotebookReview): CellVerdict[] {
  return result.cells.map(({ verdict }) => verdict);
}

describe("the fixtures are judged as their names say", () => {
  test("same", async () => {
    const result = await review("same");
    expect(verdicts(result)).toEqual(["same", "same", "same", "same"]);
    expect(result.reproduced).toBe(true);
    expect(result.notes).toEqual([]);
  });

  test("tolerance: names the largest relative difference and its row and column", async () => {
    const result = await review("tolerance");
    expect(verdicts(result)).toEqual(["same", "within_tolerance", "same", "same"]);
    expect(result.cells[1]?.largest?.where).toBe("output, table, row A, column ratio");
    expect(result.cells[1]?.largest?.relative).toBeGreaterThan(1e-14);
    expect(result.cells[1]?.largest?.relative).toBeLessThan(1e-9);
    expect(result.reproduced).toBe(true);
  });

  test("changed-number", async () => {
    const result = await review("changed-number");
    expect(verdicts(result)).toEqual(["same", "changed", "same", "same"]);
    expect(result.cells[1]?.differences).toEqual([
      {
        where: "output, table, row B, column ratio",
        recorded: "0.931",
        rerun: "0.913",
        relative: expect.closeTo(0.018 / 0.931, 12) as number,
        place: {
          output: 1,
          form: "application/vnd.code-comparison.table+json",
          row: ["B"],
          column: "ratio",
        },
      },
    ]);
    expect(result.reproduced).toBe(false);
  });

  test("changed-figure", async () => {
    const result = await review("changed-figure");
    expect(verdicts(result)).toEqual(["same", "same", "changed", "same"]);
    expect(result.cells[2]?.differences[0]?.where).toBe('output, figure, trace "tests".y[3]');
  });

  test("fails: the later cells are still judged", async () => {
    const result = await review("fails");
    expect(verdicts(result)).toEqual(["not_recorded", "failed", "not_recorded"]);
    expect(result.cells[1]?.explanation).toBe("RangeError: embedment must be above 0 mm, got -3");
  });

  test("hangs", async () => {
    const result = await review("hangs");
    expect(result.cells[1]).toMatchObject({
      verdict: "failed",
      explanation: "the cell ran longer than its limit of 1 s and was interrupted",
    });
    expect(result.cells[2]?.rerun).toHaveLength(1);
  });

  test("exits: what cannot run any more says why", async () => {
    const result = await review("exits");
    expect(result.cells.map(({ explanation }) => explanation)).toEqual([
      "the notebook holds no record of a run of this cell",
      "the cell ended the kernel's process (process.exit, exit code 3)",
      "not run: the kernel had ended before",
    ]);
  });

  test("floods: 20,000 lines, none lost", async () => {
    expect(verdicts(await review("floods"))).toEqual(["same"]);
  });

  test("late-rejection: the cell that left it behind has failed", async () => {
    const result = await review("late-rejection");
    const failed = result.cells.filter(({ verdict }) => verdict === "failed");
    expect(failed).toHaveLength(1);
    expect(failed[0]?.explanation).toBe("UnhandledRejection: too late");
  });

  test("hostile-html", async () => {
    expect(verdicts(await review("hostile-html"))).toEqual(["same", "same"]);
  });

  test("not-recorded", async () => {
    const result = await review("not-recorded");
    expect(verdicts(result)).toEqual(["not_recorded"]);
    expect(result.reproduced).toBe(false);
    expect(result.reasons).toEqual([
      "the notebook does not say what its outputs were recorded with",
    ]);
  });
});
