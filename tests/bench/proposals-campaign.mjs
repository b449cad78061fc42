// Time of the plan of the next campaign and of the alternatives on the invented campaign, and whether the plan keeps its
// word: campaigns of the planned size, drawn from a stated law and judged as a verdict is, must give the right
// verdict about as often as the plan says. npm run bench proposals-campaign, or: node tests/bench/proposals-campaign.mjs [campaigns, default 200].
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";

const require = createRequire(import.meta.url);
const { code, compare, compareAlternatives, factorCase, planTests, readDatasets, usualAlternatives } = require("../../kernel-lib/dist/index.js");
const { testsToSettle } = require("../../kernel-lib/dist/proposals");
const { characteristicBySeries, characteristicValue, createRandom } = require("../../kernel-lib/dist/statistics");

const CAMPAIGNS = Number(process.argv[2] ?? 200);
const { tests } = await readDatasets([fileURLToPath(new URL("../../datasets/demo", import.meta.url))]);
const aci = code("aci318-19");

async function timed(words, run, repeats = 3) {
  let [best, result] = [Infinity, null];
  for (let k = 0; k < repeats; k += 1) {
    const start = performance.now();
    result = await run();
    best = Math.min(best, performance.now() - start);
  }
  console.log(`  ${words}: ${best.toFixed(0)} ms (least of ${repeats})`);
  return result;
}

console.log("On the invented campaign");
const found = await timed("case for the factors, 199 resamples", () => factorCase(tests, aci, { seed: 1, resamples: 199 }));
const outcomes = await timed("alternatives", () => compareAlternatives(found.tests, aci, usualAlternatives(found), ["mode", "bar_material"], { modes: found.derived.map(({ mode }) => mode) }));
console.log(`    ${outcomes.map(({ label, leastCharacteristic, usedStrength }) => `${label} ${leastCharacteristic?.toFixed(3)} at ${usedStrength?.toFixed(2)}`).join("; ")}`);
const plan = await timed("plan of the next campaign", () => planTests(compare(tests, found.change.proposed), { modes: found.derived.map(({ mode }) => mode), seed: 1 }), 1);
console.log(`    ${plan.length} cells: ${["settled", "tests needed", "cannot be settled", "no model"].map((finding) => `${plan.filter((one) => one.finding === finding).length} ${finding}`).join(", ")}`);

console.log(`Does the plan keep its word? ${CAMPAIGNS} campaigns of the planned size each, series of 3`);
const random = createRandom("plan kept");
for (const [location, betweenShare] of [[1.4, 0], [1.5, 0.3], [1.6, 0.6], [0.95, 0.3]]) {
  const model = { distribution: "normal", location, scale: 0.12, betweenShare, limits: [], n: 20, nCensored: 0 };
  const settled = testsToSettle(model, [], { seed: 1, simulations: 1000 });
  if (settled.further === null) {
    console.log(`  mean ${location}, ICC ${betweenShare}: no campaign settles it`);
    continue;
  }
  let [right, answered] = [0, 0];
  for (let s = 0; s < CAMPAIGNS; s += 1) {
    const sample = { values: [], censored: [], clusters: [] };
    for (let k = 0; k < settled.further / 3; k += 1) {
      const shift = 0.12 * Math.sqrt(betweenShare) * random.normal();
      for (let i = 0; i < 3; i += 1) {
        sample.values.push(location + shift + 0.12 * Math.sqrt(1 - betweenShare) * random.normal());
        sample.censored.push(false);
        sample.clusters.push(k);
      }
    }
    // As a verdict: by series, with fewer than 3 of them as independent.
    const counted = characteristicBySeries(sample);
    const bound = counted.status === "ok" ? counted : characteristicValue(sample.values);
    if (bound.status !== "ok") continue;
    answered += 1;
    if (((counted.status === "ok" ? counted.characteristic : bound.value) >= 1) === (settled.truth === "meets")) right += 1;
  }
  console.log(`  mean ${location}, ICC ${betweenShare}: ${settled.further} tests planned for ${(100 * settled.probability).toFixed(0)} %; right in ${answered === 0 ? "no campaign answered" : `${((100 * right) / answered).toFixed(0)} % of ${answered}`}`);
}
