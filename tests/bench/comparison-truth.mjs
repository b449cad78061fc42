// Over many seeds of the invented campaign: how often does the analysis find the truth it was drawn
// from, and is that the
// stated rate? The intervals of the mean ratio state 95 %; the characteristic factor states 90 %
// that it does not exceed the
// true 5 % fractile of a further test, here or in another laboratory. npm run bench
// comparison-truth, or: node tests/bench/comparison-truth.mjs [seeds, default 40; 200 take some
// minutes] [threads, default 2].
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import { isMainThread, parentPort, Worker, workerData } from "node:worker_threads";

const require = createRequire(import.meta.url);
const WAYS = { "as tested": "series effect ignored", "in general": "series effect included" };
const WHERE = { these: "of these laboratories", any: "of any laboratory" };
const MODES = ["concrete_breakout", "concrete_edge_breakout", "bond"];

/**
 * A module of the tests, which is TypeScript over the sources, as JavaScript over the built
 * library: one text serves both.
 */
function testModule(name) {
  const ts = require("typescript");
  const text = readFileSync(
    fileURLToPath(new URL(`../comparison/${name}.ts`, import.meta.url)),
    "utf8",
  );
  const { outputText } = ts.transpileModule(text, {
    compilerOptions: { module: ts.ModuleKind.CommonJS, target: ts.ScriptTarget.ES2022 },
  });
  const module = { exports: {} };
  const local = (path) =>
    path.startsWith("./")
      ? testModule(path.slice(2))
      : require(path.replace("kernel-lib/src", "kernel-lib/dist"));
  new Function("require", "exports", "module", outputText)(local, module.exports, module);
  return module.exports;
}

function oneSeed(bias, factors, seed) {
  const groups = bias.studiedGroups(seed);
  const found = bias.biasOf(groups);
  const of = {};
  for (const mode of MODES) {
    const { deviation, half } = bias.deviationOf(found, mode);
    of[mode] = { deviation, half, kinds: {} };
  }
  for (const by of Object.keys(WAYS)) {
    const derived = factors.recoveredFactors(groups, by);
    for (const mode of MODES)
      of[mode].kinds[by] = derived
        .filter((one) => one.mode === mode)
        .map(({ factor, any, these }) => ({ any: factor / any, these: factor / these }));
  }
  return of;
}

/** Exact interval of a share (Clopper and Pearson), by the beta distribution of the library. */
function binomialInterval(hits, n) {
  const { beta } = require("../../kernel-lib/dist/statistics");
  const low = hits === 0 ? 0 : beta(hits, n - hits + 1).quantile(0.025);
  const high = hits === n ? 1 : beta(hits + 1, n - hits).quantile(0.975);
  return [low, high];
}

const percent = (share) => `${(100 * share).toFixed(1)} %`;
function line(words, stated, hits, n) {
  const [low, high] = binomialInterval(hits, n);
  const verdict =
    low <= stated && stated <= high
      ? "as stated"
      : hits / n > stated
        ? "more often than stated (safe)"
        : "less often than stated";
  console.log(
    `  ${words}: ${hits} of ${n} = ${percent(hits / n)} (95 % interval ${percent(low)} to ${percent(high)}; stated ${percent(stated)}): ${verdict}`,
  );
}

if (isMainThread) {
  const [seeds = 40, threads = 2] = process.argv
    .slice(2)
    .filter((word) => /^\d+$/.test(word))
    .map(Number);
  const start = performance.now();
  const shares = Array.from(
    { length: threads },
    (_, k) =>
      new Promise((resolve, reject) => {
        const worker = new Worker(new URL(import.meta.url), {
          workerData: { first: k + 1, step: threads, seeds },
        });
        worker.once("message", resolve);
        worker.once("error", reject);
      }),
  );
  const all = (await Promise.all(shares)).flat();
  console.log(
    `${all.length} seeds of the invented campaign (1 to ${seeds}), ${threads} threads, ${((performance.now() - start) / 1000).toFixed(0)} s`,
  );
  for (const mode of MODES) {
    console.log(mode);
    line(
      "mean ratio within its 95 % interval",
      0.95,
      all.filter((one) => Math.abs(one[mode].deviation) <= one[mode].half).length,
      all.length,
    );
    for (const by of Object.keys(WAYS)) {
      const found = all.flatMap((one) => one[mode].kinds[by]);
      const missing = 4 * all.length - found.length;
      for (const where of Object.keys(WHERE))
        line(
          `characteristic factor, ${WAYS[by]}, not above the true fractile ${WHERE[where]}${missing > 0 ? ` (${missing} without a factor)` : ""}`,
          0.9,
          found.filter((ratio) => ratio[where] <= 1).length,
          found.length,
        );
    }
  }
  console.log(
    "Tests of one series share its factor, which takes from the confidence where the series effect is ignored; two laboratories say little of how far others lie from them.\nThe interval of a characteristic factor treats the four kinds of bar of a seed as independent, though they share the laboratories' factors.",
  );
} else {
  const [bias, factors] = [testModule("recovered-bias"), testModule("recovered-factor")];
  const found = [];
  for (let seed = workerData.first; seed <= workerData.seeds; seed += workerData.step)
    found.push(oneSeed(bias, factors, seed));
  parentPort.postMessage(found);
}
