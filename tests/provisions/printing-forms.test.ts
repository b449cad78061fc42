import { describe, expect, it } from "vitest";
import {
  calculation,
  CODES,
  code,
  governingSentence,
  handCalculationHtml,
  handCalculationNotebookHtml,
  handCalculationLatex,
  handCalculationMarkdown,
  handCalculationText,
  placingOf,
  predict,
  showTrace,
  trace,
  traceToJson,
  writtenNumber,
} from "../../kernel-lib/src/provisions";
import { compiledLatex, latexAbsent } from "../exports/compiled-latex";
import { inch, randomRows, table } from "./specimens";
import { expectSaid } from "../says";
import { traced } from "./traced";

const aci = code("aci318-19");

describe("the other forms", () => {
  it("hold the same inputs, steps, limits and defaults as the text", async () => {
    const found = traced("aci318-19/17.6.5", { edge_1_mm: inch(4) });
    const forms = {
      text: handCalculationText(found),
      markdown: handCalculationMarkdown(found),
      latex: handCalculationLatex(found),
      html: await handCalculationHtml(found),
    };
    const [part] = calculation(found).parts;
    const plain = (form: string): string =>
      form
        .replace(/<annotation[\s\S]*?<\/annotation>|<[^>]*>/g, "")
        .replaceAll("{[}", "[")
        .replaceAll("{]}", "]")
        .replace(/[\\{}$_]/g, "")
        .replace(/\s+/g, " ");
    for (const [name, form] of Object.entries(forms)) {
      for (const line of [...(part?.inputs ?? []), ...(part?.steps ?? [])])
        expect(plain(form), `${name} ${line.symbol}`).toContain(
          line.value === "∞ in." ? "" : plain(line.value.split(" ")[0] ?? ""),
        );
      for (const { clause } of part?.steps ?? []) expect(plain(form), name).toContain(clause);
      expect(plain(form), name).toContain("Options at their defaults: ");
      expect(plain(form), name).not.toMatch(/table bond stress|seismic/);
    }
  });

  const shown = traced("aci318-19/17.6.5", { edge_1_mm: inch(4) });

  it("Markdown tables have the same number of cells in every row", () => {
    for (const block of handCalculationMarkdown(shown)
      .split("\n\n")
      .filter((part) => part.startsWith("|"))) {
      expect(
        new Set(block.split("\n").map((line) => line.replaceAll("\\|", "").split("|").length)).size,
      ).toBe(1);
    }
  });

  it("HTML writes formulas in MathML without their source beside them, and shows foreign text as text", async () => {
    const html = await handCalculationHtml(shown, { test: "<script>alert(1)</script>" });
    expect(html).toContain("<math");
    expect(html).toContain("<mfrac>");
    // A page that strips MathML would show an annotation as text.
    expect(html).not.toContain("annotation");
    expect(html).toContain("&lt;script&gt;");
    expect(html).not.toContain("<script>");
  });

  it("HTML for a notebook holds no markup that a page strips, and its lines are those of the text", () => {
    const html = handCalculationNotebookHtml(shown, { test: "<script>alert(1)</script>" });
    expect(html).not.toMatch(/<(?:math|script|svg|style)\b/);
    // Tags of raised and lowered text gone, and powers and subscripts written, it is the text.
    const read = html
      .replace(/<sub>(.*?)<\/sub>/g, "_$1")
      .replace(/<sup>(.*?)<\/sup>/g, "^$1")
      .replace(/<[^>]*>/g, "")
      .replaceAll("&lt;", "<")
      .replaceAll("&gt;", ">");
    const [part] = calculation(shown).parts;
    expect(part?.steps.length).toBeGreaterThan(5);
    for (const { formula, substituted } of part?.steps ?? [])
      for (const line of [formula, substituted].filter((text) => text !== ""))
        expect(read).toContain(`= ${line.replaceAll("f'c", "f'_c")}`);
  });

  it("LaTeX escapes words, keeps formulas, and puts a dot between numbers", async () => {
    const latex = handCalculationLatex(shown, { test: "100 % & more_" });
    expect(latex).toContain("test 100 \\% \\& more\\_");
    expect(latex).toMatch(
      /\{\[\}17\.6\.5\.2\.1\{\]\} .*\n.*\n.*= \{\}\$ \$\\displaystyle 1 \\cdot\\allowbreak 1000 \\,\\allowbreak \\pi {2}\\,\\allowbreak 0\.625 \\cdot\\allowbreak 6\$\\par\n.*\\textbf\{11781 lb \(52\.4044 kN\)\}/,
    );
    const { default: temml } = await import("temml");
    for (const [, math = ""] of latex.matchAll(/\$([^$]+)\$/g))
      expect(temml.renderToString(math), math).not.toContain("merror");
  });

  it.skipIf(latexAbsent)(
    "LaTeX of every provision compiles, and nothing of it runs out of the page",
    () => {
      const parts = CODES.flatMap((of) => {
        const tests = table(
          ...randomRows(11, 60).map((row) => ({ ...row, bond_strength_mean_MPa: 12 })),
        );
        const prediction = predict(of, tests, {});
        return prediction.columns.map(({ provision, capacity }) => {
          const applies = capacity.findIndex((one) => Number.isFinite(one));
          return handCalculationLatex(trace(of, provision, tests, Math.max(0, applies)), {
            test: "t_1 & 100 %",
            governing: "Governing: ≥ 1.",
          });
        });
      });
      const { overfull, pages } = compiledLatex(
        parts.join("\n\\clearpage\n"),
        "amsmath,array,graphicx,longtable",
      );
      expect(overfull).toEqual([]);
      expect(pages).toBeGreaterThanOrEqual(parts.length);
    },
    120_000,
  );

  it("rules on placing are judged for one test, in words and mm", () => {
    const [rule] = placingOf(aci, table({ edge_1_mm: 60 }), 0);
    expect(rule).toMatchObject({ verdict: "not kept", clause: "17.9.2(b)" });
    expectSaid(rule?.says, "edge distance", "6 diameters", /checked .*licensed copy/);
    expectSaid(rule?.says, "60 mm", /at least 95\.25 mm/);
    expect(placingOf(code("ccd-1995"), table({}), 0)).toEqual([]);
  });

  it("every formula of every code can be set", async () => {
    const tests = table(...randomRows(77, 3));
    for (const each of CODES) {
      for (const provision of each.provisions) {
        for (let i = 0; i < tests.length; i++) {
          const found = trace(each, provision, tests, i, {
            level: provision.levels[0] ?? "nominal",
          });
          const html = await handCalculationHtml(found);
          expect(html, provision.id).not.toMatch(/temml-error|merror|NaN|undefined/);
          expect(handCalculationText(found), provision.id).not.toMatch(/NaN|undefined/);
        }
      }
    }
  });

  it("a notebook is given all three, and data for a machine", async () => {
    const display = (
      showTrace(shown) as unknown as Record<symbol, () => Promise<Record<string, string>>>
    )[Symbol.for("code-comparison.display")];
    const bundle = await display?.call(showTrace(shown));
    expect(Object.keys(bundle ?? {}).sort()).toEqual(["text/html", "text/markdown", "text/plain"]);
    const values = traceToJson(shown);
    expect(values.at(-1)).toEqual({
      symbol: "N_ag",
      value: shown.parts[0]?.capacity,
      unit: "lb",
      clause: "17.6.5.1",
    });
    expect(values.find(({ symbol }) => symbol === "c_2")).toMatchObject({ value: null });
  });

  it("names the governing capacity of a row", () => {
    const prediction = predict(
      aci,
      table(
        { edge_1_mm: inch(4) },
        { installation: "cast_in", setup: "pullout_block", bar_strength_MPa: null },
      ),
    );
    expectSaid(
      governingSentence(prediction, 0),
      /governing/i,
      "unconfined tension",
      /bond strength/i,
    );
    expectSaid(governingSentence(prediction, 0), "17.6.5", "7882.5 lb (35.0631 kN)");
    expectSaid(governingSentence(prediction, 1), /no capacity/i, "aci318-19", "pullout block");
  });

  it.each([
    [9510.28374, "9510.28"],
    [0.8333333333, "0.833333"],
    [24, "24"],
    [NaN, "missing"],
    [Infinity, "∞"],
    [0, "0"],
    [1.5e-7, "1.5e-7"],
    [1234567.8, "1234570"],
    [2e15, "2e15"],
  ])("writes %d as %s", (value, text) => {
    expect(writtenNumber(value)).toBe(text);
  });
});
