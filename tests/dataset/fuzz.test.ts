import { describe, expect, it } from "vitest";
import { parseCurve, parseDataPackage, parseStudies, parseTests, testsCsv, TestTable } from "../../kernel-lib/src/dataset";
import { generateDemonstration } from "../../kernel-lib/src/demonstration";
import { createRandom } from "../../kernel-lib/src/statistics/random";
import { mutated } from "./mutate";

const seeds = [
  testsCsv(TestTable.fromRows(generateDemonstration(1).tests.slice(0, 6))),
  "test_id;study_id;peak_load_lbf\n;;lbf\na;b;1,5\n",
  'load_kN,free_mm\n1,2\n"3",4\n',
  "study_id,provenance\na,own\n",
  '{"name":"x","resources":[{"name":"tests","path":"tests.csv","schema":{"fields":[{"name":"a"}]}}]}',
].map((text) => new TextEncoder().encode(text));

describe("mutated files", () => {
  it("never crash a reader, never give a row that breaks the contract, never touch a prototype", () => {
    const random = createRandom("fuzz readers");
    for (let k = 0; k < 4000; k += 1) {
      const bytes = mutated(random.choice(seeds), random);
      const reading = parseTests(bytes, "fuzz.csv");
      expect(reading.tests.numbers("peak_load_kN").every((load) => load > 0 && Number.isFinite(load))).toBe(true);
      expect(reading.diagnostics.every(({ message }) => message.length > 5)).toBe(true);
      if (reading.tests.length === 0) expect(reading.diagnostics.some(({ severity }) => severity === "error")).toBe(true);
      parseStudies(bytes, "fuzz.csv");
      parseDataPackage(new TextDecoder().decode(bytes), "fuzz.json");
      const { curve } = parseCurve(bytes, "fuzz.csv");
      if (curve !== null) expect(curve.load_kN.every(Number.isFinite)).toBe(true);
    }
    expect(Object.keys(Object.prototype)).toEqual([]);
  });

  it("a digit changed in a number changes that number or is refused, and nothing else", () => {
    const random = createRandom("fuzz digits");
    const table = TestTable.fromRows(generateDemonstration(1).tests.slice(0, 4));
    const text = testsCsv(table);
    const header = text.split("\n", 1)[0]?.split(",") ?? [];
    for (let k = 0; k < 500; k += 1) {
      const lines = text.trimEnd().split("\n").map((line) => line.split(","));
      const row = 1 + random.integer(lines.length - 1);
      const column = random.integer(header.length);
      const typed = random.choice(["12.5", "-3", "1e3", "x", "1,5", "", "0"]);
      const line = lines[row];
      if (line === undefined) continue;
      line[column] = typed.includes(",") ? `"${typed}"` : typed;
      const reading = parseTests(new TextEncoder().encode(lines.map((cells) => cells.join(",")).join("\n")), "t.csv");
      for (let i = 0; i < reading.tests.length; i += 1) {
        const source = (reading.tests.source(i)?.row ?? 0) - 1;
        const was = table.row(source - 1) as unknown as Record<string, unknown>;
        const now = reading.tests.row(i) as unknown as Record<string, unknown>;
        const different = header.filter((name, at) => name in was && !(source === row && at === column) && was[name] !== now[name]);
        expect(different).toEqual([]);
      }
    }
  });
});
