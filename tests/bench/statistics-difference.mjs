// Comparison of two classes of tests in series (modeDifference): how often equal classes are called
// different at 5 %, and how often a class 2 SD
// lower is found, over layouts, intraclass correlations and lower bounds; and what it costs. npm
// run bench statistics-difference, or: node tests/bench/statistics-difference.mjs [samples, default
// 200].
import { createRequire } from "node:module";

const require = createRequire(import.meta.url);
const { createRandom, normal } = require("../../kernel-lib/dist/statistics");
const { modeDifference } = require("../../kernel-lib/dist/comparison/mode-difference.js");

const SAMPLES = Number(process.argv[2] ?? 200);
const three = (count) => Array(count).fill(3);
const LAYOUTS = {
  "2 and 2 series of 3": [three(2), three(2)],
  "2 and 2 of 1 and 5": [
    [1, 5],
    [5, 1],
  ],
  "3 and 3 of 3": [three(3), three(3)],
  "2 and 10 of 3": [three(2), three(10)],
  "3 and 6 of 1 to 9": [
    [1, 3, 8],
    [2, 2, 2, 9, 1, 4],
  ],
  "5 and 5 of 3": [three(5), three(5)],
  "10 and 10 of 3": [three(10), three(10)],
};
const ALONE = { "1 and 1 series of 3": [[3], [3]], "1 and 1 of 5 and 10": [[5], [10]] };

function draw(random, sizes, correlation, share, { shift = 0, sd = 1 } = {}) {
  const limitAt = share === 0 ? Infinity : Math.SQRT2 * normal().quantile(1 - share);
  return sizes.flatMap((n, label) => {
    const common = Math.sqrt(correlation) * random.normal();
    return Array.from({ length: n }, () => {
      const [value, limit] = [
        common + Math.sqrt(1 - correlation) * random.normal(),
        limitAt === Infinity ? Infinity : limitAt + random.normal(),
      ];
      return {
        ratio: Math.exp(0.1 * (shift + sd * Math.min(value, limit))),
        bound: value > limit,
        series: `s${label}`,
      };
    });
  });
}

/**
 * Shares found without and with a shift, of the samples that give an answer with the series effect
 * wanted.
 */
function shares(random, [first, second], correlation, share, effect, sd = 1) {
  const [made, found] = [
    [0, 0],
    [0, 0],
  ];
  for (let s = 0; s < SAMPLES; s += 1) {
    [0, -2].forEach((shift, k) => {
      const classes = [
        draw(random, first, correlation, share, { sd }),
        draw(random, second, correlation, share, { shift }),
      ];
      if (classes.some((tests) => tests.filter(({ bound }) => !bound).length < 3)) return;
      const answer = modeDifference(
        { name: "steel", tests: classes[0] },
        { name: "gfrp", tests: classes[1] },
      );
      if (typeof answer === "string" || answer.seriesEffect !== effect) return;
      made[k] += 1;
      if (answer.p < 0.05) found[k] += 1;
    });
  }
  const words = (k) =>
    made[k] === 0 ? "no answer" : `${((100 * found[k]) / made[k]).toFixed(1)} %`;
  return `${words(0)} false alarms, ${words(1)} found (${made[0]} samples)`;
}

for (const share of [0, 0.3]) {
  const random = createRandom(`difference ${share}`);
  const start = performance.now();
  console.log(
    `${100 * share} % lower bounds, ${SAMPLES} samples each, at 5 %; series effect included`,
  );
  for (const [name, layout] of Object.entries(LAYOUTS))
    for (const correlation of [0, 0.3, 0.8])
      console.log(
        `  ${name}, ICC ${correlation}: ${shares(random, layout, correlation, share, "included")}`,
      );
  console.log(
    `  time: ${((performance.now() - start) / (2 * SAMPLES * 3 * Object.keys(LAYOUTS).length)).toFixed(1)} ms a comparison`,
  );
  console.log("  scatter of the first class twice as large (the model takes it as equal), ICC 0.5");
  for (const name of ["2 and 10 of 3", "3 and 6 of 1 to 9", "5 and 5 of 3"])
    console.log(`  ${name}: ${shares(random, LAYOUTS[name], 0.5, share, "included", 2)}`);
  console.log(
    "series effect ignored, one series a class: right where series do not differ, wrong where they do, as the result says",
  );
  for (const [name, layout] of Object.entries(ALONE))
    for (const correlation of [0, 0.5])
      console.log(
        `  ${name}, ICC ${correlation}: ${shares(random, layout, correlation, share, "ignored")}`,
      );
}
