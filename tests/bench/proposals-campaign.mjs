// Time of the plan of the next campaign and of the alternatives on the invented campaign, and
// whether the plan keeps its
// promise when the law is fitted and not known: present tests are drawn from a true law, the law is
// fitted to them, the
// plan made, the planned campaign drawn from the TRUE law and judged; the share of right verdicts
// against the promise.
// npm run bench proposals-campaign, or: node tests/bench/proposals-campaign.mjs [repeats of each
// law, default 40] [promise: leave out the rest].
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";

const require = createRequire(import.meta.url);
const {
  code,
  compare,
  compareAlternatives,
  factorCase,
  planTests,
  readDatasets,
  usualAlternatives,
} = require("../../kernel-lib/dist/index.js");
const { knownLaw, ratioModelOf, testsToSettle } = require("../../kernel-lib/dist/proposals");
const { createRandom, RandomEffectsModel } = require("../../kernel-lib/dist/statistics");

const REPEATS = Number(process.argv[2] ?? 40);
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

async function onTheInventedCampaign() {
  const { tests } = await readDatasets([
    fileURLToPath(new URL("../../datasets/demo", import.meta.url)),
  ]);
  const aci = code("aci318-19");
  console.log("On the invented campaign");
  const found = await timed("case for the factors, 199 resamples", () =>
    factorCase(tests, aci, { seed: 1, resamples: 199 }),
  );
  const outcomes = await timed("alternatives", () =>
    compareAlternatives(found.tests, aci, usualAlternatives(found), ["mode", "bar_material"], {
      modes: found.derived.map(({ mode }) => mode),
    }),
  );
  console.log(
    `    ${outcomes.map(({ label, leastCharacteristic, usedStrength }) => `${label} ${leastCharacteristic?.toFixed(3)} at ${usedStrength?.toFixed(2)}`).join("; ")}`,
  );
  const plan = await timed(
    "plan of the next campaign",
    () =>
      planTests(compare(tests, found.change.proposed), {
        modes: found.derived.map(({ mode }) => mode),
        seed: 1,
      }),
    1,
  );
  console.log(
    `    ${plan.length} cells: ${["settled", "tests needed", "cannot be settled", "no model"].map((finding) => `${plan.filter((one) => one.finding === finding).length} ${finding}`).join(", ")}`,
  );
}

const modelOf = (tests) =>
  new RandomEffectsModel({
    y: tests.map((t) => t.ratio),
    censored: tests.map((t) => t.lowerBound),
    series: tests.map((t) => t.series),
    pointOf: tests.map(() => 0),
    points: [[1]],
    cells: 1,
  });

/** The verdict in general by the bounds themselves; undecided with fewer than 3 series. */
function verdict(tests) {
  if (new Set(tests.filter((t) => !t.lowerBound).map((t) => t.series)).size < 3) return "undecided";
  const { lower, upper } = modelOf(tests).fractile([1], { fractile: 0.05, confidence: 0.9 });
  return lower >= 1 ? "meets" : upper < 1 ? "falls short" : "undecided";
}

const SD = 0.2;
const Z = 1.6448536269514722;

/**
 * Series of 3 from the true law; `stopped`: by a limit with as much scatter, which some 30 % of the
 * tests reach first.
 */
function drawn(random, series, fractile, icc, name, stopped = false) {
  return Array.from({ length: series }, (_, k) => {
    const shift = SD * Math.sqrt(icc) * random.normal();
    return Array.from({ length: 3 }, () => {
      const ratio = fractile + Z * SD + shift + SD * Math.sqrt(1 - icc) * random.normal();
      const limit = stopped ? fractile + (Z + 0.74 + random.normal()) * SD : Infinity;
      return {
        ratio: Math.min(ratio, limit),
        lowerBound: ratio > limit,
        series: `${name}${k}`,
        study: "",
        row: 0,
      };
    });
  }).flat();
}

/**
 * Whether plans keep their promise of 0.8, over the true laws, by the drawn law and by the fitted
 * law taken as known.
 */
function promise() {
  console.log(
    `Is the promise of 0.80 kept? SD ${SD}, series of 3, ${REPEATS} draws of the present tests for each true law; present tests already settled are not planned for`,
  );
  console.log(
    "  fractile ICC series | settled (right) | law drawn: planned, promised, right, wrong | law taken as known: planned, promised, right, wrong",
  );
  const [away, near] = [
    { drawn: [], known: [] },
    { drawn: [], known: [] },
  ];
  for (const fractile of [0.7, 0.85, 1.15, 1.4, 0.95, 1.05])
    for (const icc of [0.2, 0.6])
      for (const present of [3, 5, 8]) {
        const [found, settled] = [{ drawn: [], known: [] }, []];
        for (let r = 0; r < REPEATS; r += 1) {
          const random = createRandom(`promise ${fractile} ${icc} ${present}`).fork(r);
          const tests = drawn(random, present, fractile, icc, "present");
          const truth = fractile >= 1 ? "meets" : "falls short";
          const now = verdict(tests);
          if (now !== "undecided") {
            settled.push(now === truth);
            continue;
          }
          const fitted = ratioModelOf(tests, { distribution: "normal", fractile: 0.05 });
          const model = modelOf(tests);
          const laws = {
            drawn: fitted,
            known: knownLaw({
              mean: model.mean([1]),
              sd: model.sd,
              correlation: model.correlation,
            }),
          };
          for (const [way, law] of Object.entries(laws)) {
            const { further, probability } = testsToSettle(law, tests, { seed: `plan ${r}` });
            if (further === null) continue;
            const after = verdict([
              ...tests,
              ...drawn(random.fork("campaign"), further / 3, fractile, icc, "further"),
            ]);
            found[way].push({
              probability,
              right: after === truth,
              wrong: after !== truth && after !== "undecided",
            });
          }
        }
        const all = Math.abs(fractile - 1) < 0.1 ? near : away;
        for (const way of ["drawn", "known"]) all[way].push(...found[way]);
        console.log(
          `  ${fractile.toFixed(2)} ${icc} ${present} | ${settled.length} (${settled.filter(Boolean).length}) | ${summary(found.drawn)} | ${summary(found.known)}`,
        );
      }
  console.log(
    `  fractile at least 0.15 from 1 | | ${summary(away.drawn)} | ${summary(away.known)}`,
  );
  console.log(`  fractile 0.05 from 1 | | ${summary(near.drawn)} | ${summary(near.known)}`);
}

function summary(plans) {
  if (plans.length === 0) return "0";
  const mean = (of) =>
    (plans.reduce((sum, one) => sum + Number(of(one)), 0) / plans.length).toFixed(2);
  return `${plans.length}, ${mean((p) => p.probability)}, ${mean((p) => p.right)}, ${mean((p) => p.wrong)}`;
}

/**
 * Tests that end early are made up for by further specimens: their lower bounds must not cost what
 * the failures promise.
 */
function withLowerBounds() {
  console.log(
    `Specimens = failures / 0.7, law known, some 30 % of the tests end as lower bounds; ${REPEATS} campaigns each`,
  );
  for (const [fractile, icc] of [
    [1.15, 0.2],
    [1.3, 0.6],
    [0.85, 0.2],
  ]) {
    const { further, probability } = testsToSettle(
      knownLaw({ mean: fractile + Z * SD, sd: SD, correlation: icc }),
      [],
      { seed: 1 },
    );
    if (further === null) {
      console.log(`  ${fractile} ${icc}: no campaign settles it`);
      continue;
    }
    const series = Math.ceil(further / 0.7 / 3);
    const random = createRandom(`lower bounds ${fractile}`);
    let right = 0;
    for (let r = 0; r < REPEATS; r += 1)
      if (
        verdict(drawn(random.fork(r), series, fractile, icc, "s", true)) ===
        (fractile >= 1 ? "meets" : "falls short")
      )
        right += 1;
    console.log(
      `  fractile ${fractile}, ICC ${icc}: ${further} failures promise ${probability.toFixed(2)}; ${3 * series} specimens right in ${(right / REPEATS).toFixed(2)}`,
    );
  }
}

if (process.argv[3] !== "promise") await onTheInventedCampaign();
promise();
withLowerBounds();
