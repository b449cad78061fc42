import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { registerGripsCommand } from "../../../kernel-lib/src/cli/comparison/grips";
import { runCommand } from "../run-command";
import { expectLine, expectSaid } from "../../says";

const demo = new URL("../../../datasets/demo", import.meta.url).pathname;
const run = (...words: string[]): ReturnType<typeof runCommand> =>
  runCommand([registerGripsCommand], ["grips", ...words]);

describe("code-comparison grips", () => {
  it("answers in words with three tables and the findings", async () => {
    const { code, out } = await run(demo);
    expect(code).toBe(0);
    expectLine(out, /margin/i, "grip", "aci318-19");
    expectLine(out, /better grip/i);
    // Tests, breaks in the grip, and series with one.
    expectLine(out, /^wedges on bar GFRP 307 30 5 /);
    for (const grip of ["cast block", "threaded sleeve"]) expectLine(out, grip, "GFRP");
    expectSaid(out, /too few tests/i);
  });
  it("answers as data, the same numbers", async () => {
    const { code, out } = await run(
      demo,
      "--format",
      "json",
      "--mode",
      "concrete_breakout",
      "--by",
      "grip",
    );
    expect(code).toBe(0);
    const answer = JSON.parse(out) as {
      mode: string;
      grips: { by: { grip: string }; tests: number; broke: number; n_lower_bounds: number }[];
      margins: object[];
      better_grip: { tests: object[] };
    };
    expect(answer.mode).toBe("concrete_breakout");
    const wedges = answer.grips.find(({ by }) => by.grip === "wedges_on_bar")!;
    expect(wedges.broke).toBe(34);
    expect(wedges.broke + wedges.n_lower_bounds).toBe(wedges.tests);
    expect(answer.margins).toHaveLength(answer.grips.length);
    // Without a factor for confined tests only the unconfined ones are predicted.
    expect(answer.better_grip.tests).toHaveLength(14);
  });
  it("ends with 1 where no test names its grip, with 2 for what it cannot use", async () => {
    const folder = await mkdtemp(join(tmpdir(), "grips-"));
    try {
      const columns =
        "test_id,study_id,series_id,bar_material,bar_diameter_mm,installation,concrete_strength_MPa,concrete_strength_basis,embedment_mm,setup,action,peak_load_kN,failure_mode";
      await writeFile(
        join(folder, "tests.csv"),
        `${columns}\n1,s,a,gfrp,16,post_installed,30,cylinder,100,unconfined_tension,tension,50,bond\n`,
      );
      const none = await run(folder);
      expect(none.code).toBe(1);
      expectSaid(none.out, /no test names/i, "1 not used", "grip");
    } finally {
      await rm(folder, { recursive: true });
    }
    expect(await run(demo, "--mode", "pryout")).toMatchObject({
      code: 2,
      err: expect.stringMatching(/--mode "pryout".*\bbond\b/) as string,
    });
    expect(await run(demo, "--by", "embedment_mm")).toMatchObject({
      code: 2,
      err: expect.stringMatching(/--by "embedment_mm".*column of words/) as string,
    });
    expect((await run(demo, "--confined-bond", "0")).code).toBe(2);
  });
});
