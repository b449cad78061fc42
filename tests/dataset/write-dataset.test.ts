import { mkdir, mkdtemp, readdir, rename, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import {
  describePackage,
  readDataset,
  readDatasets,
  TestTable,
  writeDataset,
  type TestRowInput,
} from "../../kernel-lib/src/dataset";
import { PLAIN_TEST } from "./plain-test";

const row = (load: number): TestRowInput => ({
  ...PLAIN_TEST,
  test_id: "1",
  peak_load_kN: load,
});
const contents = (load: number) => ({
  tests: TestTable.fromRows([row(load)]),
  studies: [
    {
      study_id: "s",
      provenance: "own" as const,
      citation: null,
      doi: null,
      year: null,
      licence: null,
      transcription: null,
      remarks: null,
    },
  ],
  card: "# card\n",
  descriptor: describePackage({ name: "x", title: "x", description: "x" }),
});
const loadOf = async (folder: string): Promise<number> =>
  (await readDataset(folder)).tests.number(0, "peak_load_kN");
let parent = "";
beforeEach(async () => {
  parent = await mkdtemp(join(tmpdir(), "write-"));
});
afterEach(async () => {
  await rm(parent, { recursive: true });
});

describe("reading several data sets", () => {
  it("tells two folders of one name apart", async () => {
    await writeDataset(join(parent, "a", "set"), contents(10));
    await writeDataset(join(parent, "b", "set"), {
      ...contents(20),
      tests: TestTable.fromRows([{ ...row(20), test_id: "2" }]),
    });
    const both = await readDatasets([join(parent, "a", "set"), join(parent, "b", "set")]);
    expect(Object.keys(both.hashes).filter((file) => file.endsWith("tests.csv"))).toEqual([
      "a/set/tests.csv",
      "b/set/tests.csv",
    ]);
    expect(both.tests.source(1)?.file).toBe("b/set/tests.csv");
    expect(both.diagnostics.map(({ rule }) => rule)).toEqual(["study-in-two-sets"]);
  });

  it("reports an id that two data sets use", async () => {
    for (const name of ["a", "b"]) await writeDataset(join(parent, name), contents(10));
    const both = await readDatasets([join(parent, "a"), join(parent, "b")]);
    expect(both.diagnostics.find(({ rule }) => rule === "duplicate-id")).toMatchObject({
      file: "b/tests.csv",
      row: 2,
      value: "1",
      severity: "error",
    });
    expect(both.tests.length).toBe(1);
    expect(both.rejected).toEqual([
      {
        file: "b/tests.csv",
        row: 2,
        cells: ["1"],
        reasons: ['test_id "1" is already in a/tests.csv row 2'],
      },
    ]);
  });
});

describe("writing a data set", () => {
  it("replaces the old one and leaves nothing beside it", async () => {
    const folder = join(parent, "set");
    for (const load of [10, 20]) await writeDataset(folder, contents(load));
    expect(await loadOf(folder)).toBe(20);
    expect(await readdir(parent)).toEqual(["set"]);
  });

  // The states a killed process can leave behind; 999999999 is above any process number in use.
  it("killed while writing: the old data set is whole, and the next write clears up", async () => {
    const folder = join(parent, "set");
    await writeDataset(folder, contents(10));
    await mkdir(join(parent, ".set.new-999999999"));
    await writeFile(join(parent, ".set.new-999999999", "tests.csv"), "test_id,half a li");
    expect(await loadOf(folder)).toBe(10);
    await writeDataset(folder, contents(20));
    expect(await readdir(parent)).toEqual(["set"]);
  });

  it("killed in the moment of exchange: the next reading restores the old data set", async () => {
    const folder = join(parent, "set");
    await writeDataset(folder, contents(10));
    await rename(folder, join(parent, ".set.old-999999999"));
    await mkdir(join(parent, ".set.new-999999999"));
    expect(await loadOf(folder)).toBe(10);
    await writeDataset(folder, contents(20));
    expect(await loadOf(folder)).toBe(20);
    expect(await readdir(parent)).toEqual(["set"]);
  });

  it("a write that fails leaves the old data set", async () => {
    const folder = join(parent, "set");
    await writeDataset(folder, contents(10));
    await expect(
      writeDataset(folder, { ...contents(20), further: { "tests.csv/impossible": "x" } }),
    ).rejects.toThrow();
    expect(await loadOf(folder)).toBe(10);
    expect(await readdir(parent)).toEqual(["set"]);
  });
});
