import { describe, expect, it } from "vitest";
import { inventedAmong } from "../../kernel-lib/src/dataset";
import {
  beforeAfter,
  fractiles,
  inventedStamp,
  modeMap,
  ratioStrip,
  testAgainstPredicted,
} from "../../kernel-lib/src/figures";
import { logTicks, shown } from "../../kernel-lib/src/figures/numbers";
import { stripOffsets } from "../../kernel-lib/src/figures/strip-offsets";
import { textWidth, wrapText } from "../../kernel-lib/src/figures/text-width";
import { openFonts } from "../../kernel-lib/src/exports/images/fonts";
import { gallery } from "./gallery";
import { head, seeded } from "./gallery/draws";
import { expectSaid } from "../says";

const group = {
  label: "GFRP",
  tests: [
    { ratio: 1.2, censored: false },
    { ratio: 1.4, censored: true },
    { ratio: NaN, censored: false },
  ],
  mean: 1.2,
  meanMinus3Sd: NaN,
  fractile: 0.9996,
  lower: 0.9,
  upper: 1.1,
  verdict: "undecided",
};

describe("every figure", () => {
  it.each(gallery.map((build) => build()).map((figure) => [figure.id, figure] as const))(
    "%s is plain data with a stamp, a caption and an alternative",
    (_, figure) => {
      expect(JSON.parse(JSON.stringify(figure))).toEqual(figure);
      expect(JSON.stringify(figure.layout["title"])).toContain(inventedStamp(true));
      expect(figure.alt).toMatch(/^[^\n]{20,}\.$/);
      expect([333, 454, 680]).toContain(figure.layout.width);
    },
  );

  it("has an id that can be a file name", () => {
    expect(() => ratioStrip({ ...head("Not A Name", "x"), groups: [] })).toThrow(
      'The figure id "Not A Name" cannot be a file name.',
    );
  });

  it("leaves the stamp out where nothing is invented, and says so where a part is", () => {
    const text = { id: "real", title: "Real", caption: "", groups: [group] };
    expect(JSON.stringify(ratioStrip(text))).not.toMatch(/invented demonstration/i);
    expect(JSON.stringify(ratioStrip({ ...text, invented: false }))).not.toMatch(
      /invented demonstration/i,
    );
    expect(JSON.stringify(ratioStrip({ ...text, invented: "in part" }))).toContain(
      "Contains invented demonstration data",
    );
    const of = (...provenances: ("demo" | "own" | "published")[]): unknown =>
      inventedAmong(provenances.map((provenance) => ({ provenance })));
    expect([of("demo"), of("own", "published"), of("demo", "own"), of()]).toEqual([
      true,
      false,
      "in part",
      false,
    ]);
  });
});

describe("single builders", () => {
  it("marks censored tests apart, leaves missing numbers out and states n", () => {
    const figure = ratioStrip({ ...head("strip", "x"), groups: [group] });
    const named = (name: string) => figure.data.find((trace) => trace["name"] === name);
    expect(named("test")?.["x"]).toEqual([1.2]);
    expect(named("lower bound")?.["x"]).toEqual([1.4]);
    expect(named("mean − 3 SD")).toBeUndefined();
    expectSaid(JSON.stringify(figure.layout["yaxis"]), "n = 2", "1 lower bound");
    expectSaid(figure.alt, "5 % fractile 0.9996", "0.9", "1.1", "undecided");
  });

  it("draws the 5 % line at the characteristic ratio and drops loads that have no logarithm", () => {
    const test = { series: "a", censored: false };
    const figure = testAgainstPredicted({
      ...head("loads", "x"),
      characteristicRatio: 0.8,
      tests: [
        { ...test, predicted: 10, observed: 12 },
        { ...test, predicted: 0, observed: 5 },
      ],
    });
    const line = figure.data.find(
      (trace) =>
        typeof trace["name"] === "string" && trace["name"].startsWith("characteristic ratio"),
    );
    const [x, y] = [line?.["x"] as number[], line?.["y"] as number[]];
    expect(y.map((value, i) => value / (x[i] as number))).toEqual([
      expect.closeTo(0.8, 12),
      expect.closeTo(0.8, 12),
    ]);
    expect(figure.data.at(-1)?.["x"]).toEqual([10]);
  });

  it("counts agreement in the mode map and shades by the share of the row", () => {
    const figure = modeMap({
      ...head("modes", "x"),
      observed: ["bond", "splitting"],
      predicted: ["bond", "rupture"],
      counts: [
        [3, 1],
        [0, 0],
      ],
    });
    expect(figure.data[0]?.["z"]).toEqual([
      [0.75, 0.25],
      [0, 0],
    ]);
    expectSaid(figure.alt, "4 tests", /agree\w* in 3\b/);
  });

  it("counts groups below the target before and after", () => {
    const figure = beforeAfter({
      ...head("change", "x"),
      measure: "Characteristic ratio (–)",
      groups: [
        { label: "a", n: 5, before: 0.8, after: 1.1 },
        { label: "b", n: 5, before: NaN, after: 0.9 },
      ],
    });
    expectSaid(figure.alt, /\b1 groups? .*below 1\b/, /before.*\b1 after/);
  });

  it("draws the interval of each side of a change to its upper bound, only where one is known", () => {
    const figure = beforeAfter({
      ...head("change", "x"),
      measure: "Bounds (–)",
      groups: [
        {
          label: "a",
          n: 5,
          before: 0.8,
          after: 1.1,
          upperBefore: 0.95,
          upperAfter: 1.3,
          verdicts: "falls short, then meets",
        },
        { label: "b", n: 5, before: 0.7, after: 0.9, upperBefore: NaN, upperAfter: 1.2 },
      ],
    });
    const lines = figure.data
      .filter((trace) => trace["mode"] === "lines")
      .slice(1)
      .map((trace) => trace["x"]);
    expect(lines).toEqual([
      [0.8, 0.95, null, 0.95, 0.95, null],
      [1.1, 1.3, null, 1.3, 1.3, null, 0.9, 1.2, null, 1.2, 1.2, null],
    ]);
    expect(JSON.stringify(figure.layout["yaxis"])).toContain("falls short, then meets");
  });

  it("answers both questions of a group with marks of different shape and with words", () => {
    const side = { fractile: 1.1, lower: 1.02, upper: 1.2, verdict: "meets" };
    const figure = fractiles({
      ...head("both", "x"),
      groups: [
        {
          label: "a",
          asTested: side,
          inGeneral: { fractile: NaN, lower: NaN, upper: NaN, verdict: "too few series" },
        },
      ],
    });
    const marks = figure.data.filter((trace) => trace["mode"] === "markers");
    expect(marks.map((trace) => (trace["x"] as number[]).length)).toEqual([1, 0]);
    expect(new Set(marks.map((trace) => (trace["marker"] as { symbol: string }).symbol)).size).toBe(
      2,
    );
    for (const words of ["as tested: meets", "in general: too few series"])
      expect(JSON.stringify(figure.layout["annotations"])).toContain(words);
  });

  it("shows text from data files as text", () => {
    const figure = ratioStrip({
      ...head("strip", "<img src=x>"),
      groups: [{ ...group, label: "<b>bold</b>\n" }],
    });
    expect(JSON.stringify(figure.layout)).not.toMatch(/<img|<b>bold/);
  });
});

describe("what builders stand on", () => {
  it("knows the width of text as the font file has it", async () => {
    const fonts = await openFonts();
    for (const text of [
      "Test-to-predicted ratio",
      "0123456789",
      "GFRP sand-coated, 13 mm (n = 7)",
    ]) {
      // The font kerns some pairs, which the table leaves out: a label may be a little narrower
      // than thought.
      const exact = fonts.width(text, 100, "regular");
      expect(textWidth(text, 100)).toBeGreaterThanOrEqual(exact - 0.5);
      expect(textWidth(text, 100)).toBeLessThan(exact * 1.03);
    }
  });

  it("wraps without losing a word", () => {
    const text = "one two three four five six seven";
    const lines = wrapText(text, 90, 10);
    expect(lines.join(" ")).toBe(text);
    for (const line of lines) expect(textWidth(line, 10)).toBeLessThanOrEqual(90);
  });

  it("keeps marks of a strip apart", () => {
    const draw = seeded(2);
    const values = Array.from({ length: 60 }, draw);
    const lanes = stripOffsets(values, 0.05);
    values.forEach((a, i) =>
      values.forEach((b, j) => {
        if (i < j && lanes[i] === lanes[j]) expect(Math.abs(a - b)).toBeGreaterThanOrEqual(0.05);
      }),
    );
  });

  it("ticks logarithmic axes at 1, 2 and 5", () => {
    expect(logTicks(8, 130)).toEqual([10, 20, 50, 100]);
    expect(shown(0.99961)).toBe("0.9996");
    expect(shown(NaN)).toBe("–");
  });
});
