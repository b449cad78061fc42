import { existsSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { type Browser, chromium } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { figureHtml, renderPng } from "../../../kernel-lib/src/exports/images";
import type { Figure } from "../../../kernel-lib/src/figures";
import { gallery } from "../../figures/gallery";

const executablePath = "/usr/bin/chromium";
const absent = !existsSync(executablePath);
if (absent) console.log(`Drawing not compared with a browser: ${executablePath} not installed.`);

const wanted = [
  "ratio-by-group",
  "test-against-predicted",
  "mode-map",
  "size-regression",
  "comparison-intervals",
  "choices",
];
const figures = gallery.map((build) => build()).filter((figure) => wanted.includes(figure.id));

describe.skipIf(absent)("the same figure in a browser", () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
  });
  afterAll(() => browser.close());

  it.each(figures.map((figure) => [figure.id, figure] as const))(
    "%s opens without error or request and looks the same",
    async (_, figure) => {
      const page = await browser.newPage({ viewport: { width: 1000, height: 1200 } });
      const trouble: string[] = [];
      page.on("console", (message) =>
        message.type() === "error" ? trouble.push(message.text()) : undefined,
      );
      page.on("pageerror", (error) => trouble.push(error.message));
      page.on("request", (request) =>
        /^(file|data|blob):/.test(request.url()) ? undefined : trouble.push(request.url()),
      );
      await open(page, figure);
      await page.waitForSelector("#figure .main-svg");
      const share = await page.evaluate(strongDifference, {
        png: Buffer.from(await renderPng(figure, { dpi: 192 })).toString("base64"),
        width: figure.layout.width,
        height: figure.layout.height,
      });
      await page.close();
      expect(trouble).toEqual([]);
      // Edges of letters are smoothed differently; a shifted label or a missing mark costs far more
      // than 2 %.
      expect(share).toBeLessThan(0.02);
      expect(share).toBeGreaterThan(0);
    },
  );
});

async function open(page: Awaited<ReturnType<Browser["newPage"]>>, figure: Figure): Promise<void> {
  const file = join(mkdtempSync(join(tmpdir(), "figure-")), "figure.html");
  writeFileSync(file, await figureHtml(figure));
  await page.goto(pathToFileURL(file).href);
}

/** Runs in the page: the share of pixels that differ by more than 96 of 255 in some channel. */
async function strongDifference(ours: {
  png: string;
  width: number;
  height: number;
}): Promise<number> {
  const plotly = (
    window as unknown as { Plotly: { toImage(element: string, options: object): Promise<string> } }
  ).Plotly;
  const theirs = await plotly.toImage("figure", {
    format: "png",
    width: ours.width,
    height: ours.height,
    scale: 2,
  });
  const pixels = async (source: string): Promise<Uint8ClampedArray> => {
    const image = new Image();
    image.src = source;
    await image.decode();
    const canvas = document.createElement("canvas");
    canvas.width = ours.width;
    canvas.height = ours.height;
    const context = canvas.getContext("2d") as CanvasRenderingContext2D;
    context.fillStyle = "#ffffff";
    context.fillRect(0, 0, ours.width, ours.height);
    context.drawImage(image, 0, 0, ours.width, ours.height);
    return context.getImageData(0, 0, ours.width, ours.height).data;
  };
  const [a, b] = await Promise.all([pixels(`data:image/png;base64,${ours.png}`), pixels(theirs)]);
  let strong = 0;
  for (let i = 0; i < a.length; i += 4) {
    if ([0, 1, 2].some((k) => Math.abs((a[i + k] ?? 0) - (b[i + k] ?? 0)) > 96)) strong += 1;
  }
  return strong / (a.length / 4);
}
