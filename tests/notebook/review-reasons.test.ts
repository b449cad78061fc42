import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import {
  checkReviewRecord,
  makeReviewRecord,
  reviewNotebook,
  runNotebook,
} from "../../kernel-lib/src/notebook";
import type { NotebookReview, RecordedEnvironment } from "../../kernel-lib/src/notebook";
import { scratchFolder } from "./notebook-in-scratch";
import { sharedKernel } from "./shared-kernel";

const startKernel = sharedKernel();

/** A project of its own: a lock file, a data file, and a notebook that reads it. */
function smallProject(): { file: string; data: string; lock: string; folder: string } {
  const folder = scratchFolder();
  for (const name of ["datasets", "notebooks"]) mkdirSync(join(folder, name));
  const [lock, data, file] = [
    join(folder, "package-lock.json"),
    join(folder, "datasets", "loads.csv"),
    join(folder, "notebooks", "mean.ipynb"),
  ];
  writeFileSync(lock, "{}\n");
  writeFileSync(data, "load_kN\n40\n50\n");
  const source =
    'import { readFileSync } from "node:fs";\nconst loads = readFileSync("../datasets/loads.csv", "utf8").trim().split("\\n").slice(1).map(Number);\n`mean ${loads.reduce((a, b) => a + b) / loads.length} kN`';
  writeFileSync(
    file,
    JSON.stringify({
      nbformat: 4,
      nbformat_minor: 5,
      metadata: {},
      cells: [
        { cell_type: "code", id: "mean", metadata: {}, source, outputs: [], execution_count: null },
      ],
    }),
  );
  return { file, data, lock, folder };
}

function withRecorded(file: string, change: Partial<RecordedEnvironment>): void {
  const notebook = JSON.parse(readFileSync(file, "utf8")) as {
    metadata: { code_comparison: { recorded: RecordedEnvironment } };
  };
  Object.assign(notebook.metadata.code_comparison.recorded, change);
  writeFileSync(file, JSON.stringify(notebook));
}

test("a review says which data file, lock file, library, Node and tslab are others than at the recording", async () => {
  const { file, data, lock, folder } = smallProject();
  const review = (): Promise<NotebookReview> => reviewNotebook(file, { startKernel });
  expect((await runNotebook(file, { inputs: ["datasets"], startKernel })).status).toBe("done");
  expect(await review()).toMatchObject({ reproduced: true, reasons: [] });

  writeFileSync(data, "load_kN\n40\n53\n");
  const changed = await review();
  expect(changed.reasons).toEqual(["data file datasets/loads.csv has changed"]);
  expect(changed.cells[0]).toMatchObject({
    verdict: "changed",
    differences: [{ recorded: "45", rerun: "46.5" }],
  });

  rmSync(data);
  writeFileSync(join(folder, "datasets", "forces.csv"), "force_kN\n1\n");
  writeFileSync(lock, '{ "lockfileVersion": 3 }\n');
  withRecorded(file, { node: "18.0.0", tslab: "1.0.0", library: "0".repeat(64) });
  const other = await review();
  expect(other.reasons).toEqual([
    `Node was 18.0.0 and is ${process.versions.node}`,
    expect.stringMatching(/^tslab was 1\.0\.0 and is \d/),
    "the library build is another one",
    "package-lock.json is another one: dependencies may differ",
    "data file datasets/loads.csv is gone",
    "data file datasets/forces.csv is new",
  ]);
  expect(other.cells[0]?.verdict).toBe("failed");
});

test("a signed record holds until a notebook changes, is missing or is new, or was not reviewed to its end", async () => {
  const { file } = smallProject();
  const [second, third] = [
    smallProject().file.replace("mean.ipynb", "second.ipynb"),
    smallProject().file.replace("mean.ipynb", "third.ipynb"),
  ];
  await runNotebook(file, { inputs: ["datasets"], startKernel });
  for (const other of [second, third]) writeFileSync(other, readFileSync(file));
  const reviews = [
    await reviewNotebook(file, { startKernel }),
    { ...(await reviewNotebook(second, { startKernel })), cells: [] },
  ];
  const record = await makeReviewRecord(reviews, "A. Reviewer", []);
  expect(
    await checkReviewRecord({ ...record, notebooks: record.notebooks.slice(0, 1) }, [file], []),
  ).toEqual([]);
  expect(await checkReviewRecord(record, [file, third], [])).toEqual([
    `${third} is not in the record`,
    "second.ipynb is in the record but not among the notebooks given",
  ]);
  writeFileSync(file, readFileSync(file, "utf8").replace("mean $", "Mean $"));
  expect(await checkReviewRecord(record, [file, second], [])).toEqual([
    `${file} has changed since it was signed`,
    `${second}: only 0 of 1 cells were reviewed`,
  ]);
  const changed = {
    ...record,
    notebooks: [],
    environment: { ...record.environment, library: "0".repeat(64) },
  };
  expect(await checkReviewRecord(changed, [], [])).toEqual([
    "since the signing: the library build is another one",
  ]);
});
