import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { checkRecipe, DatasetError, readRecipe } from "../../../kernel-lib/src/dataset";

const here = (path: string): string => new URL(path, import.meta.url).pathname;

describe("faulty recipes", () => {
  it.each([
    ["an unknown key", (r: Record<string, unknown>) => ({ ...r, colour: 1 }), /colour/],
    [
      "a column outside the contract without a meaning",
      (r: Record<string, unknown>) => ({
        ...r,
        columns: { ...(r["columns"] as object), bar_sufrace: { from: "x" } },
      }),
      /bar_surface, or a meaning/,
    ],
    [
      "a unit of the wrong kind",
      (r: Record<string, unknown>) => ({
        ...r,
        columns: { ...(r["columns"] as object), bar_diameter_mm: { from: "d", unit: "psi" } },
      }),
      /does not measure/,
    ],
    [
      "a missing required column",
      (r: Record<string, unknown>) => ({ ...r, columns: { test_id: { constant: "x" } } }),
      /does not fill peak_load_kN/,
    ],
    [
      "two ways at once",
      (r: Record<string, unknown>) => ({
        ...r,
        columns: {
          ...(r["columns"] as object),
          note: { from: "Note", constant: "x", meaning: "m" },
        },
      }),
      /exactly one/,
    ],
    [
      "a column that needs one that is not filled",
      (r: Record<string, unknown>) => ({
        ...r,
        columns: { ...(r["columns"] as object), embedment_mm: { from: "l/d", times: "cover_mm" } },
      }),
      /needs the column "cover_mm"/,
    ],
  ])("%s", async (_what, change, message) => {
    const good = JSON.parse(readFileSync(here("made-up/recipe.json"), "utf8")) as Record<
      string,
      unknown
    >;
    await expect(checkRecipe(good, "r.json")).resolves.toBeDefined();
    await expect(checkRecipe(change(good), "r.json")).rejects.toThrow(message);
    await expect(checkRecipe(change(good), "r.json")).rejects.toBeInstanceOf(DatasetError);
  });

  it("refuses what is no JSON", async () => {
    await expect(readRecipe(here("made-up/table.csv"))).rejects.toThrow(/not valid JSON/);
  });
});
