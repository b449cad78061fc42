import { describe, expect, it } from "vitest";
import type { TestRowInput } from "../../kernel-lib/src/dataset";
import {
  CODES, code, governingSentence, handCalculationHtml, handCalculationLatex, handCalculationMarkdown, handCalculationText, placingOf, predict, showTrace, trace, traceToJson, writtenNumber, type PredictionSettings, type Trace,
} from "../../kernel-lib/src/provisions";
import { compiledLatex, latexAbsent } from "../exports/compiled-latex";
import { inch, randomRows, table } from "./specimens";

const aci = code("aci318-19");

function traced(id: string, row: Partial<TestRowInput>, settings: PredictionSettings = {}): Trace {
  const provision = aci.provisions.find((candidate) => candidate.id === id);
  if (!provision) throw new Error(id);
  return trace(aci, provision, table(row), 0, settings);
}

describe("hand calculation as text", () => {
  const text = handCalculationText(traced("aci318-19/17.6.2", { edge_1_mm: inch(4) }), { test: "t0", governing: "Governing: bond." });

  it("shows each step as symbol, formula, numbers and value in both units, with clause and meaning", () => {
    expect(text).toMatch(/^Concrete breakout strength in tension: test t0\n=+\nACI 318-19 Chapter 17/);
    expect(text).toMatch(/h_ef +=\s6 in\. \(152\.4 mm\) {3}embedment depth/);
    expect(text).toMatch(/c_2 += ∞ in\. {3}distance to edge 2/);
    expect(text).toMatch(/ψ_ed,N += 1 if c_a,min ≥ 1\.5 × h'_ef, else 0\.7 \+ 0\.3 × c_a,min \/ \(1\.5 × h'_ef\)\n +\s= 0\.7 \+ 0\.3 × 4 \/ \(1\.5 × 6\)\n += 0\.833333 {3}\[17\.6\.2\.4\.1\] edge factor/);
    expect(text).toMatch(/= 9510\.33 lb \(42\.304 kN\) {3}\[17\.6\.2\.1\] nominal breakout strength/);
    expect(text).toContain("Capacity: 9510.33 lb (42.304 kN).");
  });

  it("shows with numbers the case that was taken, and a value once", () => {
    expect(text).toMatch(/f_c,used += min\(f'c; \(8000 if post_installed = 1, else 10000\)\)\n += min\(4000; 8000\)\n/);
    expect(text).toMatch(/k_c += \(min\(product_k_c; 24\) if product_k_c > 0, else 17\) if post_installed = 1,\s+else 24\n += 17 {3}\[17\.6\.2\.2\.1\]/);
    // An input that is missing decides nothing, so both cases stay.
    const undecided = handCalculationText(traced("aci318-19/17.6.2", { cracked: null }));
    expect(undecided).toMatch(/ψ_c,N += 1 if cracked = 1, else .*\n(.*\n)? += 1 if missing = 1, else 1\.4\n/);
    for (const words of [text, undecided]) for (const line of words.split("\n")) expect(line.length, line).toBeLessThanOrEqual(112);
  });

  it("writes symbols in its sentences as in its formulas", () => {
    expect(text.replace(/\n +/g, " ")).toContain("ψ_c,N is then 1");
    expect(text).not.toMatch(/\b(?:psi|lambda)_/);
  });

  it("lists the limits with a verdict, what governs, and the caution", () => {
    expect(text.replace(/\n +/g, " ")).toContain("holds: post_installed = 0 or h_ef ≥ 4 × d_a and h_ef ≤ 20 × d_a (if not: adhesive bars are covered for embedments of 4 to 20 diameters) [17.3.3]");
    expect(text).toContain("Governing: bond.");
    expect(text.replaceAll("\n", " ").endsWith("design follows the local code and a licensed engineer.")).toBe(true);
    const withheld = handCalculationText(traced("aci318-19/17.6.2", { installation: "cast_in" }));
    expect(withheld.replace(/\n +/g, " ")).toContain("does not hold: a straight cast-in bar has no head; option headed_cast_in computes it as if it had (needs post_installed = 1 or headed_cast_in = 1)");
    expect(withheld).toContain("No capacity is stated");
  });

  it("writes a condition as 1 or 0, options in words, and leaves out what only the design value needs", () => {
    expect(text).toMatch(/deep += 1 if deep_breakout = 1 and post_installed = 0 and/);
    expect(text).not.toContain("installation_category");
    expect(handCalculationText(traced("aci318-19/17.6.2", {}, { level: "design" }))).toContain("installation_category");
  });

  it("shows the parts of a group that does not act together, and their sum", () => {
    const group = handCalculationText(traced("aci318-19/17.6.2", { group_ny: 2, spacing_y_mm: inch(20) }));
    expect(group).toContain("Part 2 of 2: row 2 along");
    expect(group).toContain("sum of 2 parts that do not act together: 31603.5 lb");
  });

  it("shows the reduction at design level", () => {
    const design = handCalculationText(traced("aci318-19/17.6.2", { edge_1_mm: inch(4) }, { level: "design" }));
    expect(design).toMatch(/φ × N_cbg\n += 0\.65 × 9510\.33/);
    expect(design).toContain("Design capacity: 6181.71 lb");
  });
});

describe("the other forms", () => {
  const shown = traced("aci318-19/17.6.5", { edge_1_mm: inch(4) });

  it("Markdown tables have the same number of cells in every row", () => {
    for (const block of handCalculationMarkdown(shown).split("\n\n").filter((part) => part.startsWith("|"))) {
      expect(new Set(block.split("\n").map((line) => line.replaceAll("\\|", "").split("|").length)).size).toBe(1);
    }
  });

  it("HTML writes formulas in MathML with their LaTeX source, and shows foreign text as text", async () => {
    const html = await handCalculationHtml(shown, { test: "<script>alert(1)</script>" });
    expect(html).toContain("<math");
    expect(html).toContain("<mfrac>");
    expect(html).toContain('<annotation encoding="application/x-tex">\\psi_{\\mathrm{ed,Na}}</annotation>');
    expect(html).toContain("&lt;script&gt;");
    expect(html).not.toContain("<script>");
  });

  it("LaTeX escapes words, keeps formulas, and puts a dot between numbers", async () => {
    const latex = handCalculationLatex(shown, { test: "100 % & more_" });
    expect(latex).toContain("test 100 \\% \\& more\\_");
    expect(latex).toMatch(/\{\[\}17\.6\.5\.2\.1\{\]\} .*\n.*\n.*= \{\}\$ \$\\displaystyle 1 \\cdot\\allowbreak 1000 \\,\\allowbreak \\pi {2}\\,\\allowbreak 0\.625 \\cdot\\allowbreak 6\$\\par\n.*\\textbf\{11781 lb \(52\.4044 kN\)\}/);
    const { default: temml } = await import("temml");
    for (const [, math = ""] of latex.matchAll(/\$([^$]+)\$/g)) expect(temml.renderToString(math), math).not.toContain("merror");
  });

  it.skipIf(latexAbsent)("LaTeX of every provision compiles, and nothing of it runs out of the page", () => {
    const parts = CODES.flatMap((of) => {
      const tests = table(...randomRows(11, 60).map((row) => ({ ...row, bond_strength_mean_MPa: 12 })));
      const prediction = predict(of, tests, {});
      return prediction.columns.map(({ provision, capacity }) => {
        const applies = capacity.findIndex((one) => Number.isFinite(one));
        return handCalculationLatex(trace(of, provision, tests, Math.max(0, applies)), { test: "t_1 & 100 %", governing: "Governing: ≥ 1." });
      });
    });
    const { overfull, pages } = compiledLatex(parts.join("\n\\clearpage\n"), "amsmath,array,graphicx,longtable");
    expect(overfull).toEqual([]);
    expect(pages).toBeGreaterThanOrEqual(parts.length);
  }, 120_000);

  it("rules on placing are judged for one test, in words and mm", () => {
    expect(placingOf(aci, table({ edge_1_mm: 60 }), 0)[0]).toEqual({ verdict: "not kept", clause: "17.9.2(b)", says: "edge distance of adhesive bars: the product's, else 6 diameters (to be checked against a licensed copy); here 60 mm, at least 95.25 mm" });
    expect(placingOf(code("ccd-1995"), table({}), 0)).toEqual([]);
  });

  it("every formula of every code can be set", async () => {
    const tests = table(...randomRows(77, 3));
    for (const each of CODES) {
      for (const provision of each.provisions) {
        for (let i = 0; i < tests.length; i++) {
          const found = trace(each, provision, tests, i, { level: provision.levels[0] ?? "nominal" });
          const html = await handCalculationHtml(found);
          expect(html, provision.id).not.toMatch(/temml-error|merror|NaN|undefined/);
          expect(handCalculationText(found), provision.id).not.toMatch(/NaN|undefined/);
        }
      }
    }
  });

  it("a notebook is given all three, and data for a machine", async () => {
    const display = (showTrace(shown) as unknown as Record<symbol, () => Promise<Record<string, string>>>)[Symbol.for("code-comparison.display")];
    const bundle = await display?.call(showTrace(shown));
    expect(Object.keys(bundle ?? {}).sort()).toEqual(["text/html", "text/markdown", "text/plain"]);
    const values = traceToJson(shown);
    expect(values.at(-1)).toEqual({ symbol: "N_ag", value: shown.parts[0]?.capacity, unit: "lb", clause: "17.6.5.1" });
    expect(values.find(({ symbol }) => symbol === "c_2")).toMatchObject({ value: null });
  });

  it("names the governing capacity of a row", () => {
    const prediction = predict(aci, table({ edge_1_mm: inch(4) }, { installation: "cast_in", setup: "pullout_block", bar_strength_MPa: null }));
    expect(governingSentence(prediction, 0)).toBe("Governing for this test (unconfined tension): Bond strength of adhesive bars in tension, clause 17.6.5, 7882.5 lb (35.0631 kN).");
    expect(governingSentence(prediction, 1)).toBe("No capacity of aci318-19 applies to this test (pullout block).");
  });

  it.each([[9510.28374, "9510.28"], [0.8333333333, "0.833333"], [24, "24"], [NaN, "missing"], [Infinity, "∞"], [0, "0"], [1.5e-7, "1.5e-7"], [1234567.8, "1234570"], [2e15, "2e15"]])("writes %d as %s", (value, text) => {
    expect(writtenNumber(value)).toBe(text);
  });
});
