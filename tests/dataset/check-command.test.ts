import { cp, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { registerCheckCommand } from "../../kernel-lib/src/cli/dataset/check";
import { registerImportCommand } from "../../kernel-lib/src/cli/dataset/import";
import { registerNewCommand } from "../../kernel-lib/src/cli/dataset/new";
import { runCommand } from "../cli/run-command";
import { expectLine, expectSaid } from "../says";

const datasets = new URL("../../datasets/", import.meta.url).pathname;
let folder = "";
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "commands-"));
});
afterEach(async () => {
  await rm(folder, { recursive: true });
});

const run = (...words: string[]) =>
  runCommand([registerCheckCommand, registerImportCommand, registerNewCommand], words);

describe("check", () => {
  it("finds the committed data sets in order", async () => {
    const { code, out } = await run("check", join(datasets, "published"), join(datasets, "demo"));
    expect(code).toBe(0);
    expectLine(out, /\d rows in \d+ series|usable rows/, "3 studies", /8 .*excluded/);
  });

  it("answers with 1 and the faults as records, and with 2 for invalid input", async () => {
    await cp(join(datasets, "published"), join(folder, "p"), { recursive: true });
    const tests = join(folder, "p", "tests.csv");
    await writeFile(tests, (await readFile(tests, "utf8")).replace(",59.5,", ",-59.5,"));
    const { code, out } = await run("check", join(folder, "p"), "--format", "json");
    expect(code).toBe(1);
    const answer = JSON.parse(out) as {
      rows: number;
      diagnostics: Array<Record<string, unknown>>;
      rejected: Array<Record<string, unknown>>;
    };
    expect(answer.rows).toBe(29);
    expect(answer.diagnostics.find(({ severity }) => severity === "error")).toMatchObject({
      file: "p/tests.csv",
      row: 2,
      column: "peak_load_kN",
      value: "-59.5",
      expected: "a number above 0 in kN",
    });
    expect(answer.rejected[0]).toMatchObject({ row: 2 });
    expect(await run("check", join(folder, "absent"))).toMatchObject({
      code: 2,
      err: expect.stringContaining("does not exist") as string,
    });
    expect(await run("check", join(folder, "p"), "--format", "xml")).toMatchObject({ code: 2 });
  });

  it("warnings are listed and end with 0, with 1 when strict; a page goes to a file and reads nothing from elsewhere", async () => {
    await cp(join(datasets, "published"), join(folder, "p"), { recursive: true });
    const tests = join(folder, "p", "tests.csv");
    await writeFile(tests, (await readFile(tests, "utf8")).replace(",59.5,", ",79.5,"));
    const page = join(folder, "check.html");
    const { code, out } = await run("check", join(folder, "p"), "--report", page);
    expect(code).toBe(0);
    // The other is that these tests suit the mean models only.
    expectLine(out, "2 warnings");
    expectLine(out, /^ +no-capacity \(1\)/);
    expectLine(out, /^ +reported-bond-stress \(1\)/);
    expect((await run("check", join(folder, "p"), "--strict")).code).toBe(1);
    const html = await readFile(page, "utf8");
    expect(html).toContain("<td>reported-bond-stress</td><td>p/tests.csv</td><td>2</td>");
    expect(html).not.toMatch(/<script|https?:/);
  });

  it("shows the rejected rows as typed", async () => {
    await cp(join(datasets, "published"), join(folder, "p"), { recursive: true });
    const tests = join(folder, "p", "tests.csv");
    await writeFile(tests, (await readFile(tests, "utf8")).replace(",59.5,", ",59.5 kN,"));
    const { out } = await run("check", join(folder, "p"), "--codes", "none");
    expect(out).toMatch(
      /\n +p\/tests.csv row 2: peak_load_kN "59.5 kN".*\n +gfrp-ecc-12.7-low-60 \| .* \| 59.5 kN \|/,
    );
  });

  it("lists what changed since another state, row by row, and since a manifest", async () => {
    await cp(join(datasets, "published"), join(folder, "published"), { recursive: true });
    const tests = join(folder, "published", "tests.csv");
    const text = await readFile(tests, "utf8");
    await writeFile(
      join(folder, "manifest.json"),
      (await run("check", join(folder, "published"), "--format", "json")).out,
    );
    expect(
      (await run("check", join(folder, "published"), "--against", join(folder, "manifest.json")))
        .code,
    ).toBe(0);
    const lines = text.trimEnd().split("\n");
    await writeFile(
      tests,
      [lines[0], ...lines.slice(2).reverse()].join("\n").replace(",68.7,", ",68.8,"),
    );
    const { code, out } = await run(
      "check",
      join(folder, "published"),
      "--against",
      join(datasets, "published"),
    );
    expect(code).toBe(1);
    expect(out).toMatch(/removed.*\b1\b.*\n *- gfrp-ecc-12.7-low-60$/m);
    expect(out).toMatch(/changed.*\b1\b.*\n *- gfrp-nc-19.1-low-95 peak_load_kN: 68.7 -> 68.8$/m);
    const manifest = await run(
      "check",
      join(folder, "published"),
      "--against",
      join(folder, "manifest.json"),
    );
    expect(manifest).toMatchObject({
      code: 1,
      out: expect.stringContaining("published/tests.csv has changed") as string,
    });
    // The manifest holds digests of the rows: it names the same rows and columns as the folder
    // does.
    expect(manifest.out).toMatch(/removed.*\b1\b.*\n *- gfrp-ecc-12.7-low-60$/m);
    expect(manifest.out).toMatch(
      /changed.*\b1\b.*\n *- gfrp-nc-19.1-low-95 peak_load_kN: [^\d]+$/m,
    );
    // One from before digests were kept still tells the files, and says what it does not show.
    const { hashes } = JSON.parse(await readFile(join(folder, "manifest.json"), "utf8")) as {
      hashes: Record<string, string>;
    };
    await writeFile(
      join(folder, "old.json"),
      JSON.stringify({
        inputs: Object.fromEntries(
          Object.entries(hashes).map(([file, hash]) => [`datasets/${file}`, hash]),
        ),
      }),
    );
    const older = await run(
      "check",
      join(folder, "published"),
      "--against",
      join(folder, "old.json"),
    );
    expect(older).toMatchObject({
      code: 1,
      out: expect.stringContaining("published/tests.csv has changed") as string,
    });
    expectSaid(older.out, /hashes of files only/, /does not show which rows/);
  });

  it("says what is missing for which provision", async () => {
    await run("new", join(folder, "own"), "--data-only");
    const header = (await readFile(join(folder, "own", "tests.csv"), "utf8")).trim();
    const cells: Record<string, string> = {
      test_id: "1",
      study_id: "own",
      series_id: "a",
      bar_material: "gfrp",
      bar_diameter_mm: "16",
      installation: "post_installed",
      concrete_strength_MPa: "30",
      concrete_strength_basis: "cylinder",
      embedment_mm: "128",
      setup: "unconfined_tension",
      action: "tension",
      peak_load_kN: "60",
      failure_mode: "bond",
      group_ny: "2",
    };
    await writeFile(
      join(folder, "own", "tests.csv"),
      `${header}\n${header
        .split(",")
        .map((name) => cells[name] ?? "")
        .join(",")}\n`,
    );
    const { out } = await run("check", join(folder, "own"));
    const needs = out.split("\n").find((line) => line.includes("aci318-19 17.6.5 needs")) ?? "";
    for (const column of ["spacing_y_mm", "cracked", "bond_strength_char_MPa"])
      expect(needs).toContain(column);
    expectSaid(needs, "blank in 1 of 1 rows", /no capacity/);
    expect((await run("check", join(folder, "own"), "--codes", "none")).out).not.toContain(
      "17.6.5",
    );
    // A code that caps by the bar's strength counts bond alone without one, and a code for steel
    // says that it is.
    const bond = (
      await run("check", join(folder, "own"), "--codes", "csa-s806-12,jsce-1997,fib-mc2010")
    ).out;
    expectLine(bond, "csa-s806-12 9.3.2", "bar_surface", "1 of 1 rows");
    expectLine(bond, "jsce-1997 development", "cover_mm", "blank in 1 of 1 rows");
    expectLine(bond, "fib-mc2010", /no capacity/, "1 tests", /ribbed steel bars/);
    Object.assign(cells, { cover_mm: "80", bar_surface: "sand_coated" });
    await writeFile(
      join(folder, "own", "tests.csv"),
      `${header}\n${header
        .split(",")
        .map((name) => cells[name] ?? "")
        .join(",")}\n`,
    );
    expect(
      (await run("check", join(folder, "own"), "--codes", "csa-s806-12,jsce-1997")).out,
    ).toMatch(
      /strength-read-as-no-cap \(1\)\n +- .*csa-s806-12 9\.3\.2.*jsce-1997 development.*bar_strength_MPa is blank in 1 of 1 rows/,
    );
    // With what was asked for filled in, breakout still wants to know of the edges.
    Object.assign(cells, { spacing_y_mm: "200", cracked: "no" });
    const write = () =>
      writeFile(
        join(folder, "own", "tests.csv"),
        `${header}\n${header
          .split(",")
          .map((name) => cells[name] ?? "")
          .join(",")}\n`,
      );
    await write();
    expectLine(
      (await run("check", join(folder, "own"))).out,
      "aci318-19 17.6.2",
      "en1992-4-2018 7.2.1.4",
      "edge_1_mm",
      "other_edges = far",
    );
    cells["other_edges"] = "far";
    await write();
    expect((await run("check", join(folder, "own"))).out).not.toContain("other_edges = far");
  });
});
