import { describe, expect, it } from "vitest";
import { parseRowCondition, type RowCell } from "../../kernel-lib/src/formula";

const row: Record<string, RowCell> = {
  embedment_mm: 120,
  bar_diameter_mm: 16,
  edge_1_mm: null,
  bar_material: "gfrp",
  "extra.batch": "B2",
};
const holds = (text: string): boolean =>
  parseRowCondition(text).holds((column) => row[column] ?? null);

describe("a condition on a row", () => {
  it.each([
    ["embedment_mm >= 120", true],
    ["embedment_mm > 120", false],
    ["embedment_mm / bar_diameter_mm < 8", true],
    ["bar_material == 'gfrp' && embedment_mm < 100", false],
    ["bar_material == 'steel' || embedment_mm - 20 == 100", true],
    ["bar_material != 'steel'", true],
    ['extra.batch == "B2"', true],
    ["!(extra.batch == 'B1')", true],
    ["-embedment_mm < -100", true],
    // and binds tighter than or; brackets change it
    ["bar_material == 'gfrp' || embedment_mm > 1 && embedment_mm > 500", true],
    ["(bar_material == 'gfrp' || embedment_mm > 1) && embedment_mm > 500", false],
    // A blank has no order and no sum, and is not another value.
    ["edge_1_mm < 100", false],
    ["edge_1_mm >= 100", false],
    ["edge_1_mm + 1 > 0", false],
    ["edge_1_mm == blank", true],
    ["embedment_mm != blank", true],
    ["edge_1_mm != 100", true],
  ])("%s: %s", (text, expected) => {
    expect(holds(text)).toBe(expected);
  });

  it("names its columns, and what they are compared with", () => {
    const { columns, compared } = parseRowCondition(
      "100 <= embedment_mm && bar_material == 'gfrp'",
    );
    expect(columns).toEqual(["embedment_mm", "bar_material"]);
    expect(compared).toEqual([
      { column: "embedment_mm", value: 100 },
      { column: "bar_material", value: "gfrp" },
    ]);
  });

  it.each([
    ["process.exit(1)", "part of kind CallExpression"],
    ["constructor['constructor'] == 1", "part of kind MemberExpression"],
    ["this == 1", "part of kind ThisExpression"],
    ["embedment_mm", "as a whole is no comparison"],
    ["embedment_mm + 1", "is no comparison"],
    ["embedment_mm > 1 && bar_diameter_mm", "beside && is no comparison"],
    ["embedment_mm = 1", "cannot be read"],
    ["embedment_mm > 1 embedment_mm < 2", "part of kind Compound"],
    ["embedment_mm ^ 2 > 4", 'the operator "^"'],
    ["a ? b : c", "part of kind ConditionalExpression"],
    ["true", "holds true"],
    ["", "part of kind Compound"],
  ])("refuses %s", (text, why) => {
    expect(() => parseRowCondition(text)).toThrow(why);
    expect(() => parseRowCondition(text)).toThrow("embedment_mm >= 100");
  });

  it("does not order words", () => {
    expect(() => holds("bar_material > 3")).toThrow('"gfrp" is no number');
  });
});
