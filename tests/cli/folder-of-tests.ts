import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach } from "vitest";
import { testsCsv, type TestRowInput } from "../../kernel-lib/src/dataset";
import { table } from "../provisions/specimens";

/**
 * Makes a data set folder of the rows given before each test of the file and removes it after.
 * @param made is told the folder each time
 */
export function folderOfTests(
  rows: readonly Partial<TestRowInput>[],
  made: (folder: string) => void,
): void {
  let folder = "";
  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), "command-"));
    await writeFile(join(folder, "tests.csv"), testsCsv(table(...rows)));
    await writeFile(
      join(folder, "studies.csv"),
      "study_id,provenance,citation,doi,year,licence,transcription\ns,own,made up for this test,,2026,,supplied\n",
    );
    made(folder);
  });
  afterEach(async () => {
    await rm(folder, { recursive: true });
  });
}
