import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import {
  checkReviewRecord,
  readReviewRecord,
  recordSha256,
  reportHtml,
  writeReviewRecord,
} from "../../kernel-lib/src/notebook";
import type { NotebookReview, ReviewRecord } from "../../kernel-lib/src/notebook";
import { contradictionsIn } from "../../kernel-lib/src/notebook/record/contradictions";
import { Signing } from "../../kernel-lib/src/cli/notebook/signing";
import { notebookOf, scratchFolder } from "./notebook-in-scratch";

type Cell = ReviewRecord["notebooks"][number]["cells"][number];

function cellOf(number: number, change: Partial<Cell> = {}): Cell {
  return {
    number,
    id: `c${number}`,
    verdict: "same",
    explanation: "",
    tolerance: 1e-9,
    largest_relative_difference: null,
    opinion: "",
    remark: "",
    ...change,
  };
}

function recordOf(cells: readonly Cell[], change: Partial<ReviewRecord> = {}): ReviewRecord {
  const hash = "0".repeat(64);
  return {
    schema: "code-comparison-review/3",
    reviewer: "A. Reviewer",
    signed: "2026-01-02T03:04:05.000Z",
    reproduced: true,
    excused_accepted: false,
    environment: { node: "20.0.0", tslab: "1.0.22", library: hash, lock_file: "", inputs: {} },
    notebooks: [
      {
        name: "a.ipynb",
        sha256: hash,
        reproduced: true,
        code_cells: 2,
        reasons: [],
        notes: [],
        cells,
      },
    ],
    ...change,
  };
}

const BOTH = [cellOf(1), cellOf(2)];

describe("a record that contradicts itself is found out", () => {
  test.each([
    ["none", recordOf(BOTH), []],
    [
      "cells failed, yet reproduced",
      recordOf([cellOf(1), cellOf(2, { verdict: "failed" })]),
      ["a.ipynb is called reproduced, and cell 2 has failed"],
    ],
    [
      "one cell of two",
      recordOf([cellOf(1)]),
      ["the record says reproduced, and only 1 of 2 cells of a.ipynb were reviewed"],
    ],
    ["a cell more", recordOf([...BOTH, cellOf(3)]), ["a.ipynb: 3 cells reviewed of 2"]],
    [
      "a cell twice",
      recordOf([cellOf(1), cellOf(1)]),
      ["a.ipynb: the cells are not numbered from 1 in order"],
    ],
    [
      "no notebook",
      recordOf(BOTH, { notebooks: [] }),
      ["the record says reproduced, and names no notebook"],
    ],
    [
      "a notebook twice",
      recordOf(BOTH, { notebooks: [...recordOf(BOTH).notebooks, ...recordOf(BOTH).notebooks] }),
      ["the record names a.ipynb more than once"],
    ],
    [
      "the same, yet apart",
      recordOf([cellOf(1, { largest_relative_difference: 0.5 }), cellOf(2)]),
      ["a.ipynb, cell 1: the same, and yet 0.5 apart"],
    ],
    [
      "within tolerance, yet beyond",
      recordOf([
        cellOf(1, { verdict: "within_tolerance", largest_relative_difference: 1e-3 }),
        cellOf(2),
      ]),
      ["a.ipynb, cell 1: within the tolerance 1e-9, and yet 0.001 apart"],
    ],
    [
      "signed in the future",
      recordOf(BOTH, { signed: "2999-01-01T00:00:00.000Z" }),
      ["the record is signed in the future, 2999-01-01T00:00:00.000Z"],
    ],
  ] as const)("%s", (_name, record, found) => {
    expect(contradictionsIn(record)).toEqual(found);
  });

  test("an excused cell holds only with the reviewer's consent", () => {
    const cells = [cellOf(1), cellOf(2, { verdict: "excused" })];
    const [notebook] = recordOf(cells).notebooks;
    const notebooks = [{ ...notebook!, reproduced: false }];
    expect(contradictionsIn(recordOf(cells, { notebooks }))).toEqual([
      "a.ipynb: the author excuses cell 2, and the reviewer has not accepted it",
      "the record says reproduced, and a.ipynb was not",
    ]);
    expect(contradictionsIn(recordOf(cells, { notebooks, excused_accepted: true }))).toEqual([]);
  });

  test("cells that the notebook has and the record leaves out, and a record without environment", async () => {
    const file = notebookOf(["1", "2", "3"]);
    const { createHash } = await import("node:crypto");
    const sha256 = createHash("sha256").update(readFileSync(file)).digest("hex");
    const [notebook] = recordOf(BOTH).notebooks;
    const record = recordOf(BOTH, {
      notebooks: [{ ...notebook!, name: file.split("/").pop()!, sha256 }],
    });
    expect(await checkReviewRecord(record, [file], [])).toContain(
      `${file} has 3 code cells, the record says 2`,
    );
    const { environment: _left, ...without } = record;
    const path = join(scratchFolder(), "review-record.json");
    writeFileSync(path, JSON.stringify(without));
    await expect(readReviewRecord(path)).rejects.toThrow("environment");
  });
});

describe("signing a review", () => {
  const review: NotebookReview = {
    name: "a.ipynb",
    hash: "1".repeat(64),
    cells: [],
    reproduced: true,
    cellCount: 0,
    reasons: ["data file datasets/loads.csv has changed"],
    notes: [],
    seconds: 1,
  };

  test("the report carries reviewer, date, versions, hashes, the record's own and what changed", async () => {
    const folder = scratchFolder();
    const signing = new Signing(folder, { inputs: [] });
    expect(await reportHtml([review], await signing.of([review]))).toContain("Not signed.");
    expect(await signing.sign("A. <b>Reviewer</b>", [review])).toContain("review-record.json");
    const record = await readReviewRecord(signing.file);
    const { createHash } = await import("node:crypto");
    const sha256 = createHash("sha256").update(readFileSync(signing.file)).digest("hex");
    expect(recordSha256(record)).toBe(sha256);
    const html = readFileSync(join(folder, "report.html"), "utf8");
    for (const part of [
      "A. &lt;b&gt;Reviewer&lt;/b&gt;",
      record.signed,
      process.versions.node,
      record.environment.library,
      record.environment.lock_file,
      review.hash,
      sha256,
      "data file datasets/loads.csv has changed",
      "none: the record carries a name, no seal",
    ])
      expect(html).toContain(part);
    expect(await reportHtml([review], await signing.of([review]))).toBe(html);
    const later = { ...review, notes: ["after cell 3 the reviewer evaluated rows.length = 0"] };
    expect(await signing.of([later])).toBeUndefined();
    await writeReviewRecord(signing.file, record);
  });
});
