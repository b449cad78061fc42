import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { JSDOM } from "jsdom";
import { describe, expect, it } from "vitest";
import {
  figureBundle,
  figureHtml,
  renderPdf,
  renderPng,
  renderSvg,
} from "../../../kernel-lib/src/exports/images";
import type { Figure } from "../../../kernel-lib/src/figures";
import { gallery } from "../../figures/gallery";

const figures = gallery.map((build) => build());
const again = gallery.map((build) => build());
const first = figures[0] as Figure;

describe("the interactive page", () => {
  it("carries the license of the bundle it holds, outside the script", async () => {
    const html = await figureHtml(first);
    const { document } = new JSDOM(html).window;
    const comments = [...document.body.childNodes].filter(({ nodeType }) => nodeType === 8);
    const text = comments.map(({ textContent }) => textContent ?? "").join("\n");
    expect(text).toContain("Plotly Technologies Inc.");
    expect(text.replace(/\s+/g, " ")).toContain(
      "this permission notice shall be included in all copies",
    );
    expect(html).toContain("Bundled license information:");
  });
});

describe("SVG", () => {
  it.each(figures.map((figure, i) => [figure.id, figure, again[i] as Figure] as const))(
    "%s is well-formed, self-contained and the same every time",
    async (_, figure, twin) => {
      const svg = await renderSvg(figure);
      expect(await renderSvg(twin)).toBe(svg);
      const { document } = new JSDOM(svg, { contentType: "image/svg+xml" }).window;
      const ids = [...document.querySelectorAll("[id]")].map((element) => element.id);
      expect(new Set(ids).size).toBe(ids.length);
      expect(ids.every((id) => id.startsWith(figure.id))).toBe(true);
      for (const [, id] of svg.matchAll(/url\(#([^)]+)\)/g)) expect(ids).toContain(id);
      expect(document.querySelector("title")?.textContent).toBe(figure.title);
      expect(svg.replace(/xmlns(:xlink)?="[^"]*"/g, "")).not.toMatch(/https?:/);
      expect(svg.length).toBeLessThan(60_000);
    },
  );

  it("is drawn anew when the figure has changed", async () => {
    const changing = { ...first, layout: { ...first.layout } };
    const before = await renderSvg(changing);
    changing.layout.height += 40;
    expect(await renderSvg(changing)).not.toBe(before);
  });

  it("keeps hostile titles harmless", async () => {
    const svg = await renderSvg({ ...first, title: '</title><script>"&\u0000' });
    expect(
      new JSDOM(svg, { contentType: "image/svg+xml" }).window.document.querySelector("script"),
    ).toBeNull();
  });
});

describe("PNG", () => {
  it("has print size times resolution, and the same bytes every time", async () => {
    const png = Buffer.from(await renderPng(first, { dpi: 300 }));
    // Width and height stand in the header chunk (ISO/IEC 15948, 11.2.2).
    expect(png.readUInt32BE(16) / 300).toBeCloseTo(first.layout.width / 96, 2);
    expect(png.readUInt32BE(20) / 300).toBeCloseTo(first.layout.height / 96, 2);
    expect(Buffer.from(await renderPng(again[0] as Figure, { dpi: 300 })).equals(png)).toBe(true);
  });

  it("refuses a resolution that makes no picture", async () => {
    await expect(renderPng(first, { dpi: 0 })).rejects.toThrow(
      "The resolution is 0 dpi. Expected a number from 24 to 2400.",
    );
  });
});

describe("PDF", () => {
  it("is the same every time", async () => {
    for (const [i, figure] of figures.slice(0, 4).entries()) {
      expect(
        Buffer.from(await renderPdf(figure)).equals(
          Buffer.from(await renderPdf(again[i] as Figure)),
        ),
      ).toBe(true);
    }
  });

  const tools = ["/usr/bin/pdftotext", "/usr/bin/pdfinfo", "/usr/bin/pdffonts", "/usr/bin/qpdf"];
  const missing = tools.filter((tool) => !existsSync(tool));
  if (missing.length > 0)
    console.log(`PDF text and fonts not checked: ${missing.join(", ")} not installed.`);
  it.skipIf(missing.length > 0).each(figures.map((figure) => [figure.id, figure] as const))(
    "%s has searchable text and embedded fonts",
    async (_, figure) => {
      const file = join(mkdtempSync(join(tmpdir(), "figure-")), "figure.pdf");
      writeFileSync(file, await renderPdf(figure));
      const run = (tool: string, ...args: string[]): string =>
        execFileSync(tool, args, { encoding: "utf8" });
      const text = run("/usr/bin/pdftotext", file, "-").replace(/\s+/g, " ");
      expect(text).toContain(figure.title);
      expect(text).toContain("Invented demonstration data");
      for (const line of run("/usr/bin/pdffonts", file).trim().split("\n").slice(2))
        expect(line).toMatch(/DejaVuSans.*\byes yes yes\b/);
      expect(run("/usr/bin/pdfinfo", "-struct", file)).toMatch(/^Document\s+Figure/);
      expect(run("/usr/bin/qpdf", "--qdf", "--object-streams=disable", file, "-")).toMatch(
        /\/Alt [(<]/,
      );
      expect(run("/usr/bin/qpdf", "--check", file)).toContain(
        "No syntax or stream encoding errors found",
      );
    },
  );
});

describe("the notebook bundle", () => {
  it("carries the data, the picture and the alternative, and survives JSON", async () => {
    const data = [{ type: "scatter" as const, mode: "markers", x: [1, 2], y: [NaN, 1] }];
    const bundle = await figureBundle({ ...first, data });
    expect(JSON.parse(JSON.stringify(bundle))).toEqual(bundle);
    expect(bundle["application/vnd.plotly.v1+json"].data).toEqual([
      { type: "scatter", mode: "markers", x: [1, 2], y: [null, 1] },
    ]);
    expect(bundle["text/plain"]).toBe(first.alt);
    const [, svg = "", alt, width] =
      /^<img src="data:image\/svg\+xml;base64,([^"]+)" alt="([^"]+)" width="(\d+)">$/.exec(
        bundle["text/html"],
      ) ?? [];
    expect(Buffer.from(svg, "base64").toString("utf8")).toBe(await renderSvg({ ...first, data }));
    expect(alt).toBe(first.alt);
    expect(Number(width)).toBe(first.layout.width);
    // Signature and header of PNG (ISO/IEC 15948): 150 pixels an inch of 96 of the layout.
    const png = Buffer.from(bundle["image/png"], "base64");
    expect(png.subarray(1, 4).toString("latin1")).toBe("PNG");
    expect(png.readUInt32BE(16) / first.layout.width).toBeCloseTo(150 / 96, 2);
  });
});
