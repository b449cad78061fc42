import { cp, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { registerCheckCommand } from "../../kernel-lib/src/cli/dataset/check";
import { registerCurvesCommand } from "../../kernel-lib/src/cli/dataset/curves";
import { readDataset } from "../../kernel-lib/src/dataset";
import { CURVE_TRUTH } from "../../kernel-lib/src/demonstration";
import { runCommand } from "../cli/run-command";

const demo = new URL("../../datasets/demo", import.meta.url).pathname;
let folder = "";
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "curves-"));
});
afterEach(async () => {
  await rm(folder, { recursive: true });
});
const run = (...words: string[]) =>
  runCommand([registerCurvesCommand, registerCheckCommand], words);

describe("curves", () => {
  it("reduces a data set's records; reading the data set joins them to the tests, filling blank slips only", async () => {
    const own = join(folder, "own");
    await cp(demo, own, { recursive: true });
    const text = await readFile(join(own, "tests.csv"), "utf8");
    const before = await readDataset(own);
    const slip = String(
      before.tests.where(({ test_id }) => test_id === "NM-001-1").number(0, "slip_at_peak_mm"),
    );
    await writeFile(
      join(own, "tests.csv"),
      text
        .split("\n")
        .map((line) => (line.startsWith("NM-001-1,") ? line.replace(`,${slip},`, ",,") : line))
        .join("\n"),
    );
    const { code, out } = await run(
      "curves",
      own,
      "--free-length",
      String(CURVE_TRUTH.freeLength_mm),
    );
    expect(code).toBe(0);
    expect(out).toContain("42 records reduced, values in");
    const { tests, diagnostics } = await readDataset(own);
    expect(diagnostics.filter(({ severity }) => severity !== "information")).toEqual([]);
    const rows = tests.where((row) => row.extra["curve"] !== null).rows();
    expect(rows).toHaveLength(42);
    for (const row of rows)
      expect(Math.abs(Number(row.extra["curve_peak_kN"]) / row.peak_load_kN - 1)).toBeLessThan(
        CURVE_TRUTH.statedErrors.peak,
      );
    const filled = rows.find(({ test_id }) => test_id === "NM-001-1");
    expect(filled?.slip_at_peak_mm).toBe(filled?.extra["curve_slip_at_peak_mm"]);
    expect(Math.abs((filled?.slip_at_peak_mm ?? NaN) / Number(slip) - 1)).toBeLessThan(
      CURVE_TRUTH.statedErrors.slip,
    );
    const untouched = rows.find(({ test_id }) => test_id === "NM-009-1");
    expect(untouched?.slip_at_peak_mm).toBe(
      before.tests.where(({ test_id }) => test_id === "NM-009-1").number(0, "slip_at_peak_mm"),
    );
  });

  it("check says when a record has changed since, is missing, or belongs to no test", async () => {
    const own = join(folder, "own");
    await cp(demo, own, { recursive: true });
    await run("curves", own);
    expect((await run("check", own, "--codes", "none")).out).not.toContain("changed-record");
    const record = join(own, "curves", "NM-001-1.csv");
    await writeFile(join(own, "curves", "stray.csv"), await readFile(record));
    await writeFile(record, `${await readFile(record, "utf8")}\n`);
    await rm(join(own, "curves", "IH-005-1.csv"));
    const { out } = await run("check", own, "--codes", "none");
    expect(out).toContain("curves/NM-001-1.csv has changed since curve-values.csv was written");
    expect(out).toContain('the link "curves/IH-005-1.csv" leads to no file');
    expect(out).toContain("the record curves/stray.csv belongs to no test");
  });

  it("reduces loose files, named by their files, and says what cannot be reduced", async () => {
    await cp(join(demo, "curves", "NM-001-1.csv"), join(folder, "A-1.csv"));
    await writeFile(join(folder, "bad.csv"), "load_kN,slip_mm\n0,0\n");
    const out = join(folder, "reduced.tsv");
    const { code, out: printed } = await run(
      "curves",
      folder,
      "--out",
      join(folder, "values.txt"),
      "--place",
      "free_end",
    );
    expect(code).toBe(1);
    expect(printed).toContain("A-1: peak 31.19 kN");
    expect(printed).toContain("bad.csv has 1 readings, expected at least 10");
    expect((await readFile(join(folder, "values.txt"), "utf8")).split("\n")[1]).toMatch(/^A-1,/);
    expect((await run("curves", join(folder, "absent.csv"), "--out", out)).code).toBe(2);
    expect((await run("curves", folder, "--smoothing", "moving-mean:4")).err).toContain(
      "an odd number of points",
    );
    expect((await run("curves", folder, "--drift", "maybe")).err).toMatch(
      /--drift "maybe".*none, rest-before or rests/,
    );
  });
});
