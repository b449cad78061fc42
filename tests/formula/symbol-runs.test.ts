import { describe, expect, it } from "vitest";
import { symbolRuns, symbolText } from "../../kernel-lib/src/formula";
import { CODES } from "../../kernel-lib/src/provisions";

const written = (text: string): string =>
  symbolRuns(text)
    .map(({ text: piece, script }) =>
      script === "sub" ? `[${piece}]` : script === "symbol" ? `/${piece}/` : piece,
    )
    .join("");

describe("symbols in running text", () => {
  it("get their subscripts, whatever stands around them", () => {
    expect(written("The factor ψ_FRP,Na shall be 0.75, and N_ag, h'_ef (V_b) too.")).toBe(
      "The factor /ψ/[FRP,Na] shall be 0.75, and /N/[ag], /h'/[ef] (/V/[b]) too.",
    );
  });
  it("are told from the names of columns, options and files", () => {
    for (const name of [
      "test_id",
      "bar_strength_MPa",
      "edge_1_mm",
      "x_1_mm",
      "a__b",
      "packet_docx",
    ])
      expect(written(name)).toBe(name);
  });
  it("lose nothing but the underscore", () => {
    for (const code of CODES) {
      for (const { steps } of code.provisions) {
        for (const { symbol } of steps) {
          const text = symbolText(symbol);
          const runs = symbolRuns(`so ${text}, then`);
          const underscores = runs.filter(({ script }) => script === "sub").length;
          expect(runs.map(({ text: piece }) => piece).join("").length).toBe(
            text.length + 9 - underscores,
          );
        }
      }
    }
  });
});
