import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { registerExplainCommand } from "../../../kernel-lib/src/cli/provisions/explain";
import { registerPredictCommand } from "../../../kernel-lib/src/cli/provisions/predict";
import { testsCsv } from "../../../kernel-lib/src/dataset";
import { code } from "../../../kernel-lib/src/provisions";
import type { PredictionRow } from "../../../kernel-lib/src/provisions/printing/prediction-rows";
import { table } from "../../provisions/specimens";
import { folderOfTests } from "../folder-of-tests";
import { runCommand } from "../run-command";
import { FIVE_SPECIMENS } from "./five-specimens";
import { expectCaution, expectLine, expectSaid } from "../../says";

const published = new URL("../../../datasets/published", import.meta.url).pathname;
let folder = "";
let file = "";
folderOfTests(FIVE_SPECIMENS, (made) => {
  folder = made;
  file = join(folder, "tests.csv");
});

const titleOf = (clause: string): string =>
  code("aci318-19").provisions.find(({ id }) => id === `aci318-19/${clause}`)!.title;
const run = (...words: string[]): Promise<{ code: number; out: string; err: string }> =>
  runCommand([registerPredictCommand, registerExplainCommand], words);

describe("explain", () => {
  it("asks which test is meant where two data sets have one of that name", async () => {
    const other = join(folder, "other");
    await mkdir(other);
    await writeFile(join(other, "tests.csv"), testsCsv(table({ test_id: "edge" })));
    const { code, err } = await run("explain", "edge", "--data", folder, other);
    expect(code).toBe(2);
    expect(err).toMatch(/"edge" is already in .*row 2.*--data <folder>/);
    expect((await run("explain", "edge", "--data", folder)).code).toBe(0);
  });
  it("prints all capacities at a glance, the governing one first, and its calculation alone", async () => {
    const { code, out } = await run("explain", "edge", "--data", folder);
    expect(code).toBe(0);
    const [overview = "", ...calculations] = out.split("\n\n\n");
    expectLine(overview, "clause", "(lb)", "(kN)");
    const lines = overview.replace(/\n +/g, " ");
    const [first = ""] = lines.split(/─\n/)[1]?.split("\n") ?? [];
    expectSaid(first, /bond strength/i, "17.6.5", "7882.5", "35.06", "governs");
    expectLine(lines, "17.6.2", "9510.3", "42.30", "1.21 times");
    expectLine(lines, /not apply/, titleOf("17.6.4"), "17.6.4");
    expectLine(lines, /governing/i, "unconfined tension", titleOf("17.6.5"));
    expect(overview).toContain("--all");
    // Beside it only the rules on placing.
    expect(calculations.filter((one) => /^.*: test edge\n/.test(one))).toHaveLength(2);
    expect(calculations.filter((one) => one.startsWith(titleOf("17.6.2")))).toEqual([]);
    expectLine(calculations[0]?.split("\n")[0] ?? "", titleOf("17.6.5"), "test edge");
    expect(Math.max(...out.split("\n").map((line) => [...line].length))).toBeLessThanOrEqual(100);
    expect(out).not.toContain("load towards edge 1");
    // Two printed pages of 60 lines held it before for each capacity.
    expect(out.split("\n").length).toBeLessThan(120);
  });

  it("prints every capacity with --all, inputs once, and the same values in every form", async () => {
    const all = (await run("explain", "edge", "--data", folder, "--all")).out;
    const titles = [...all.matchAll(/^(.*): test edge$/gm)].map(([, title]) => title);
    expect(titles.slice(0, 3)).toEqual(["17.6.5", "17.6.2", "17.6.1.2"].map(titleOf));
    expect(titles).toHaveLength(4);
    expectSaid(titles[3], /spacing/i, /edge distance/i);
    expect(all.match(/^ +h_ef +=/gm)).toHaveLength(1);
    expectCaution(all);
    for (const format of ["markdown", "latex", "html"]) {
      const { out } = await run("explain", "edge", "--data", folder, "--all", "--format", format);
      for (const value of ["7882.5 lb", "9510.33 lb", "1.21 times"])
        expect(out, format).toContain(value);
      expectCaution(out);
    }
  });

  it("prints one clause, a page of HTML and data", async () => {
    const one = await run(
      "explain",
      "edge",
      "--data",
      folder,
      "--clause",
      "17.6.5",
      "--format",
      "markdown",
    );
    expect(one.out.match(/^### /gm)).toHaveLength(1);
    const html = await run("explain", "edge", "--data", folder, "--format", "html");
    expect(html.out).toMatch(/^<!doctype html>[\s\S]*<math[\s\S]*<\/html>$/);
    const json = JSON.parse(
      (await run("explain", "edge", "--data", folder, "--format", "json")).out,
    ) as { provisions: PredictionRow[] };
    expect(json.provisions.find(({ governs }) => governs)?.steps?.at(-1)?.symbol).toBe("N_ag");
  });

  it("prints the development length for a stress when asked, and says which codes state one", async () => {
    await writeFile(
      file,
      testsCsv(
        table({
          test_id: "bar",
          installation: "cast_in",
          setup: "beam_end",
          cover_mm: 38.1 - 7.9375,
        }),
      ),
    );
    const given = [
      "explain",
      "bar",
      "--data",
      folder,
      "--codes",
      "aci440.1r-15",
      "--length-for",
      "550",
    ];
    const { out } = await run(...given);
    expectLine(out, /development length/i, "test bar");
    expectLine(out, /length/i, /\b35\.\d+ in\./, /\b9\d\d\.\d+ mm\b/);
    const json = JSON.parse((await run(...given, "--format", "json")).out) as {
      lengths: { clause: string; length_mm: number; steps: unknown[] }[];
    };
    expect(json.lengths).toEqual([
      expect.objectContaining({ clause: "10.3", applies: true, reasons: [] }),
    ]);
    // C/d 2.4, 550 MPa in 4000 psi: d (79771/63.246 - 340)/16.
    expect(json.lengths[0]?.length_mm).toBeCloseTo(
      (15.875 * (550 / 0.00689475729316836 / Math.sqrt(4000) - 340)) / 16,
      6,
    );
    expect(
      await run(
        "explain",
        "bar",
        "--data",
        folder,
        "--codes",
        "ccd-1995",
        "--level",
        "expected",
        "--option",
        "headed_cast_in=1",
        "--length-for",
        "400",
      ),
    ).toMatchObject({
      code: 2,
      err: expect.stringMatching(/states no development length.*aci318-19/) as string,
    });
    expect(await run(...given.slice(0, -1), "long")).toMatchObject({
      code: 2,
      err: expect.stringMatching(/--length-for "long".*a number above 0/) as string,
    });
  });

  it("works on the published tests", async () => {
    const { code, out } = await run(
      "explain",
      "gfrp-nc-19.1-low-95",
      "--data",
      published,
      "--unknown-strength",
      "as_cylinder",
    );
    expect([0, 1]).toContain(code);
    expect(out).toContain("gfrp-nc-19.1-low-95");
  });

  it("names the nearest to a name that is not known", async () => {
    await writeFile(file, testsCsv(table({ test_id: "AB-006-1" }, { test_id: "AB-116-6" })));
    for (const [words, nearest] of [
      [["AB-6-1"], "AB-006-1"],
      [["ab-006-1"], "AB-006-1"],
      [["AB-006-1", "--codes", "aci318"], "aci318-19"],
      [["AB-006-1", "--codes", "EN1992-4"], "en1992-4-2018"],
      [["AB-006-1", "--clause", "17.6.5.2.1"], "17.6.5"],
      [["AB-006-1", "--level", "nominl"], "nominal"],
      [["AB-006-1", "--option", "ductil=1"], "ductile"],
      [["AB-006-1", "--format", "htm"], "html"],
    ] as const) {
      expect(await run("explain", ...words, "--data", folder), words.join(" ")).toMatchObject({
        code: 2,
        err: expect.stringContaining(`(did you mean ${nearest}?)`) as string,
      });
    }
    // Nothing is offered for what is like nothing.
    expect((await run("explain", "zzzz", "--data", folder)).err).not.toContain("did you mean");
  });

  it("says what a withheld value lacks, by the column it comes from", async () => {
    const said = async (test: string, clause: string): Promise<string> =>
      (await run("explain", test, "--data", folder, "--clause", clause)).out.replace(/\n +/g, " ");
    const [bond, development] = [
      await said("no-bond-stress", "17.6.5"),
      await said("edge", "25.4.2"),
    ];
    expectLine(bond, /no capacity/i, "τ_k", "bond_strength_char_MPa");
    expect(bond).not.toMatch(/no capacity.*τ_uncr/i);
    expectLine(development, /no capacity/i, "25.4.2", /steel bars only/, /cast-in bars/);
  });

  it("answers with 1 where nothing applies, and with 2 for invalid input", async () => {
    expect((await run("explain", "edge", "--data", folder, "--clause", "17.6.3.2.2a")).code).toBe(
      1,
    );
    expect(await run("explain", "absent", "--data", folder)).toMatchObject({
      code: 2,
      err: expect.stringMatching(/"absent" was not found .* such as edge/) as string,
    });
    expect(await run("explain", "edge", "--data", folder, "--codes", "ccd-1995")).toMatchObject({
      code: 2,
      err: expect.stringMatching(/its levels: expected.*--level expected/) as string,
    });
    expect(await run("explain", "edge", "--data", folder, "--clause", "1.2.3")).toMatchObject({
      code: 2,
      err: expect.stringMatching(/--clause "1\.2\.3".* 17\.6\.1\.2/) as string,
    });
    expect(await run("explain", "edge", "--data", folder, "--format", "pdf")).toMatchObject({
      code: 2,
    });
  });
});
