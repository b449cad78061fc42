import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { registerCheckCommand } from "../../kernel-lib/src/cli/dataset/check";
import { registerImportCommand } from "../../kernel-lib/src/cli/dataset/import";
import { registerNewCommand } from "../../kernel-lib/src/cli/dataset/new";
import { TEST_COLUMNS } from "../../kernel-lib/src/dataset";
import { runCommand } from "../cli/run-command";

const madeUp = new URL("recipe/made-up/", import.meta.url).pathname;
let folder = "";
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "commands-"));
});
afterEach(async () => {
  await rm(folder, { recursive: true });
});

const run = (...words: string[]) =>
  runCommand([registerCheckCommand, registerImportCommand, registerNewCommand], words);

describe("new", () => {
  it("lays down a data set that only lacks its rows, and never overwrites", async () => {
    const target = join(folder, "my-campaign");
    expect((await run("new", target, "--data-only")).code).toBe(0);
    const { code, out } = await run("check", target, "--format", "json");
    expect(code).toBe(1);
    expect(
      (JSON.parse(out) as { diagnostics: Array<{ rule: string }> }).diagnostics.map(
        ({ rule }) => rule,
      ),
    ).toEqual(["no-rows"]);
    const card = await readFile(join(target, "README.md"), "utf8");
    expect(card).toContain("| `peak_load_kN` | a number above 0 in kN | yes |");
    // What a newcomer stumbles over stands on the card: edges, the strength's specimen, loads that
    // were not read, the smallest row.
    for (const word of [
      "write `far` into `other_edges`",
      "`cylinder_assumed`",
      "`peak_bar_stress_MPa`",
      "a lower bound",
    ])
      expect(card).toContain(word);
    for (const { name } of TEST_COLUMNS.filter(({ required }) => required))
      expect(card).toContain(`- \`${name}\`: `);
    expect(await run("new", target, "--data-only")).toMatchObject({
      code: 2,
      err: expect.stringContaining("nothing was written") as string,
    });
  });
});

describe("import", () => {
  it("writes the data set, lists rejected rows, and leaves the old one when the source cannot be used", async () => {
    const words = [
      "import",
      join(madeUp, "recipe.json"),
      join(madeUp, "table.csv"),
      "--folder",
      folder,
    ];
    const { code, out } = await run(...words);
    expect(code).toBe(1);
    expect(out).toContain("5 of 8 rows imported, 3 studies, 3 rejected");
    const before = await readFile(join(folder, "made-up", "tests.csv"), "utf8");
    await writeFile(join(folder, "bad.csv"), "a,b\n1,2\n3,4\n");
    expect(
      (
        await run(
          "import",
          join(madeUp, "recipe.json"),
          join(folder, "bad.csv"),
          "--folder",
          folder,
        )
      ).code,
    ).toBe(1);
    expect(await readFile(join(folder, "made-up", "tests.csv"), "utf8")).toBe(before);
    expect((await run("import", join(madeUp, "table.csv"), join(madeUp, "table.csv"))).code).toBe(
      2,
    );
    expect(
      await run(
        "import",
        join(madeUp, "recipe.json"),
        join(madeUp, "table.csv"),
        "--folder",
        folder,
        "--assume",
        "luck",
      ),
    ).toMatchObject({
      code: 2,
      err: expect.stringMatching(/--assume "luck".* all or none .*made-up/) as string,
    });
    expect(
      (await run("import", join(madeUp, "recipe.json"), join(folder, "absent.csv"))).code,
    ).toBe(2);
  });
});
