import { describe, expect, test } from "vitest";
import { Resvg } from "@resvg/resvg-js";
import { renderSvg, svgToPng } from "../../kernel-lib/src/exports/images";
import type { Figure } from "../../kernel-lib/src/figures";
import { FIGURE_DRAWER } from "../../kernel-lib/src/cli/notebook/draw-figures";
import { checkOutputs, compareOutputs } from "../../kernel-lib/src/notebook";
import type { CellOutput, Difference } from "../../kernel-lib/src/notebook";
import { pngPixels } from "../../kernel-lib/src/notebook/compare/png-pixels";

const TABLE = "application/vnd.code-comparison.table+json";
const FIGURE = "application/vnd.plotly.v1+json";

type Bundle = Record<string, unknown>;

function shown(data: Bundle, metadata: Bundle = {}): CellOutput[] {
  return [{ output_type: "display_data", data, metadata }];
}

function differences(recorded: Bundle, rerun: Bundle): readonly Difference[] {
  return compareOutputs(shown(recorded), shown(rerun), 1e-9).differences;
}

const verdict = (recorded: Bundle, rerun: Bundle): string =>
  compareOutputs(shown(recorded), shown(rerun), 1e-9).verdict;

/** An invented figure, drawn as a notebook draws it. */
const POINTS: Figure = {
  id: "points",
  title: "Ratios (invented)",
  caption: "",
  alt: "Three ratios between 0.97 and 1.21.",
  data: [{ type: "scatter", mode: "markers", x: [10, 13, 16], y: [1.21, 1.05, 0.97] }],
  layout: { width: 340, height: 260, font: { family: "DejaVu Sans", size: 9, color: "#000000" } },
};
const svg = await renderSvg(POINTS);
const png = Buffer.from(await svgToPng(svg, { dpi: 96 })).toString("base64");
const data = { data: POINTS.data, layout: POINTS.layout };
const figure: Bundle = { [FIGURE]: data, "image/svg+xml": svg, "text/plain": POINTS.alt };
const embedded = (picture: string): string =>
  `<figure><img alt="${POINTS.alt}" src="data:image/svg+xml;base64,${Buffer.from(picture).toString("base64")}"></figure>`;
const moved = svg.replace("translate(90,", "translate(99,");
const SAYING =
  '<svg xmlns="http://www.w3.org/2000/svg" width="340" height="260"><text x="9" y="30">All ratios exceed 1.50</text></svg>';

describe("a picture is compared with that of the rerun, in whichever form it comes", () => {
  const digit = svg.replace(/>1\.2</, ">1.5<");
  test.each([
    ["words in place of it", SAYING],
    ["a mark moved", moved],
    ["a tick label altered", digit],
    ["a mark hidden", svg.replace("<path ", '<path display="none" ')],
  ])("SVG: %s", (_name, falsified) => {
    expect(falsified).not.toBe(svg);
    expect(verdict({ ...figure, "image/svg+xml": falsified }, figure)).toBe("changed");
    const html = { [FIGURE]: data, "text/html": embedded(falsified) };
    expect(verdict(html, { [FIGURE]: data, "text/html": embedded(svg) })).toBe("changed");
  });

  test("SVG: another font and a last decimal are the same; the place of a change is quoted", () => {
    const other = svg
      .replace(/font-family="[^"]*"/, 'font-family="Liberation Sans"')
      .replace(/translate\(([\d.]+),/, (_, x: string) => `translate(${Number(x) + 0.01},`);
    expect(other).not.toBe(svg);
    expect(verdict({ ...figure, "image/svg+xml": other }, figure)).toBe("same");
    expect(differences({ ...figure, "image/svg+xml": moved }, figure)[0]).toMatchObject({
      where: expect.stringMatching(/^output, picture image\/svg\+xml, drawn part \d+$/) as string,
      recorded: expect.stringContaining("translate(") as string,
    });
  });

  test("PNG: decoded as another program decodes it; a digit painted over is found, other packing is not", async () => {
    const drawn = new Resvg(svg, { background: "#ffffff" }).render();
    const pixels = pngPixels(drawn.asPng())!;
    expect([pixels.width, pixels.height]).toEqual([drawn.width, drawn.height]);
    expect(Buffer.from(pixels.rgba).equals(Buffer.from(drawn.pixels))).toBe(true);
    const falsified = Buffer.from(await svgToPng(moved, { dpi: 96 })).toString("base64");
    expect(verdict({ "image/png": falsified }, { "image/png": png })).toBe("changed");
    expect(differences({ "image/png": falsified }, { "image/png": png })[0]?.rerun).toMatch(
      /^\d+ pixels differ, the first at \d+, \d+$/,
    );
    const text = Buffer.from(png, "base64");
    const withComment = Buffer.concat([
      text.subarray(0, -12),
      Buffer.from([0, 0, 0, 0, 0x74, 0x45, 0x58, 0x74, 0, 0, 0, 0]),
      text.subarray(-12),
    ]).toString("base64");
    expect(verdict({ "image/png": withComment }, { "image/png": png })).toBe("same");
    expect(verdict({ "image/png": png.slice(0, 400) }, { "image/png": png })).toBe("changed");
    expect(verdict({ "image/jpeg": "AAAA" }, { "image/jpeg": "AAAB" })).toBe("changed");
  });

  test("the size at which a front end shows a picture counts", () => {
    const small = { "image/png": { width: 1 } };
    expect(compareOutputs(shown(figure, small), shown(figure), 1e-9).verdict).toBe("changed");
  });
});

describe("styles and visibility of HTML count", () => {
  const rows = [
    { s: "A", r: 0.8 },
    { s: "B", r: 1.2 },
  ];
  const html = (attributes = "", text = "0.8"): string =>
    `<table><tr data-row-key="A"${attributes}><td data-column="s">A</td><td data-column="r" data-value="0.8">${text}</td></tr><tr data-row-key="B"><td data-column="s">B</td><td data-column="r" data-value="1.2">1.2</td></tr></table>`;
  const table = (markup: string, values = rows): Bundle => ({
    [TABLE]: { columns: [{ key: "s" }, { key: "r" }], rows: values, key: ["s"] },
    "text/html": markup,
  });
  test.each([
    ["a row hidden", html(' style="display:none"')],
    ["a row hidden, style given twice", html(' style="display:none" style=""')],
    ["hidden by attribute", html(" hidden")],
    ["white on white", html(' style="color:#fff"')],
    ["a style sheet", `<style>tr:first-child{display:none}</style>${html()}`],
    ["a comment around a row", html().replace(/(<tr[^>]*>.*?<\/tr>)/, "<!--$1-->")],
    ["text moved out of its cell", html("", "").replace("</td><td", " 0.8</td><td")],
    ["a number beside the same data", html("", "0.9")],
  ])("%s", (_name, recorded) => {
    expect(verdict(table(recorded), table(html()))).toBe("changed");
  });

  test("also where the data changed, and the exact number behind a written one is a number", () => {
    const other = [rows[0]!, { s: "B", r: 1.3 }];
    const found = differences(table(html(" hidden")), table(html(), other));
    expect(found.map(({ where }) => where)).toContain("output (text/html), styles and visibility");
    const near = html().replace('data-value="0.8"', 'data-value="0.80000000000001"');
    expect(verdict(table(near), table(html()))).toBe("within_tolerance");
  });

  test("data within tolerance excuse no other written number than one on the edge of rounding", () => {
    const within = (r: number): { s: string; r: number }[] => [{ s: "A", r }];
    const written = (text: string, r: number): Bundle => ({
      [TABLE]: { columns: [{ key: "s" }, { key: "r" }], rows: within(r), key: ["s"] },
      "text/plain": text,
    });
    const rerun = written("n = 12, mean 0.80", 0.8);
    expect(verdict(written("n = 13, mean 0.80", 0.8 + 1e-13), rerun)).toBe("changed");
    expect(verdict(written("n = 12, mean 0.81", 0.8 + 1e-13), rerun)).toBe("changed");
    expect(verdict(written("mean 0.81", 0.805 + 1e-13), written("mean 0.80", 0.805))).toBe(
      "within_tolerance",
    );
  });
});

describe("the forms of one output say the same", () => {
  const found = async (bundle: Bundle): Promise<string[]> =>
    (await checkOutputs(shown(bundle), FIGURE_DRAWER)).differences.map(({ where }) => where);
  const notes = async (bundle: Bundle): Promise<readonly string[]> =>
    (await checkOutputs(shown(bundle), FIGURE_DRAWER)).notes;
  const table = (html: string, plain = "A 0.80"): Bundle => ({
    [TABLE]: { columns: [{ key: "s" }, { key: "r" }], rows: [{ s: "A", r: 0.8 }], key: ["s"] },
    "text/html": `<table><tr data-row-key="A"><th data-column="s">A</th><td data-column="r">${html}</td></tr></table>`,
    "text/plain": plain,
  });

  test.each([
    ["the same", table("0.80"), []],
    ["HTML against data and text", table("1.50"), ["text/html and text/plain", "row 1, column r"]],
    ["both written forms against the data", table("1.50", "A 1.50"), ["row 1, column r"]],
    ["text against HTML and data", table("0.80", "A 1.50"), ["text/html and text/plain"]],
    ["a bound that holds", table("below 0.90", "A below 0.90"), []],
    ["a bound that does not", table("below 0.70", "A below 0.70"), ["row 1, column r"]],
    ["a power of ten", table("8.0 × 10⁻¹", "A 8.0 × 10⁻¹"), []],
    ["another power of ten", table("8.0 × 10⁻²", "A 8.0 × 10⁻²"), ["row 1, column r"]],
  ])("table: %s", async (_name, bundle, places) => {
    const where = await found(bundle);
    expect(where).toHaveLength(places.length);
    places.forEach((place, index) => expect(where[index]).toContain(place));
  });

  test("figure: drawn anew from its data and compared, also as a picture of pixels", async () => {
    const all = { ...figure, "text/html": embedded(svg), "image/png": png };
    expect(await found(all)).toEqual([]);
    expect(await notes(all)).toEqual([]);
    expect((await found({ ...figure, "image/svg+xml": moved }))[0]).toContain("data drawn anew");
    expect((await found({ ...figure, "text/plain": "All ratios exceed 1.50." }))[0]).toContain(
      "data drawn anew",
    );
    expect((await found({ ...all, "text/html": embedded(moved) }))[0]).toContain(
      "picture image/svg+xml and picture 1 in text/html",
    );
    const other = Buffer.from(await svgToPng(moved, { dpi: 96 })).toString("base64");
    expect(await found({ ...all, "image/png": other })).toEqual([
      "output, picture image/svg+xml and picture image/png",
    ]);
    const falseData = { ...data, data: [{ ...POINTS.data[0], y: [1.51, 1.55, 1.57] }] };
    expect((await found({ ...figure, [FIGURE]: falseData }))[0]).toContain("data drawn anew");
  });

  test("what cannot be checked is said", async () => {
    expect(await notes({ ...figure, "image/svg+xml": SAYING })).toEqual([
      "output: its picture is none that this library can draw; it was compared with the rerun, not with the data beside it",
    ]);
    const vast = { ...data, layout: { ...POINTS.layout, width: 1e9 } };
    expect((await notes({ ...figure, [FIGURE]: vast }))[0]).toContain("none that this library");
    expect(await notes({ "text/html": "<p>1.50</p>", "text/plain": "0.80" })).toEqual([
      "output, numbers of text/html and text/plain: 1.50 against 0.80",
    ]);
  });
});
