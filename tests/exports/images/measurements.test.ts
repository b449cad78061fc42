import { JSDOM } from "jsdom";
import { describe, expect, it } from "vitest";
import { openFonts } from "../../../kernel-lib/src/exports/images/fonts";
import { parseTransform, transformBox } from "../../../kernel-lib/src/exports/images/matrix";
import { pathBox, pathLength } from "../../../kernel-lib/src/exports/images/paths";
import { readColour } from "../../../kernel-lib/src/exports/images/pixel-canvas";
import { textBox } from "../../../kernel-lib/src/exports/images/text-boxes";

describe("measurements that stand in for a browser's", () => {
  it("measures paths", () => {
    // A circle of radius 5 in two half arcs, and the 3-4-5 triangle: by geometry.
    expect(pathBox("M5,0A5,5 0 1,1 -5,0A5,5 0 0,1 5,0Z")).toEqual({
      x: -5,
      y: -5,
      width: 10,
      height: 10,
    });
    expect(pathLength("M0,0L3,4").total).toBe(5);
    expect(pathLength("M0,0h10v10").at(15)).toEqual({ x: 10, y: 5 });
    expect(pathBox("M1e1,2l-4.5-.5")).toEqual({ x: 5.5, y: 1.5, width: 4.5, height: 0.5 });
  });

  it("turns boxes", () => {
    const box = transformBox(
      { x: 0, y: 0, width: 4, height: 2 },
      parseTransform("translate(10,20)rotate(90)"),
    );
    expect(box.x).toBeCloseTo(8, 12);
    expect(box.y).toBeCloseTo(20, 12);
    expect([box.width, box.height]).toEqual([expect.closeTo(2, 12), expect.closeTo(4, 12)]);
  });

  it("places anchored, shifted and many-lined text", async () => {
    const fonts = await openFonts();
    const svg = (inner: string): Element =>
      new JSDOM(`<svg>${inner}</svg>`).window.document.querySelector("text") as Element;
    const width = fonts.width("abc", 10, "regular");
    // DejaVu Sans "abc": advances 1255, 1300 and 1126 of 2048 units an em, from the font file.
    expect(width).toBeCloseTo(((1255 + 1300 + 1126) / 2048) * 10, 10);
    expect(
      textBox(
        svg('<text x="5" y="50" text-anchor="middle" style="font-size: 10px">abc</text>'),
        fonts,
      ).x,
    ).toBeCloseTo(5 - width / 2, 10);
    const plain = textBox(svg('<text x="0" y="50" style="font-size: 10px">abc</text>'), fonts);
    const shifted = textBox(
      svg('<text x="0" y="50" dy="0.7em" style="font-size: 10px">abc</text>'),
      fonts,
    );
    expect(shifted.y - plain.y).toBeCloseTo(7, 10);
    const two = textBox(
      svg(
        '<text style="font-size: 10px"><tspan x="0" y="50" dy="0em">a</tspan><tspan x="0" y="50" dy="1.3em">abc</tspan></text>',
      ),
      fonts,
    );
    expect(two.width).toBeCloseTo(width, 10);
    expect(two.height - plain.height).toBeCloseTo(13, 10);
  });

  it("reads the colours of a canvas and refuses others", () => {
    expect(readColour("rgba(10, 20, 30, 0.5)")).toEqual([10, 20, 30, 128]);
    expect(readColour("#0b5394")).toEqual([11, 83, 148, 255]);
    expect(() => readColour("puce")).toThrow('Cannot read the colour "puce".');
  });
});
