import { describe, expect, it } from "vitest";
import { compareSeries, type SeriesComparison } from "../../kernel-lib/src/comparison";
import { TestTable } from "../../kernel-lib/src/dataset";
import {
  createRandom,
  gamesHowellComparison,
  minimumDetectableDifference,
  powerOfTTest,
} from "../../kernel-lib/src/statistics";
import { table } from "../provisions/specimens";
import { expectSaid } from "../says";

const loads: Record<
  string,
  { size: string; material: "steel" | "gfrp" | "bfrp"; values: readonly number[] }
> = {
  a: { size: "10", material: "steel", values: [41.2, 44.8, 39.5, 47.1, 43.3] },
  b: { size: "10", material: "gfrp", values: [36.1, 38.4, 35.2, 40.9] },
  g: { size: "10", material: "bfrp", values: [38.8, 44.1, 51.7] },
  c: { size: "16", material: "steel", values: [60.1, 66.4, 58.2, 63.9, 61, 70.2] },
  d: { size: "16", material: "gfrp", values: [55.8, 57.9, 61.2, 52.4] },
  e: { size: "20", material: "steel", values: [80.3, 77.1, 90.4] },
  f: { size: "20", material: "gfrp", values: [82, 75.5, 88.8, 79.4, 84.1] },
};
const rows = Object.values(loads).flatMap(({ size, material, values }) =>
  values.map((peak_load_kN) => ({ bar_size: size, bar_material: material, peak_load_kN })),
);
const question = { column: "bar_material", reference: "steel", within: ["bar_size"] } as const;
const lines = compareSeries(table(...rows), question);
const line = (
  size: string,
  other: string,
  of: readonly SeriesComparison[] = lines,
): SeriesComparison => of.find((one) => one.within["bar_size"] === size && one.other === other)!;

describe("direct comparisons against R", () => {
  // R: t.test(other, steel)$p.value and mean(other)/mean(steel) for each pair; p.adjust(p, "holm")
  it.each([
    ["10", "gfrp", 0.0202212765001, 0.0808851060003, 0.871931449745],
    ["10", "bfrp", 0.704804293501, 1, 1.03906129381],
    ["16", "gfrp", 0.0391395931754, 0.117418779526, 0.897709320695],
    ["20", "gfrp", 0.897192268519, 1, 0.992251815981],
  ] as const)("size %s, %s", (size, other, p, adjusted, ratio) => {
    const one = line(size, other);
    expect(one.p).toBeCloseTo(p, 10);
    expect(one.pAdjusted).toBeCloseTo(adjusted, 10);
    expect(one.ratio).toBeCloseTo(ratio, 10);
    expectSaid(one.reading, "adjusted for 4 comparisons", /^no significant difference/i);
    expectSaid(one.reading, "mean peak load", /\bnot show .*steel and .*equal/);
  });

  it("a pair alone is its own family: the p of R and no word of adjustment", () => {
    const [alone] = compareSeries(table(...rows.filter((row) => row.bar_size === "16")), question);
    expect(alone!.pAdjusted).toBe(alone!.p);
    expectSaid(alone!.reading, "10 % lower", "steel", "p = 0.039");
    expect(alone!.reading).not.toContain("adjusted");
  });

  it("three materials of a size taken two at a time are more cautious by Games-Howell than by Welch alone", () => {
    const result = gamesHowellComparison({
      steel: loads["a"]!.values,
      gfrp: loads["b"]!.values,
      bfrp: loads["g"]!.values,
    });
    if (result.status !== "ok") throw new Error(result.reading);
    // R: t as for Welch; ptukey(abs(t) * sqrt(2), 3, nu, lower.tail = FALSE) with t and nu of
    // t.test(b, a)
    expect(result.pairs[0]!.p).toBeGreaterThan(line("10", "gfrp").p!);
    expect(result.pairs[0]!.p).toBeLessThan(3 * line("10", "gfrp").p!);
  });

  it("says what could have been found, by Welch's test with the scatter of each group", () => {
    const one = line("16", "gfrp");
    const sd = (v: readonly number[]): number => {
      const m = v.reduce((a, b) => a + b) / v.length;
      return Math.sqrt(v.reduce((s, x) => s + (x - m) ** 2, 0) / (v.length - 1));
    };
    const design = { nA: 6, nB: 4, sdA: sd(loads["c"]!.values), sdB: sd(loads["d"]!.values) };
    expect(one.detectable! * one.meanReference).toBeCloseTo(minimumDetectableDifference(design), 8);
    expect(one.powerForMargin).toBeCloseTo(
      powerOfTTest({ ...design, difference: 0.15 * one.meanReference }),
      10,
    );
    expect(
      powerOfTTest({ ...design, difference: one.detectable! * one.meanReference }),
    ).toBeCloseTo(0.8, 8);
  });

  it("calls means the same only by two one-sided tests within the margin", () => {
    const wide = line("20", "gfrp", compareSeries(table(...rows), { ...question, margin: 0.5 }));
    const narrow = line("20", "gfrp", compareSeries(table(...rows), { ...question, margin: 0.01 }));
    expect(wide.pEquivalence).toBeLessThan(0.05);
    expect(wide.equivalenceReading).toContain("0.5 to 1.5 times");
    expect(narrow.pEquivalence).toBeGreaterThan(0.05);
    expectSaid(narrow.equivalenceReading, /equivalence.*not shown/i);
  });
});

describe("laws of direct comparisons", () => {
  const plain = (of: readonly SeriesComparison[]): unknown =>
    of.map(({ within, other, nReference, nOther, p, pAdjusted, reading }) => ({
      within,
      other,
      nReference,
      nOther,
      p: p?.toPrecision(10),
      pAdjusted: pAdjusted?.toPrecision(10),
      reading,
    }));

  it("the order of rows does not matter", () => {
    const random = createRandom("order of rows");
    expect(plain(compareSeries(table(...random.shuffle(rows)), question))).toEqual(plain(lines));
  });

  it("a table cut in two and joined again is the same, wherever it is cut", () => {
    const whole = table(...rows);
    for (const cut of [1, 7, 20]) {
      const first = whole.select(Array.from({ length: cut }, (_, i) => i));
      const rest = whole.select(Array.from({ length: whole.length - cut }, (_, i) => cut + i));
      expect(plain(compareSeries(rest.concat(first), question))).toEqual(plain(lines));
    }
  });

  it("sizes compared apart have the same p before correction", () => {
    const apart = ["10", "16", "20"].flatMap((size) =>
      compareSeries(table(...rows.filter((row) => row.bar_size === size)), question),
    );
    expect(apart.map(({ p }) => p?.toPrecision(10))).toEqual(
      lines.map(({ p }) => p?.toPrecision(10)),
    );
  });

  it("the unit does not matter: ratios, p, power and sentences in percent stay", () => {
    const scaled = compareSeries(table(...rows), {
      ...question,
      value: (row) => 1000 * rows[row]!.peak_load_kN,
    });
    scaled.forEach((one, k) => {
      expect(one.p).toBeCloseTo(lines[k]!.p!, 10);
      expect(one.ratioLower).toBeCloseTo(lines[k]!.ratioLower!, 10);
      expect(one.detectable).toBeCloseTo(lines[k]!.detectable!, 8);
      expect(one.reading).toBe(lines[k]!.reading);
    });
  });

  it("excluded rows, missing values and groups of two stay out", () => {
    const more = table(
      ...rows,
      { bar_size: "16", bar_material: "gfrp", peak_load_kN: 5, excluded: "hole not cleaned" },
      { bar_size: "16", bar_material: "cfrp", peak_load_kN: 60 },
      { bar_size: "16", bar_material: "cfrp", peak_load_kN: 61 },
    );
    expect(plain(compareSeries(more, question))).toEqual(plain(lines));
  });

  it("groups without scatter are named, never NaN", () => {
    const flat = TestTable.fromRows(
      table(
        ...[50, 50, 50].flatMap((peak_load_kN) => [
          { peak_load_kN, bar_material: "steel" as const },
          { peak_load_kN, bar_material: "gfrp" as const },
        ]),
      ).rows(),
    );
    const [one] = compareSeries(flat, { ...question, within: [] });
    expect(one).toMatchObject({
      p: null,
      pAdjusted: null,
      ratio: null,
      detectable: null,
      powerForMargin: null,
      pEquivalence: null,
    });
    expectSaid(one!.reading, "cannot be estimated", "no spread");
  });
});
