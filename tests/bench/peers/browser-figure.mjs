// The same work in a browser, for comparison: start it, open the interactive figure, take SVG, PNG
// and PDF.
import { existsSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const executablePath = "/usr/bin/chromium";

/** Milliseconds for one figure with the browser's start, or a reason why there are none. */
export async function browserFigure(html, { width, height }) {
  if (!existsSync(executablePath)) return { skipped: `${executablePath} is not installed` };
  const { chromium } = await import("playwright-core");
  const file = join(mkdtempSync(join(tmpdir(), "figure-")), "figure.html");
  writeFileSync(file, html);
  const start = performance.now();
  const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
  const page = await browser.newPage();
  await page.goto(pathToFileURL(file).href);
  await page.waitForSelector("#figure .main-svg");
  for (const format of ["svg", "png"])
    await page.evaluate(
      ([kind, w, h]) =>
        window.Plotly.toImage("figure", {
          format: kind,
          width: w,
          height: h,
          scale: kind === "png" ? 300 / 96 : 1,
        }),
      [format, width, height],
    );
  await page.pdf();
  const milliseconds = performance.now() - start;
  await browser.close();
  return { milliseconds };
}
