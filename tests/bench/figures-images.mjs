// Time to draw figures without a browser. Run after a build: node tests/bench/figures-images.mjs
import { createRequire } from "node:module";
import { browserFigure } from "./peers/browser-figure.mjs";

const require = createRequire(import.meta.url);
const { ratioStrip } = require("../../kernel-lib/dist/figures");
const {
  figureHtml,
  renderPdf,
  renderPng,
  renderSvg,
} = require("../../kernel-lib/dist/exports/images");

const strip = (id) => {
  let state = 1;
  const draw = () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
  const groups = Array.from({ length: 8 }, (_, g) => ({
    label: `Series ${g + 1}`,
    tests: Array.from({ length: 10 }, () => ({ ratio: 0.9 + draw(), censored: draw() < 0.1 })),
    mean: 1.3,
    meanMinus3Sd: 0.9,
    characteristic: 0.95,
  }));
  return ratioStrip({ id, title: "Ratios", caption: "", groups, invented: true });
};
const timed = async (work) => {
  const start = performance.now();
  await work();
  return performance.now() - start;
};

const load = await timed(() => renderSvg(strip("first")));
console.log(
  `figures: load jsdom, fonts and plotly.js and draw the first SVG  ${load.toFixed(0)} ms  (limit 1000 + 500)`,
);
await renderPng(strip("warm"));
await renderPdf(strip("warm"));
const totals = [];
for (let i = 0; i < 5; i += 1) {
  const figure = strip(`strip-${i}`);
  totals.push(
    await timed(async () => {
      await renderSvg(figure);
      await renderPng(figure, { dpi: 300 });
      await renderPdf(figure);
    }),
  );
}
totals.sort((a, b) => a - b);
console.log(
  `figures: one figure to SVG + PNG (300 dpi) + PDF, median of 5  ${totals[2].toFixed(0)} ms  (limit 500)`,
);
console.log(
  `figures: memory in use  ${(process.memoryUsage().rss / 1e6).toFixed(0)} MB  (limit 500)`,
);
const peer = strip("peer");
const browser = await browserFigure(await figureHtml(peer), peer.layout);
console.log(
  browser.skipped
    ? `figures: browser peer skipped, ${browser.skipped}`
    : `figures: one figure to SVG + PNG + PDF by a browser, with its start  ${browser.milliseconds.toFixed(0)} ms`,
);
process.exit(0);
