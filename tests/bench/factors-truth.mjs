// Over many seeds of the invented campaign: does the factor "as steel" find the stated material
// factor? For each kind of
// FRP bar and mode: bias of the estimate, and how often the lower bound (90 %) does not exceed the
// truth; with lower
// bounds by each rule, and with and without effects of the studies (the two laboratories).
// npm run bench factors-truth, or: node tests/bench/factors-truth.mjs [seeds, default 40; 200 take
// minutes] [threads, default 2]
import { createRequire } from "node:module";
import { isMainThread, parentPort, Worker, workerData } from "node:worker_threads";

const require = createRequire(import.meta.url);
const MODES = {
  bond: "bond",
  concrete_breakout: "breakout",
  concrete_edge_breakout: "edgeBreakout",
  pryout: "pryout",
};
const RULES = ["none", "stopped early", "used"];

/** Truth: factor of a kind of bar over that of steel, at the diameter the ratio is taken at. */
function truthOf(kind, steel, mode, diameter) {
  const ratio = kind[MODES[mode]] / steel[MODES[mode]];
  return mode === "bond" && diameter !== null
    ? ratio * (16 / diameter) ** kind.bondSizeExponent
    : ratio;
}

function oneSeed(seed) {
  const {
    generateDemonstration,
    TRUTH,
    compare,
    code,
    TestTable,
  } = require("../../kernel-lib/dist");
  const { asSteel } = require("../../kernel-lib/dist/proposals/criteria");
  const tests = tableOf(generateDemonstration(seed), TestTable);
  const [steelKind, ...kinds] = TRUTH.barKinds;
  const found = [];
  for (const rule of RULES) {
    const whole = compare(tests, code("aci318-19"), {
      level: "nominal",
      lowerBounds: rule === "none" ? "stopped early" : rule,
    });
    const evidence =
      rule === "none" ? whole.evidence.filter(({ bound }) => !bound) : whole.evidence;
    const comparison = { ...whole, evidence };
    const families = (row) => tests.row(row).extra.bar_family;
    for (const mode of Object.keys(MODES)) {
      const of = (family) =>
        evidence.filter((one) => one.mode === mode && families(one.row) === family);
      for (const kind of kinds) {
        for (const studyEffects of [true, false]) {
          const { estimate, lower, upper, diameter_mm } = asSteel(
            comparison,
            of(kind.family),
            of(steelKind.family),
            { fractile: 0.05, confidence: 0.9, studyEffects },
          );
          if (estimate === null) continue;
          const truth = truthOf(kind, steelKind, mode, diameter_mm);
          found.push({
            rule,
            mode,
            family: kind.family,
            studyEffects,
            estimate: estimate / truth,
            lower: lower / truth,
            upper: upper / truth,
          });
        }
      }
    }
  }
  return found;
}

function tableOf(campaign, TestTable) {
  return TestTable.fromRows(campaign.tests);
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
    `${seeds} seeds of the invented campaign, ${((performance.now() - start) / 1000).toFixed(0)} s; stated: bias under 2 %, lower and upper bound each hold in 90 %`,
  );
  console.log(
    "mode                     lower bounds  studies   n     bias     SD     lower holds  upper holds",
  );
  for (const mode of Object.keys(MODES))
    for (const rule of RULES)
      for (const studyEffects of [true, false]) {
        const some = all.filter(
          (one) => one.mode === mode && one.rule === rule && one.studyEffects === studyEffects,
        );
        if (some.length === 0) continue;
        const logs = some.map(({ estimate }) => Math.log(estimate));
        const mean = logs.reduce((sum, one) => sum + one, 0) / logs.length;
        const sd = Math.sqrt(
          logs.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (logs.length - 1),
        );
        const share = (holds) =>
          `${((100 * some.filter(holds).length) / some.length).toFixed(1)} %`.padStart(11);
        console.log(
          `${mode.padEnd(24)} ${rule.padEnd(13)} ${(studyEffects ? "own" : "none").padEnd(6)} ${String(some.length).padStart(5)} ${(100 * (Math.exp(mean) - 1)).toFixed(2).padStart(7)} % ${(100 * sd).toFixed(1).padStart(5)} % ${share(({ lower }) => lower <= 1)} ${share(({ upper }) => upper >= 1)}`,
        );
      }
} else {
  const found = [];
  for (let seed = workerData.first; seed <= workerData.seeds; seed += workerData.step)
    found.push(...oneSeed(seed));
  parentPort.postMessage(found);
}
