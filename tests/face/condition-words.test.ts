import { describe, expect, it } from "vitest";
import { conditionWords } from "../../kernel-lib/src/face/tests/condition-words";
import { readyCondition } from "../../kernel-lib/src/face/tests/condition";
import { TEST_COLUMNS } from "../../kernel-lib/src/dataset";

describe("a condition in an engineer's words", () => {
  it.each([
    ["bar_material", "gfrp", "GFRP bars"],
    ["bar_material", ["gfrp", "bfrp", "steel"], "GFRP, BFRP or steel bars"],
    ["bar_material", { not: "steel" }, "bars other than steel"],
    ["bar_class", "frp", "FRP bars"],
    ["cracked", "no", "uncracked concrete"],
    ["setup", "confined_tension", "confined tension tests"],
    ["installation", ["post_installed", "cast_in"], "post installed or cast in bars"],
    ["test_id", "IH-075-1", "test IH-075-1"],
    ["study_id", "A_b", "study A_b"],
    ["embedment_mm", { from: 100 }, "embedment at least 100 mm"],
    ["embedment_mm", { from: 100, to: 200 }, "embedment 100 to 200 mm"],
    ["concrete_strength_MPa", 30, "concrete strength 30 MPa"],
    ["adhesive", null, "no adhesive stated"],
    ["adhesive", { not: null }, "adhesive stated"],
  ])("%s %j", (column, wanted, words) => {
    expect(conditionWords(column, wanted)).toBe(words);
  });

  it("never prints a column's name with its underscores, whatever the column", () => {
    for (const { name, kind, categories } of TEST_COLUMNS) {
      const wanted = kind === "number" || kind === "integer" ? 3 : (categories?.[0] ?? "word");
      for (const one of [wanted, { not: wanted }, [wanted, wanted]])
        expect(conditionWords(name, one), name).not.toContain("_");
    }
  });

  it("joins the columns of one condition", () => {
    const condition = { action: "shear", bar_class: "frp" };
    expect(readyCondition(condition, ["action", "bar_class"]).words).toBe(
      "tests in shear, FRP bars",
    );
  });
});
