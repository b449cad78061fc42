import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { registerPlanTestsCommand } from "../../../kernel-lib/src/cli/proposals/plan-tests";
import { registerProposeCommand } from "../../../kernel-lib/src/cli/proposals/propose";
import { registerEmbedmentCommand } from "../../../kernel-lib/src/cli/provisions/embedment";
import { registerExplainCommand } from "../../../kernel-lib/src/cli/provisions/explain";
import { registerPredictCommand } from "../../../kernel-lib/src/cli/provisions/predict";
import { registerSensitivityCommand } from "../../../kernel-lib/src/cli/provisions/sensitivity";
import { testsCsv } from "../../../kernel-lib/src/dataset";
import { table } from "../../provisions/specimens";
import { runCommand } from "../run-command";

let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "rows-"));
  const bars = (["gfrp", "steel"] as const).flatMap((bar_material) =>
    [26, 28, 30, 31, 33].map((peak_load_kN, k) => ({
      test_id: `${bar_material}-${k}`,
      series_id: `${bar_material}-${k}`,
      bar_material,
      bar_size: "16",
      failure_mode: "bond" as const,
      peak_load_kN,
    })),
  );
  await writeFile(join(folder, "tests.csv"), testsCsv(table(...bars)));
  await writeFile(
    join(folder, "studies.csv"),
    "study_id,provenance,citation,doi,year,licence,transcription\ns,own,made up for this test,,2026,,supplied\n",
  );
  await writeFile(
    join(folder, "proposal.json"),
    JSON.stringify({
      ...{ id: "frp-bond", title: "FRP bars in bond", changes: "aci318-19/17.6.5" },
      ...{ symbol: "psi_FRP_Na", where: "frp == 1", factor: "0.5", says: "0.5 for FRP bars" },
      ...{ rationale: "made up", derivation: "made up", evidence: "10 tests" },
    }),
  );
});
afterAll(async () => {
  await rm(folder, { recursive: true });
  process.exitCode = 0;
});

const run = (...words: string[]): ReturnType<typeof runCommand> =>
  runCommand(
    [
      registerPredictCommand,
      registerExplainCommand,
      registerSensitivityCommand,
      registerEmbedmentCommand,
      registerProposeCommand,
      registerPlanTestsCommand,
    ],
    words,
  );

const GLASS = ["--where", "bar_material == 'gfrp'"];
const ONE = ["--where", "bar_material == 'gfrp' && peak_load_kN > 32"];

describe("--where", () => {
  it("chooses the rows that are predicted", async () => {
    const ids = async (...words: string[]): Promise<Set<string>> =>
      new Set(
        (
          JSON.parse((await run("predict", folder, "--format", "json", ...words)).out) as {
            test_id: string;
          }[]
        ).map(({ test_id }) => test_id),
      );
    expect((await ids()).size).toBe(10);
    expect([...(await ids(...GLASS))]).toEqual([0, 1, 2, 3, 4].map((k) => `gfrp-${k}`));
    expect((await run("predict", folder, "--where", "peak_load_kN > 99")).code).toBe(1);
  });

  it("names the one test of a command on a test, and says where it is not one", async () => {
    for (const [name, ...more] of [
      ["explain"],
      ["sensitivity"],
      ["embedment", "--mode", "bond"],
    ] as const) {
      const asked = [...more, "--data", folder, "--format", "json"];
      const answer = await run(name, ...asked, ...ONE);
      expect(JSON.parse(answer.out), answer.err).toMatchObject({ test_id: "gfrp-4" });
      expect(await run(name, ...asked, ...GLASS), name).toMatchObject({
        code: 2,
        err: expect.stringMatching(/5 rows .*gfrp-0, gfrp-1, gfrp-2/) as string,
      });
      expect(await run(name, "steel-0", ...asked, ...GLASS)).toMatchObject({ code: 2 });
      expect(await run(name, ...asked)).toMatchObject({
        code: 2,
        err: expect.stringMatching(/test_id.*--where/) as string,
      });
    }
  });

  it("and --option reach a proposal and the plan of tests", async () => {
    const propose = async (...words: string[]) =>
      JSON.parse(
        (
          await run(
            ...["propose", join(folder, "proposal.json"), "--data", folder, "--format", "json"],
            ...words,
          )
        ).out,
      ) as {
        where: string | null;
        proposal: { criterion?: string };
        groups: { by: { bar_material: string }; before: { mean: number } }[];
      };
    const all = await propose();
    const glass = await propose(...GLASS, "--criterion", "reliability");
    expect(new Set(all.groups.map(({ by }) => by.bar_material))).toEqual(
      new Set(["gfrp", "steel"]),
    );
    expect(new Set(glass.groups.map(({ by }) => by.bar_material))).toEqual(new Set(["gfrp"]));
    expect([all.where, glass.where]).toEqual([null, GLASS[1]]);
    expect(glass.proposal.criterion).toBe("reliability");
    expect((await run("propose", join(folder, "proposal.json"), "--option", "no=1")).code).toBe(2);
    const plan = ["plan-tests", "--data", folder, "--modes", "bond", "--materials", "gfrp,steel"];
    const said = await run(...plan, ...GLASS, "--format", "json");
    const rows = JSON.parse(said.out) as {
      material: string;
      n: number;
    }[];
    expect(rows.length).toBeGreaterThan(0);
    expect(rows.map(({ material, n }) => [material, n])).toEqual([
      ["GFRP", 5],
      ["steel", 0],
    ]);
    expect((await run(...plan, "--option", "ductil=1")).err).toContain("did you mean ductile?");
  });
});
