import { describe, expect, it } from "vitest";
import { layoutOfTests, type LayoutWord } from "../../../kernel-lib/src/comparison/judging/layout";
import type { TestRowInput } from "../../../kernel-lib/src/dataset";
import { table } from "../../provisions/specimens";

/**
 * Hand-made rows, embedment 100 mm: a cone reaches 150 mm (1.5 times the embedment depth, ACI
 * 318-19 17.6.2.1); in shear the reach is 1.5 times the distance to the loaded edge, here edge 1
 * (17.7.2.1). From memory.
 */
const CASES: readonly (readonly [LayoutWord, string, Partial<TestRowInput>])[] = [
  ["single", "no edge stated", {}],
  ["single near edge", "an edge at 149 mm", { edge_1_mm: 149 }],
  ["single", "an edge at exactly 150 mm", { edge_1_mm: 150 }],
  [
    "single near edge",
    "any of the four edges counts in tension",
    { edge_1_mm: 400, edge_4_mm: 100 },
  ],
  ["group", "two bars", { group_nx: 2 }],
  ["group", "two bars the other way", { group_ny: 2 }],
  ["single", "one bar, stated", { group_nx: 1, group_ny: 1 }],
  ["group near edge", "four bars at an edge", { group_nx: 2, group_ny: 2, edge_2_mm: 90 }],
  [
    "single",
    "shear towards an edge at 80 mm that does not count itself",
    { action: "shear", edge_1_mm: 80 },
  ],
  [
    "single near edge",
    "shear with a side edge within 1.5 x 80 mm",
    { action: "shear", edge_1_mm: 80, edge_2_mm: 119 },
  ],
  [
    "single",
    "shear with a side edge at 1.5 x 80 mm",
    { action: "shear", edge_1_mm: 80, edge_2_mm: 120 },
  ],
  [
    "single near edge",
    "shear without a loaded edge: the reach of a cone",
    { action: "shear", edge_3_mm: 140 },
  ],
  [
    "single",
    "without an embedment no edge is near",
    { embedment_mm: null as unknown as number, edge_1_mm: 10 },
  ],
];

describe("layoutOfTests", () => {
  const rows = CASES.map(([, , row]) => ({ embedment_mm: 100, ...row }));
  const found = layoutOfTests(table(...rows));
  CASES.forEach(([expected, name], i) =>
    it(`${name}: ${expected}`, () => expect(found[i]).toBe(expected)),
  );
  it("of a table without rows is empty", () => expect(layoutOfTests(table())).toEqual([]));
});
