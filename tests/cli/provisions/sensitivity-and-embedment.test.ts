import { describe, expect, it } from "vitest";
import { registerEmbedmentCommand } from "../../../kernel-lib/src/cli/provisions/embedment";
import { registerSensitivityCommand } from "../../../kernel-lib/src/cli/provisions/sensitivity";
import { inch } from "../../provisions/specimens";
import { folderOfTests } from "../folder-of-tests";
import { runCommand } from "../run-command";
import { expectCaution, expectSaid } from "../../says";

let folder = "";
folderOfTests(
  [
    { test_id: "far", bar_strength_MPa: 1200 },
    { test_id: "edge", edge_1_mm: inch(9) * 1.004 },
  ],
  (made) => (folder = made),
);

const run = (...words: string[]): Promise<{ code: number; out: string; err: string }> =>
  runCommand([registerSensitivityCommand, registerEmbedmentCommand], [...words, "--data", folder]);

describe("sensitivity", () => {
  it("answers as data: elasticities of each capacity, what is near, what does not apply", async () => {
    const { code, out } = await run("sensitivity", "edge", "--format", "json");
    const answer = JSON.parse(out) as {
      governing: { clause: string } | null;
      capacities: {
        clause: string;
        elasticities: { variable: string; elasticity: number; switches: { because: string }[] }[];
      }[];
      withheld: { clause: string; reasons: string[] }[];
    };
    expect(code).toBe(0);
    const breakout = answer.capacities.find(({ clause }) => clause === "17.6.2");
    expect(
      breakout?.elasticities.find(({ variable }) => variable === "concrete_strength_MPa")
        ?.elasticity,
    ).toBe(0.5);
    expect(
      breakout?.elasticities.find(({ variable }) => variable === "edge_1_mm")?.switches[0]?.because,
    ).toContain("psi_ed_N");
    expect(answer.governing?.clause).toBe("17.6.5");
    expect(answer.withheld.every(({ reasons }) => reasons.length > 0)).toBe(true);
  });
  it("prints a table with the switches and the caution in its notes", async () => {
    const { code, out } = await run("sensitivity", "edge");
    expect(code).toBe(0);
    expect(out).toMatch(/bond, .*17\.6\.5.*\(governs\)/s);
    const flat = out.replace(/\s+/g, " ");
    expectSaid(
      flat,
      /17\.6\.2 by edge 1[^;]* 228\.6 mm [^;]*-0\.40 %[^;]*psi_ed_N \(17\.6\.2\.4\.1\);[^;]* 0\.8\b/,
    );
    expectCaution(out);
    expect(Math.max(...out.split("\n").map((line) => [...line].length))).toBeLessThanOrEqual(100);
    expect((await run("sensitivity", "far", "--format", "csv")).out.split("\n")[0]).toContain(
      "aci318-19/17.6.5",
    );
  });
  it("refuses invalid input, naming it and what to use", async () => {
    for (const [words, expected] of [
      [["sensitivity", "none"], /"none" was not found .* such as far, edge/],
      [["sensitivity", "far", "--within", "0"], /--within "0".*a number above 0/],
      [
        ["sensitivity", "far", "--codes", "aci318-19,ccd-1995"],
        /--codes "aci318-19,ccd-1995".*one code/,
      ],
      [
        ["sensitivity", "far", "--format", "xml"],
        /--format "xml".*text, markdown, html, csv or json/,
      ],
    ] as const) {
      const { code, err } = await run(...words);
      expect(code).toBe(2);
      expect(err).toMatch(expected);
    }
    expect((await run("sensitivity", "far", "--level", "expected")).code).toBe(1);
  });
});

describe("embedment", () => {
  it("answers as data and by exit code", async () => {
    const { code, out } = await run(
      "embedment",
      "far",
      "--mode",
      "bond",
      "--above",
      "10",
      "--grip",
      "150",
      "--format",
      "json",
    );
    const answer = JSON.parse(out) as {
      intervals: { from_mm: number; to_mm: number; to_because: string }[];
      answer: string;
    };
    expect(code).toBe(0);
    expect(answer.intervals).toHaveLength(1);
    expect(answer.intervals[0]?.from_mm).toBeLessThan(answer.intervals[0]?.to_mm ?? 0);
    const none = await run("embedment", "far", "--mode", "bond", "--above", "10", "--grip", "20");
    expect(none.code).toBe(1);
    const flat = none.out.replace(/\s+/g, " ");
    expectSaid(flat, /no embedment/i, "31.75 mm to 304.8 mm", "65.93 mm", "11.8 %");
    expectCaution(flat);
  });
  it("takes mean models together at the expected level", async () => {
    const { out } = await run(
      "embedment",
      "far",
      "--mode",
      "concrete_breakout",
      "--codes",
      "ccd-1995,uniform-bond-1998",
      "--level",
      "expected",
      "--option",
      "mean_bond_stress=16",
      "--from",
      "40",
      "--to",
      "300",
    );
    expect(out).toContain("bond (uniform-bond-1998 bond)");
  });
  it("refuses invalid input, naming it and what to use", async () => {
    for (const [words, expected] of [
      [["--mode", "no_such"], /--mode "no_such".*concrete_breakout/],
      [["--mode", "bond", "--above", "x"], /--above "x".*at least 0/],
      [["--mode", "bond", "--from", "9", "--to", "3"], /--from 9 .*--to 3.*range/],
      [["--mode", "bond", "--option", "no=1"], /--option "no".*aci318-19/],
    ] as const) {
      const { code, err } = await run("embedment", "far", ...words);
      expect(code).toBe(2);
      expect(err).toMatch(expected);
    }
  });
});
