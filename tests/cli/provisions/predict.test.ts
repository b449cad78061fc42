import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { registerPredictCommand } from "../../../kernel-lib/src/cli/provisions/predict";
import { testsCsv } from "../../../kernel-lib/src/dataset";
import { code } from "../../../kernel-lib/src/provisions";
import type { PredictionRow } from "../../../kernel-lib/src/provisions/printing/prediction-rows";
import { squareInch, table } from "../../provisions/specimens";
import { folderOfTests } from "../folder-of-tests";
import { runCommand } from "../run-command";
import { FIVE_SPECIMENS } from "./five-specimens";
import { expectCaution, expectLine, expectSaid } from "../../says";

let folder = "";
let file = "";
folderOfTests(FIVE_SPECIMENS, (made) => {
  folder = made;
  file = join(folder, "tests.csv");
});

const titleOf = (clause: string): string =>
  code("aci318-19").provisions.find(({ id }) => id === `aci318-19/${clause}`)!.title;
const run = (...words: string[]): Promise<{ code: number; out: string; err: string }> =>
  runCommand([registerPredictCommand], words);

const predicted = async (...words: string[]): Promise<PredictionRow[]> =>
  JSON.parse((await run("predict", file, "--format", "json", ...words)).out) as PredictionRow[];

describe("predict", () => {
  it("answers with one record a test and clause", async () => {
    const rows = await predicted("--codes", "aci318-19", "--level", "nominal");
    const of = (test: string, clause: string): PredictionRow | undefined =>
      rows.find((row) => row.test_id === test && row.clause === clause);
    expect(Object.keys(rows[0] ?? {})).toEqual([
      "test_id",
      "code",
      "clause",
      "mode",
      "level",
      "capacity_kN",
      "applies",
      "governs",
      "reasons",
      "rests_on",
    ]);
    // 7,882.5 lb and 4,488.0 lb: the constructed values of the provisions' own tests.
    expect(of("edge", "17.6.5")).toMatchObject({
      code: "aci318-19",
      mode: "bond",
      level: "nominal",
      applies: true,
      governs: true,
      reasons: [],
    });
    expect(of("edge", "17.6.5")?.capacity_kN).toBeCloseTo(35.06, 2);
    expect(of("shear", "17.7.2")?.capacity_kN).toBeCloseTo(4.488 * 4.4482216, 2);
    expect(of("edge", "17.7.2")).toBeUndefined();
    expect(of("no-bond-stress", "17.6.5")).toMatchObject({
      capacity_kN: null,
      applies: false,
      governs: false,
    });
    expect(of("no-bond-stress", "17.6.5")?.reasons.join()).toContain(
      "needs bond_strength_char_MPa",
    );
    expect(of("confined", "17.6.2")?.reasons).toHaveLength(1);
    expectSaid(of("confined", "17.6.2")?.reasons[0], /^setup:/, "confined_tension", /not govern/);
    for (const test of ["edge", "confined", "shear"])
      expect(rows.filter((row) => row.test_id === test && row.governs)).toHaveLength(1);
  });

  it("--trace ends on the capacity, in the edition's unit, clause by clause", async () => {
    for (const { capacity_kN, steps, applies, clause } of await predicted("--trace")) {
      expect(steps?.length, clause).toBeGreaterThan(0);
      const last = steps?.at(-1);
      if (applies)
        expect(((last?.value ?? NaN) * 4.4482216152605) / 1000, clause).toBeCloseTo(
          capacity_kN ?? NaN,
          9,
        );
      expect(Object.keys(last ?? {})).toEqual(["symbol", "value", "unit", "clause"]);
    }
  });

  it("takes several codes, options of each, levels, and both actions when asked", async () => {
    const rows = await predicted(
      "--codes",
      "aci318-19,aci440.1r-15",
      "--option",
      `A_brg=${squareInch(1.5)}`,
      "--option",
      "C_E=0.8",
    );
    expect([...new Set(rows.map(({ code }) => code))]).toEqual(["aci318-19", "aci440.1r-15"]);
    expect(
      rows.find(({ test_id, clause }) => test_id === "head" && clause === "17.6.3.2.2a")?.applies,
    ).toBe(true);
    const design = await predicted("--level", "design");
    const at = (all: PredictionRow[]): number =>
      all.find(({ test_id, clause }) => test_id === "edge" && clause === "17.6.2")?.capacity_kN ??
      NaN;
    expect(at(design) / at(rows)).toBeCloseTo(0.65, 12);
    expect(
      (await predicted("--action", "every")).some(
        ({ test_id, clause }) => test_id === "edge" && clause === "17.7.2",
      ),
    ).toBe(true);
  });

  it("writes CSV and text of the same content, and the caution with the text", async () => {
    const csv = (await run("predict", folder, "--format", "csv")).out.split("\n");
    expect(csv[0]).toBe(
      "test_id,code,clause,mode,level,capacity_kN,applies,governs,reasons,rests_on,load_kN,ratio",
    );
    expect(csv).toHaveLength((await predicted()).length + 1);
    const { code, out } = await run("predict", file, "--trace");
    expect(code).toBe(0);
    expectLine(out, "governs", "aci318-19 17.6.5", "bond", "35.0631 kN");
    expectLine(out, titleOf("17.6.5"), "test edge");
    // After each calculation, and after all.
    expectCaution(out, out.match(/^Capacity: /gm)!.length + 1);
  });

  it("prints one line a test: governing mode, capacity, load, ratio and status", async () => {
    const { out } = await run("predict", file);
    // 35.06 kN of bond, the constructed value above.
    expectLine(out, "edge", "bond", "35.06");
    expectLine(out, "no-bond-stress");
    expectCaution(out, 1);
    expect((await run("predict", file, "--all")).out.length).toBeGreaterThan(2 * out.length);
    const csv = (await run("predict", folder, "--format", "csv")).out.split("\n");
    const [load, ratio] = csv
      .find((line) => line.startsWith("edge,aci318-19,17.6.5"))!
      .split(",")
      .slice(-2)
      .map(Number);
    expect(load! / ratio!).toBeCloseTo(35.06, 2);
  });

  it("--set gives what-if rows without load, and names a column that there is not", async () => {
    const words = ["--where", "test_id == 'edge'", "--set"];
    const at = await run("predict", folder, ...words, "concrete_strength_MPa=20,60");
    expect(at.code).toBe(0);
    expect(at.out.match(/not tested/g)).toHaveLength(2);
    expect(await run("predict", folder, ...words, "concrete_strenght_MPa=20")).toMatchObject({
      code: 2,
      err: expect.stringContaining("concrete_strength_MPa") as string,
    });
  });

  it("exits with 1 where rows could not be read and with 2 for invalid input, naming it and what to use", async () => {
    await writeFile(join(folder, "bad.csv"), testsCsv(table({ peak_load_kN: -1 })));
    expect(await run("predict", join(folder, "bad.csv"))).toMatchObject({
      code: 1,
      err: expect.stringContaining("1 rows rejected") as string,
    });
    for (const [words, says] of [
      [["--codes", "aci318-08"], /--codes "aci318-08".*aci318-19/],
      [["--level", "mean"], /--level "mean".*expected, nominal or design/],
      [["--format", "xml"], /--format "xml".*text, json or csv/],
      [["--option", "ductile"], /--option "ductile".*name=number/],
      [
        ["--option", "ductil=1"],
        /--option "ductil" \(did you mean ductile\?\).*supplementary_reinforcement/,
      ],
      [["--codes", ","], /--codes ",".*aci318-19/],
    ] as const) {
      expect(await run("predict", file, ...words)).toMatchObject({
        code: 2,
        err: expect.stringMatching(says) as string,
        out: "",
      });
    }
    expect(await run("predict", join(folder, "absent.csv"))).toMatchObject({
      code: 2,
      err: expect.stringContaining("does not exist") as string,
    });
  });
});
