import { describe, expect, it } from "vitest";
import { registerDesignCompareCommand } from "../../../kernel-lib/src/cli/provisions/design-compare";
import { runCommand } from "../run-command";
import { expectCaution } from "../../says";

const run = (...words: string[]): Promise<{ code: number; out: string; err: string }> =>
  runCommand([registerDesignCompareCommand], ["design-compare", "--bond", "7", ...words]);

interface Answer {
  at_mm: number;
  ratio: number;
  factors: { id: string; factor: number }[];
  crossings_mm: { design: number[] };
  load_kN: number;
  codes: {
    code: string;
    carries_load_mm: number | null;
    points: { design_kN: number | null }[];
    not_calculated: string[];
  }[];
}

describe("design-compare", () => {
  it("answers with the ratio, factors that multiply to it, crossings and embedments", async () => {
    const { code, out } = await run(
      "--at",
      "160",
      "--size",
      "15.9",
      "--load",
      "40",
      "--points",
      "5",
      "--format",
      "json",
    );
    const answer = JSON.parse(out) as Answer;
    expect(code).toBe(0);
    // design_factors.py beside the tests of the comparison: exterior glass, C_E 0.7.
    expect(answer.ratio).toBeCloseTo(1.00567296054886, 12);
    expect(answer.factors.reduce((all, { factor }) => all * factor, 1)).toBeCloseTo(
      answer.ratio,
      12,
    );
    expect(answer.crossings_mm.design).toEqual([expect.closeTo(321.6394, 3)]);
    expect(answer.codes.map(({ carries_load_mm }) => carries_load_mm)).toEqual([
      expect.closeTo(207.709, 3),
      expect.closeTo(206.537, 3),
    ]);
    expect(answer.codes.map(({ points }) => points.length)).toEqual([5, 5]);
  });

  it("says the same in every form", async () => {
    for (const format of ["text", "markdown", "html", "csv"]) {
      const { code, out } = await run("--format", format, "--points", "4");
      expect(code).toBe(0);
      expect(out.replace(/\s+/g, " "), format).toMatch(/strength reduction[\s\S]*1\.3[89]/);
      expect(out, format).toMatch(/bar rupture \(6\.2\)/);
    }
    const text = (await run("--points", "4")).out;
    expect(Math.max(...text.split("\n").map((line) => [...line].length))).toBeLessThanOrEqual(100);
    expectCaution(text);
  });

  it("takes other codes, exposures and reductions", async () => {
    const ratio = async (...words: string[]): Promise<number> =>
      (JSON.parse((await run("--format", "json", "--points", "3", ...words)).out) as Answer).ratio;
    expect((await ratio("--bond-reduction", "0.55")) / (await ratio())).toBeCloseTo(0.55, 12);
    expect(
      (await ratio("--at", "450", "--exposure", "interior")) / (await ratio("--at", "450")),
    ).toBeCloseTo(0.8 / 0.7, 12);
    expect(
      (await ratio("--at", "450", "--option", "C_E=1")) / (await ratio("--at", "450")),
    ).toBeGreaterThan(1.1);
    const european = JSON.parse(
      (await run("--codes", "en1992-4-2018,csa-s806-12", "--format", "json")).out,
    ) as Answer;
    expect(european.codes[0]?.not_calculated.join()).toContain("gamma_Ms_frp");
  });

  it("refuses what it cannot use, naming the option and what to use", async () => {
    for (const [words, says] of [
      [["--size", "M17"], /--size "M17".*a diameter in mm or /],
      [["--codes", "aci318-19"], /--codes "aci318-19".*two codes/],
      [["--edge", "5"], /--edge "5".*cover/],
      [["--from", "300", "--to", "200"], /--from 300 .*--to 200.*range/],
      [["--bar", "steel"], /gives no design capacity/],
      [["--points", "1"], /--points "1".*from 2 to 500/],
      [["--exposure", "wet"], /--exposure "wet".*interior or exterior/],
      [["--option", "C_F=1"], /--option "C_F".*\bC_E\b/],
    ] as const)
      expect(await run(...words), words.join(" ")).toMatchObject({
        code: 2,
        err: expect.stringMatching(says) as string,
        out: "",
      });
  });
});
