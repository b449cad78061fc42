import { describe, expect, it } from "vitest";
import { Table } from "../../kernel-lib/src/tables";
import { escapeLatex } from "../../kernel-lib/src/tables/to-latex";

describe("LaTeX", () => {
  it("writes booktabs rules, units in the heading and rounded cells", () => {
    const columns = [
      { key: "group", title: "Group", kind: "text" as const },
      { key: "load", title: "Load", kind: "number" as const, unit: "kN" },
    ];
    const table = new Table({ id: "loads", title: "Loads", columns, rowKey: ["group"], rows: [{ group: "a_1 & b", load: -1.23456e-7 }], notes: ["50 %"] });
    expect(table.toLatex().split("\n").slice(2)).toEqual([
      "\\caption{Loads}",
      "\\label{tab:loads}",
      "\\begin{tabular}{lr}",
      "  \\toprule",
      "  Group & Load (kN) \\\\",
      "  \\midrule",
      "  a\\_1 \\& b & $-$1.23 $\\times$ 10$^{-7}$ \\\\",
      "  \\bottomrule",
      "\\end{tabular}",
      "\\par\\footnotesize 50 \\%",
      "\\end{table}",
      "",
    ]);
  });

  it("lets no command through", () => {
    expect(escapeLatex("\\input{/x}")).toBe("\\textbackslash{}input\\{/x\\}");
    expect(escapeLatex("[2cm] $x^2$\n%")).toBe("{[}2cm{]} \\$x\\textasciicircum{}2\\$ \\%");
    expect(escapeLatex("mm² m³ 10⁻⁶")).toBe("mm$^2$ m$^3$ 10$^{-6}$");
  });
});
