import { cp, mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { registerCompareCommand } from "../../../kernel-lib/src/cli/comparison/compare";
import { compare, groupRatios } from "../../../kernel-lib/src/comparison";
import { readDataset, testsCsv, type TestTable } from "../../../kernel-lib/src/dataset";
import { code } from "../../../kernel-lib/src/provisions";
import { expectSaid } from "../../says";
import { runCommand } from "../run-command";

const demo = new URL("../../../datasets/demo", import.meta.url).pathname;
/** Every fifth post-installed test of the invented campaign in bond or breakout. */
let folder = "";
let tests: TestTable;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "compare-"));
  const all = (await readDataset(demo)).tests.where(
    ({ installation, action, failure_mode }) =>
      installation === "post_installed" &&
      action === "tension" &&
      ["bond", "concrete_breakout"].includes(failure_mode),
  );
  await writeFile(join(folder, "tests.csv"), testsCsv(all.where((_, i) => i % 5 === 0)));
  await cp(join(demo, "studies.csv"), join(folder, "studies.csv"));
  ({ tests } = await readDataset(folder));
});
afterAll(() => rm(folder, { recursive: true }));
const run = (...words: string[]): ReturnType<typeof runCommand> =>
  runCommand([registerCompareCommand], ["compare", folder, ...words]);

interface Answer {
  readonly codes: string[];
  readonly capacity_of: string;
  readonly lower_bounds: string;
  readonly where: string | null;
  readonly options: Record<string, number>;
  readonly groups: {
    by: Record<string, string>;
    n: number;
    n_lower_bounds: number;
    mean: number;
  }[];
  readonly rows: { code: string; read: number }[];
  readonly differences?: { [column: string]: unknown }[];
  readonly left_out?: { [column: string]: unknown }[];
}
const json = async (...words: string[]): Promise<Answer> =>
  JSON.parse((await run("--format", "json", ...words)).out) as Answer;

afterEach(() => {
  process.exitCode = 0;
});

describe("compare", () => {
  it("looks at the rows that meet --where, by any column of a study, and says how many", async () => {
    const condition = "bar_class == 'frp' && bar_diameter_mm <= 16";
    const { err, out } = await run("--by", "mode", "--where", condition, "--format", "json");
    const answer = JSON.parse(out) as Answer;
    const kept = tests.where((row) => row.bar_material !== "steel" && row.bar_diameter_mm <= 16);
    expectSaid(err, `${kept.length} of ${tests.length} usable rows`);
    const expected = groupRatios(compare(kept, code("aci318-19"), { level: "nominal" }), ["mode"]);
    expect(answer.where).toBe(condition);
    expect(answer.groups.map(({ n, mean }) => [n, mean])).toEqual(
      expected.map(({ n, mean }) => [n, mean]),
    );
    expectSaid((await run("--by", "mode", "--where", condition)).out, condition);
  });

  it("names the nearest column, or word of a column, where a condition has none such", async () => {
    for (const [condition, nearest] of [
      ["bar_materal == 'gfrp'", "bar_material"],
      ["failure_mode == 'pry_out'", "pryout"],
    ] as const)
      expect(await run("--where", condition)).toMatchObject({
        code: 2,
        out: "",
        err: expect.stringContaining(`did you mean ${nearest}?`) as string,
      });
    expect((await run("--where", "bar_material = 'gfrp'")).code).toBe(2);
    expect((await run("--by", "bar_materal")).err).toContain("did you mean bar_material?");
  });

  it("computes by options of the code", async () => {
    const { groups, options } = await json(
      "--by",
      "mode",
      "--option",
      "supplementary_reinforcement=1",
    );
    const expected = groupRatios(
      compare(tests, code("aci318-19"), { options: { supplementary_reinforcement: 1 } }),
      ["mode"],
    );
    expect(options).toEqual({ supplementary_reinforcement: 1 });
    expect(groups.map(({ mean }) => mean)).toEqual(expected.map(({ mean }) => mean));
  });

  it("answers by several codes, each group and account with its code", async () => {
    const both = await json("--by", "bar_material", "--codes", "aci318-19,aci440.1r-15");
    const one = await json("--by", "bar_material", "--codes", "aci440.1r-15");
    expect(both.codes).toEqual(["aci318-19", "aci440.1r-15"]);
    expect(both.rows.map(({ code: id }) => id)).toEqual(both.codes);
    const second = both.groups.filter(({ by }) => by["code"] === "aci440.1r-15");
    expect(second.map(({ n, mean }) => [n, mean])).toEqual(
      one.groups.map(({ n, mean }) => [n, mean]),
    );
    expect(one.groups.every(({ by }) => !("code" in by))).toBe(true);
  });

  it("leaves lower bounds out, or takes the lowest capacity, where asked", async () => {
    const without = await json("--by", "mode", "--lower-bounds", "left_out");
    expect(without.lower_bounds).toBe("left_out");
    expect(without.groups.every(({ n_lower_bounds }) => n_lower_bounds === 0)).toBe(true);
    const governing = await json("--by", "mode", "--capacity-of", "governing_mode");
    expect(governing.capacity_of).toBe("governing_mode");
    expect(governing.groups.map(({ mean }) => mean)).toEqual(
      groupRatios(compare(tests, code("aci318-19"), { capacityOf: "governing mode" }), [
        "mode",
      ]).map(({ mean }) => mean),
    );
  });

  it("adds differences from a class, and verdicts without each study", async () => {
    const where = ["--where", "failure_mode == 'bond'"];
    const { differences = [], left_out = [] } = await json(
      ...["--by", "mode,bar_material", ...where, "--versus", "steel", "--leave-out", "study_id"],
    );
    expect(JSON.stringify(differences)).toMatch(/GFRP|gfrp/);
    expect(left_out.length).toBeGreaterThan(1);
    expect((await run("--versus", "wood")).err).toMatch(/"wood"/);
    expect((await run("--leave-out", "study")).err).toMatch(/did you mean study_id\?/);
  });

  it("exits by the verdict required, in general or as tested", async () => {
    const one = ["--by", "bar_material", "--where", "bar_material == 'gfrp'", "--format", "json"];
    const { groups } = (await json(...one)) as unknown as {
      groups: { verdict: string; as_tested: { verdict: string } }[];
    };
    const code = async (verdict: string): Promise<number> =>
      (await run(...one, "--require", verdict)).code;
    expect(groups).toHaveLength(1);
    expect(await code("meets")).toBe(groups[0]?.verdict === "meets" ? 0 : 1);
    expect(await code("meets_as_tested")).toBe(groups[0]?.as_tested.verdict === "meets" ? 0 : 1);
    expect(await code("meet")).toBe(2);
  });

  it("keeps its tables to the width of a pipe", async () => {
    process.env["COLUMNS"] = "64";
    try {
      const { out } = await run("--by", "mode,bar_material");
      expect(Math.max(...out.split("\n").map((line) => [...line].length))).toBeLessThanOrEqual(64);
    } finally {
      delete process.env["COLUMNS"];
    }
  });
});
