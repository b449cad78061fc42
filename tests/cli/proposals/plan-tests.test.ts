import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Command } from "commander";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { registerPlanTestsCommand } from "../../../kernel-lib/src/cli/proposals/plan-tests";
import { testsCsv } from "../../../kernel-lib/src/dataset";
import { table } from "../../provisions/specimens";
import { expectSaid } from "../../says";

let folder = "";
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "plan-"));
  const bars = [26, 28, 30, 31, 33, 29].map((peak_load_kN, k) => ({
    test_id: `g${k}`,
    series_id: `s${k % 3}`,
    bar_size: k < 5 ? "16" : "19",
    failure_mode: "bond" as const,
    peak_load_kN,
  }));
  await writeFile(join(folder, "tests.csv"), testsCsv(table(...bars)));
  await writeFile(
    join(folder, "studies.csv"),
    "study_id,provenance,citation,doi,year,licence,transcription\ns,own,made up for this test,,2026,,supplied\n",
  );
});
afterEach(async () => {
  await rm(folder, { recursive: true });
  process.exitCode = 0;
});

async function plan(...more: string[]): Promise<{ code: number; out: string; err: string }> {
  const out = vi.spyOn(console, "log").mockImplementation(() => undefined);
  const err = vi.spyOn(console, "error").mockImplementation(() => undefined);
  process.exitCode = 0;
  const program = new Command().exitOverride();
  registerPlanTestsCommand(program);
  try {
    await program.parseAsync(
      ["plan-tests", "--data", folder, "--modes", "bond", "--materials", "gfrp", ...more],
      { from: "user" },
    );
    return {
      code: Number(process.exitCode),
      out: out.mock.calls.map(String).join("\n"),
      err: err.mock.calls.map(String).join("\n"),
    };
  } finally {
    vi.restoreAllMocks();
  }
}

describe("plan-tests", () => {
  it("gives a table and a sentence for each size", async () => {
    const { out } = await plan();
    const said = out.replace(/\s+/g, " ");
    expectSaid(said, /bond, GFRP, size 16\b[^.]*falls short[^.]*5 failures[^.]*3 series/);
    expectSaid(said, /bond, GFRP, size 19\b[^.]*too few tests[^.]*1 failure\b[^.]*1 series/);
    expect((await plan()).out).toBe(out);
  });
  it("gives rows as data and writes a file", async () => {
    const rows = JSON.parse((await plan("--format", "json")).out) as { size: string; n: number }[];
    expect(rows.map(({ size, n }) => [size, n])).toEqual([
      ["16", 5],
      ["19", 1],
    ]);
    await plan("--format", "csv", "--out", join(folder, "plan.csv"));
    expect(await readFile(join(folder, "plan.csv"), "utf8")).toMatch(/^mode,material,size,n,/);
  });
  it("refuses an invalid option, naming it and what to use", async () => {
    expect(await plan("--wanted", "2")).toMatchObject({
      code: 2,
      err: expect.stringMatching(/--wanted "2".*between 0 and 1/) as string,
    });
    expectSaid((await plan("--modes", "pryout")).err, /expected at least one/i);
    expect((await plan("--codes", "none")).code).toBe(2);
  });
});
