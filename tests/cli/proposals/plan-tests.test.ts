import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { registerPlanTestsCommand } from "../../../kernel-lib/src/cli/proposals/plan-tests";
import { folderOfTests } from "../folder-of-tests";
import { runCommand } from "../run-command";
import { expectSaid } from "../../says";

let folder = "";
folderOfTests(
  [26, 28, 30, 31, 33, 29].map((peak_load_kN, k) => ({
    test_id: `g${k}`,
    series_id: `s${k % 3}`,
    bar_size: k < 5 ? "16" : "19",
    failure_mode: "bond",
    peak_load_kN,
  })),
  (made) => (folder = made),
);

const plan = (...more: string[]): ReturnType<typeof runCommand> =>
  runCommand(
    [registerPlanTestsCommand],
    ["plan-tests", "--data", folder, "--modes", "bond", "--materials", "gfrp", ...more],
  );

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
