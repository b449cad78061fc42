import { describe, expect, it } from "vitest";
import { shareText } from "../../kernel-lib/src/statistics";
import { Table } from "../../kernel-lib/src/tables";
import { roundedText } from "../../kernel-lib/src/tables/rounding";
import { seeded } from "../figures/gallery/draws";

const numberIn = (text: string): number => Number(text.replace("−", "-"));

describe("rounding to significant digits", () => {
  it.each([
    // By the rule of significant digits, worked by hand.
    [1.23456, 3, "1.23"],
    [0.012345, 2, "0.012"],
    [1234.5, 3, "1230"],
    [-0.98765, 3, "−0.988"],
    [100, 3, "100"],
    [1, 3, "1.00"],
    [0, 3, "0"],
    [1.5e-7, 2, "1.5 × 10⁻⁷"],
    [2.5e12, 2, "2.5 × 10¹²"],
  ])("writes %d at %d digits as %s", (value, digits, text) => {
    expect(roundedText(value, digits)).toBe(text);
  });

  it("keeps a ratio on its own side of 1", () => {
    expect(roundedText(0.9996, 3, 1)).toBe("0.9996");
    expect(roundedText(1.0004, 3, 1)).toBe("1.0004");
    expect(roundedText(1, 3, 1)).toBe("1.00");
    expect(roundedText(0.994, 3, 1)).toBe("0.994");
  });

  it("never moves a number onto or across its limit, whatever the number", () => {
    const draw = seeded(5);
    for (let i = 0; i < 5000; i += 1) {
      const value = 1 + (draw() - 0.5) * 10 ** -Math.floor(draw() * 14);
      const digits = 1 + Math.floor(draw() * 5);
      expect(Math.sign(numberIn(roundedText(value, digits, 1)) - 1), `${value} at ${digits}`).toBe(
        Math.sign(value - 1),
      );
    }
  });

  it("stays within half a unit of the last digit asked for", () => {
    const draw = seeded(9);
    for (let i = 0; i < 2000; i += 1) {
      const value = (draw() - 0.5) * 10 ** Math.floor(draw() * 9 - 3);
      if (Math.abs(value) < 1e-4) continue;
      const unit = 10 ** (Math.floor(Math.log10(Math.abs(value))) - 2);
      expect(Math.abs(numberIn(roundedText(value, 3)) - value)).toBeLessThanOrEqual(
        0.5 * unit * (1 + 1e-9),
      );
    }
  });

  it("refuses what is no number", () => {
    expect(() => roundedText(NaN, 3)).toThrow("Cannot round NaN. Expected a finite number.");
    expect(() => roundedText(1, 0)).toThrow("Expected a whole number from 1 to 17");
  });
});

describe("a share", () => {
  it("has two decimals wherever it is shown, and is never rounded to 0 or 1", () => {
    expect(
      [0.8461, 0.0059, 0.005, 0.0012, 0, 0.997, 1, NaN].map((share) => shareText(share)),
    ).toEqual([
      "0.85",
      "0.01",
      "0.01",
      "below 0.01",
      "below 0.01",
      "above 0.99",
      "1.00",
      "not known",
    ]);
    const table = new Table({
      id: "t",
      title: "T",
      rowKey: ["a"],
      columns: [
        { key: "a", title: "A", kind: "text" },
        { key: "icc", title: "ICC", kind: "number", decimals: 2 },
      ],
      rows: [
        { a: "x", icc: 0.00123 },
        { a: "y", icc: 0.5 },
        { a: "z", icc: null },
      ],
    });
    expect(table.toMarkdown()).toMatch(/\| x \| below 0\.01 \|\n\| y \| 0\.50 \|\n\| z \| – \|/);
    expect(table.toCsv()).toContain("x,0.00123");
  });
});
