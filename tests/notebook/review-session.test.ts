import { existsSync, readdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, test } from "vitest";
import {
  LIMITS,
  NotebookProblem,
  ReviewSession,
  readNotebook,
  reviewNotebook,
} from "../../kernel-lib/src/notebook";
import { fixtureCopy, notebookOf } from "./notebook-in-scratch";
import { sharedKernel } from "./shared-kernel";

const startKernel = sharedKernel();

/**
 * Makes the notebook's folder a project of its own, so that its scratch copies lie there, apart
 * from those of other tests.
 */
function asProject(file: string): string {
  writeFileSync(join(dirname(file), "package-lock.json"), "{}\n");
  return file;
}
const scratchCopies = (file: string): string[] => readdirSync(join(dirname(file), ".cache"));

describe("a review in steps", () => {
  test("runs one cell after the other, gives the review so far, and leaves nothing behind", async () => {
    const file = asProject(fixtureCopy("changed-number"));
    const session = await ReviewSession.open(file);
    expect(scratchCopies(file)).toHaveLength(1);
    expect(session.next?.number).toBe(1);
    expect((await session.runNext())?.verdict).toBe("same");
    expect((await session.runNext())?.verdict).toBe("changed");
    expect(session.result()).toMatchObject({ cellCount: 4, reproduced: false });
    expect(session.result().cells).toHaveLength(2);
    await session.close();
    expect(scratchCopies(file)).toEqual([]);
    expect(session.result().cells).toHaveLength(2);
  });

  test("stop interrupts the running cell alone; the next one runs", async () => {
    const session = await ReviewSession.open(
      notebookOf(["let n = 0; while (n >= 0) n = (n + 1) % 1000;", "n >= 0"]),
      { startKernel, graceSeconds: 20 },
    );
    const running = session.runNext();
    await new Promise((done) => setTimeout(done, 700));
    expect(session.stop()).toBe(true);
    expect(await running).toMatchObject({
      verdict: "failed",
      explanation: "the run was stopped by the user and was interrupted",
    });
    expect((await session.runNext())?.rerun).toHaveLength(1);
    expect(session.stop()).toBe(false);
    await session.close();
  });

  test("a close while a cell runs ends it", async () => {
    const file = asProject(notebookOf(["await new Promise((done) => setTimeout(done, 600_000));"]));
    const session = await ReviewSession.open(file, { timeLimitSeconds: 600 });
    const running = session.runNext();
    await new Promise((done) => setTimeout(done, 300));
    await session.close();
    expect((await running)?.verdict).toBe("failed");
    expect(scratchCopies(file)).toEqual([]);
  });

  test("looks at variables: names and expressions, no statements, no assignments; what may act is noted", async () => {
    const session = await ReviewSession.open(
      notebookOf([
        "const rows = [{ mode: 'bond', ratio: 1.25 }, { mode: 'breakout', ratio: 0.5 }];",
        "rows.length",
      ]),
    );
    await session.runNext();
    expect(await session.evaluate("rows[1].ratio")).toBe("0.5");
    expect(session.notes).toEqual([]);
    expect(await session.evaluate("rows.map(({ ratio }) => 2 * ratio)")).toContain("2.5");
    expect(session.notes).toEqual([
      "after cell 1 the reviewer evaluated rows.map(({ ratio }) => 2 * ratio)",
    ]);
    for (const text of [
      "rows[0].ratio = 3",
      "rows.pop(); rows",
      "1); (rows.pop()",
      "const a = 1",
      "delete rows[0].ratio",
      "",
      "}",
    ])
      expect(await session.evaluate(text), text).toMatch(
        /refused|no expression|give a name|must not change/,
      );
    expect(await session.evaluate("rows.filter((row) => row.mode === 'a=b')")).toBe("[]");
    expect(await session.evaluate("nothing")).toMatch(/nothing/);
    expect(await session.evaluate("rows.length")).toBe("2");
    expect((await session.runNext())?.rerun).toHaveLength(1);
    expect(await session.evaluate("process.exit(3)")).toContain("this look ended the kernel");
    expect(await session.evaluate("rows")).toBe("the kernel has ended");
    await session.close();
  });
});

describe("what the notebook itself says of how it is to be judged", () => {
  const cell = (tolerance: unknown): object => ({
    source: "1.0001",
    execution_count: 1,
    metadata: { code_comparison: { tolerance } },
    outputs: [
      {
        output_type: "execute_result",
        data: { "text/plain": "1" },
        metadata: {},
        execution_count: 1,
      },
    ],
  });

  test("a cell's own tolerance goes before the general one up to 1e-6, and the reviewer is told", async () => {
    const review = await reviewNotebook(
      notebookOf([
        cell(1e-3),
        { ...cell(1e-5), id: "b", execution_count: 2 },
        { ...cell("wide"), id: "c", execution_count: 3 },
      ]),
      { startKernel },
    );
    expect(review.cells.map(({ verdict, tolerance }) => [verdict, tolerance])).toEqual([
      ["excused", 1e-6],
      ["changed", 1e-6],
      ["changed", 1e-9],
    ]);
    expect(review.notes).toEqual([
      "cell 1 sets its own tolerance, 0.001; what exceeds 0.000001 is listed as excused",
      "cell 2 sets its own tolerance, 0.00001; what exceeds 0.000001 is listed as excused",
      'cell 3 asks for the tolerance "wide", which is no number of at least 0; the general tolerance is used',
    ]);
  });
});

describe("limits", () => {
  test("a cell's output is cut at the limit and says so; the review goes on", async () => {
    const review = await reviewNotebook(
      notebookOf([`for (let i = 0; i < 10; i++) console.log("x".repeat(${1024 * 1024}))`, "1"]),
      { startKernel },
    );
    const shown = JSON.stringify(review.cells[0]?.rerun);
    expect(shown.length).toBeLessThan(LIMITS.outputCharacters + 1000);
    expect(shown).toContain("[output cut: this cell put out more than 8 million characters]");
    expect(review.cells[1]?.rerun).toHaveLength(1);
  });

  test("too many cells, and too large a file, are refused with the numbers", async () => {
    const many = notebookOf(Array.from({ length: LIMITS.cells + 1 }, () => "1"));
    await expect(readNotebook(many)).rejects.toThrow(/2001 cells; at most 2000/);
    await expect(ReviewSession.open(many)).rejects.toThrow(NotebookProblem);
    const large = notebookOf([`// ${"x".repeat(LIMITS.notebookBytes)}`]);
    expect(existsSync(large)).toBe(true);
    await expect(ReviewSession.open(large)).rejects.toThrow(
      /is 65 MB large; at most 64 MB is read/,
    );
  });
});
