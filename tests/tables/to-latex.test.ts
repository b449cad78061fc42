import { describe, expect, it } from "vitest";
import { latexText } from "../../kernel-lib/src/formula";
import { Table, type TableColumn } from "../../kernel-lib/src/tables";
import { compiledLatex, latexAbsent } from "../exports/compiled-latex";

const text = (key: string): TableColumn => ({ key, title: key, kind: "text" });
const columns: TableColumn[] = [
  text("group"),
  { key: "load", title: "Load", kind: "number", unit: "kN" },
];

describe("LaTeX", () => {
  it("writes booktabs rules, units in the heading and rounded cells", () => {
    const table = new Table({
      id: "loads",
      title: "Loads",
      columns,
      rowKey: ["group"],
      rows: [{ group: "a_1 & b", load: -1.23456e-7 }],
      notes: ["50 %"],
    });
    expect(table.toLatex().split("\n")).toEqual([
      "% needs \\usepackage{booktabs}",
      "\\begin{table}[htbp]",
      "\\centering",
      "\\caption{Loads}",
      "\\label{tab:loads}",
      "\\small",
      "\\setlength{\\tabcolsep}{5pt}",
      "\\begin{tabular}{lr}",
      "  \\toprule",
      "  group & Load (kN) \\\\",
      "  \\midrule",
      "  a\\_\\allowbreak{}1 \\& b & $-$1.23~$\\times$~10$^{-7}$ \\\\",
      "  \\bottomrule",
      "\\end{tabular}",
      "\\par\\smallskip\\noindent\\begin{minipage}{\\linewidth}\\footnotesize\\raggedright",
      "50 \\%\\par",
      "\\end{minipage}",
      "\\end{table}",
      "",
    ]);
  });

  it("lets no command through", () => {
    expect(latexText("\\input{/x}")).toBe("\\textbackslash{}input\\{/x\\}");
    expect(latexText("[2cm] $x^2$%")).toBe("{[}2cm{]} \\$x\\textasciicircum{}2\\$\\%");
    expect(latexText("mm² m³ 10⁻⁶")).toBe("mm$^{2}$ m$^{3}$ 10$^{-6}$");
    expect(latexText("V_δ ≥ β, edge_1_mm")).toBe(
      "$V_{\\mathrm{{\\delta}}}$ $\\ge$ $\\beta$, edge\\_\\allowbreak{}1\\_\\allowbreak{}mm",
    );
  });

  describe.skipIf(latexAbsent)("compiled", () => {
    const word = "characteristic";
    const wide = (n: number): TableColumn[] =>
      Array.from({ length: n }, (_, k) => text(`${word} ${k}`));
    const rowsOf = (
      heads: readonly TableColumn[],
      n: number,
      cell: (r: number, c: number) => string,
    ) =>
      Array.from({ length: n }, (_, r) =>
        Object.fromEntries(heads.map(({ key }, c) => [key, cell(r, c)])),
      );
    const all = "array,booktabs,longtable,pdflscape,rotating";
    const needed = (latex: string): string =>
      /^% needs \\usepackage\{(.*)\}/.exec(latex)?.[1] ?? "";

    it("sets every character that our results hold, and hostile text as it stands", () => {
      const rows = [
        "αβγδεζηθικλμνξπρστφχψω ΓΔΘΛΣΦΨΩ".replace("ι", ""),
        "−×·±√≥≤≠≈∞°→–—…‘’“” ² ³ ⁻¹⁰",
        "\\ { } $ & # % _ ^ ~ < > | [ ] ` \" '",
        "[2cm] row",
        "é ü ß ø ñ",
        "10 Ω·µm",
      ].map((group) => ({ group, load: 1 }));
      const { text: shown } = compiledLatex(
        new Table({
          id: "t",
          title: "5 % of f'c_1 & #2",
          columns,
          rowKey: ["group"],
          rows,
          notes: ["V_δ, ψ_FRP,Na"],
        }).toLatex(),
        all,
      );
      expect(shown).toContain("[2cm] row");
    });
    it.each([
      ["as it is", 2, 5, "table"],
      ["with broken lines", 4, 6, "table"],
      ["on its side", 9, 6, "sidewaystable"],
      ["over several pages", 3, 90, "longtable"],
      ["over several pages on their side", 9, 60, "landscape"],
    ])("keeps a table %s on the page", (_, n, rows, environment) => {
      const heads = wide(n);
      const table = new Table({
        id: "t",
        title: "Wide",
        columns: heads,
        rowKey: [heads[0]!.key],
        rows: rowsOf(heads, rows, (r, c) =>
          c === 0
            ? `row ${r}`
            : `${word} bond_strength_char_MPa ${r} of ${c}`.slice(0, c % 2 ? 14 : 60),
        ),
        notes: ["A note."],
      });
      const latex = table.toLatex();
      expect(latex).toContain(`\\begin{${environment}}`);
      const { overfull, text: shown } = compiledLatex(latex, needed(latex));
      expect(overfull).toEqual([]);
      if (shown !== "" && !["sidewaystable", "landscape"].includes(environment))
        for (const r of [0, rows - 1]) expect(shown).toMatch(new RegExp(`row ${r}\\b`));
    });
  });
});
