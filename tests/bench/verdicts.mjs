// How often a verdict is wrong, and how often there is one: groups of ratios drawn from a known
// law, judged by judgeGroup.
// `meets` is an error where the true 5 % fractile is below 1, `falls short` where it is at least 1;
// each may be wrong in
// 10 % of samples (90 % confidence); a group of four layouts has the fractile of its worst. Errors
// above 10 % + 3 standard errors are marked "*".
// npm run bench verdicts, or: node tests/bench/verdicts.mjs [samples a scenario, default 1000]
// [threads, default 2] [part...].
import { createRequire } from "node:module";
import { isMainThread, parentPort, Worker, workerData } from "node:worker_threads";

const require = createRequire(import.meta.url);
const { createRandom, studentT, normal } = require("../../kernel-lib/dist/statistics");
const { judgeGroup } = require("../../kernel-lib/dist/comparison/judging/judge-group.js");
const {
  verdictAsTested,
} = require("../../kernel-lib/dist/comparison/judging/verdict-as-tested.js");
const {
  verdictInGeneral,
} = require("../../kernel-lib/dist/comparison/judging/verdict-in-general.js");

const COV = 0.15;
const Z = -normal().quantile(0.05);
const BELOW = 1 - 1e-9;
const TRUTHS = [0.8, 0.9, 0.95, BELOW, 1, 1.05, 1.1, 1.2];
const STATED = 0.1;
const FACTS = { min: null, criterion: "bench", meansWithoutSd: 0 };
const question = (distribution, target = 1) => ({
  fractile: 0.05,
  confidence: 0.9,
  distribution,
  target,
});

/**
 * Standard scores: normal, or t with 4 degrees of freedom, each with variance 1; the score of their
 * 5 % fractile.
 */
const SCORES = {
  normal: (random) => random.normal(),
  t4: (random) =>
    random.normal() /
    Math.sqrt(
      (random.normal() ** 2 + random.normal() ** 2 + random.normal() ** 2 + random.normal() ** 2) /
        4,
    ) /
    Math.SQRT2,
};

/**
 * 5 % fractile of sqrt(a) U + sqrt(1 - a) V, both t4 with variance 1, by the trapezoidal rule over
 * U and bisection.
 */
function fractileOfT4(a) {
  const t = studentT(4);
  const step = 0.1;
  const nodes = Array.from({ length: 801 }, (_, i) => (i - 400) * step).map((u) => ({
    u,
    weight: step * t.pdf(u),
  }));
  const below = (x) =>
    nodes.reduce(
      (sum, { u, weight }) =>
        sum + weight * t.cdf((x * Math.SQRT2 - Math.sqrt(a) * u) / Math.sqrt(1 - a)),
      0,
    );
  let [low, high] = [-4, 0];
  for (let i = 0; i < 24; i += 1)
    [low, high] =
      below((low + high) / 2) < 0.05 ? [(low + high) / 2, high] : [low, (low + high) / 2];
  return low;
}

/** One group whose true 5 % fractile is 1 in its worst cell. */
function draw(
  random,
  {
    sizes,
    icc,
    lab = 0,
    tails = "normal",
    law = "normal",
    bounds = 0,
    cells = null,
    place = [0, 1, 2, 3],
    score = -Z,
  },
) {
  const sd = law === "normal" ? COV : Math.sqrt(Math.log1p(COV ** 2));
  const ratioAt = (x) => (law === "normal" ? 1 + sd * x : Math.exp(sd * x));
  const median = 1 / ratioAt(score);
  const at = SCORES[tails];
  const labs = [at(random), at(random)];
  const limitAt = bounds > 0 ? Math.SQRT2 * normal().quantile(1 - bounds) : Infinity;
  const [tests, rows] = [[], []];
  sizes.forEach((n, k) => {
    const shift = Math.sqrt(lab) * labs[k % 2] + Math.sqrt(icc * (1 - lab)) * at(random);
    const layout = place[k % place.length];
    const noise = [random.normal() > 0, random.normal() > 0, random.normal() > 0];
    for (let i = 0; i < n; i += 1) {
      const value = shift + Math.sqrt((1 - icc) * (1 - lab)) * at(random);
      const limit = limitAt === Infinity ? Infinity : limitAt + random.normal();
      tests.push({
        ratio: (cells === null ? 1 : cells[layout]) * median * ratioAt(Math.min(value, limit)),
        lowerBound: value > limit,
        series: `s${k}`,
        study: `l${k % 2}`,
        row: tests.length,
      });
      rows.push([cells === null ? "" : `layout ${layout}`, ...noise.map(String)]);
    }
  });
  const columns = ["layout", "adhesive", "cracked", "setup"].map((name, j) => ({
    name,
    valueOf: (row) => rows[row][j],
  }));
  return { tests, columns };
}

/**
 * Verdicts of one sample at each true fractile c. All ratios times c have the fractile c, and every
 * bound is in proportion, so that the sample at c is judged against the target as the sample at 1
 * against target/c; `check` judges the multiplied sample itself.
 */
function verdictsOf(
  { tests, columns },
  { judgedAs = "normal", cells = null, choice = "found" },
  check,
) {
  const chosen =
    cells === null
      ? { stated: null, candidates: [] }
      : choice === "stated"
        ? { stated: columns.slice(0, 1), candidates: [] }
        : { stated: null, candidates: columns };
  const n = tests.filter(({ lowerBound }) => !lowerBound).length;
  const judged = judgeGroup(tests, question(judgedAs), chosen, { ...FACTS, n });
  const { asTested, inGeneral, general } = judged;
  const facts = { ...FACTS, n, cellColumns: inGeneral.cellColumns };
  const words = TRUTHS.map((c) => [
    asTested.fractile === null
      ? asTested.verdict
      : verdictAsTested({ ...asTested, k: null }, question(judgedAs, 1 / c), facts).verdict,
    general === null
      ? inGeneral.verdict
      : verdictInGeneral(general, question(judgedAs, 1 / c), facts).verdict,
  ]);
  if (check) {
    TRUTHS.forEach((c, i) => {
      if (c === BELOW || c === 1) return;
      const again = judgeGroup(
        tests.map((one) => ({ ...one, ratio: one.ratio * c })),
        question(judgedAs),
        chosen,
        { ...FACTS, n },
      );
      if (again.asTested.verdict !== words[i][0] || again.inGeneral.verdict !== words[i][1])
        throw new Error(
          `judged at ${c}: ${again.asTested.verdict}, ${again.inGeneral.verdict}; by proportion ${words[i].join(", ")}`,
        );
    });
  }
  return { words, parted: inGeneral.cellColumns.join() };
}

function runOf(scenario, samples) {
  const random = createRandom(`verdicts ${scenario.name}`);
  const score = scenario.tails === "t4" ? fractileOfT4(scenario.icc) : -Z;
  const counts = [0, 1].map(() => TRUTHS.map(() => ({})));
  const parted = {};
  const sizes = (s) => Array.from({ length: scenario.series }, (_, k) => 3 + ((k + s) % 3));
  for (let s = 0; s < samples; s += 1) {
    const found = verdictsOf(
      draw(random, { ...scenario, score, sizes: scenario.sizes ?? sizes(s) }),
      scenario,
      s < 2,
    );
    parted[found.parted] = (parted[found.parted] ?? 0) + 1;
    found.words.forEach((both, i) =>
      both.forEach((word, j) => {
        counts[j][i][word] = (counts[j][i][word] ?? 0) + 1;
      }),
    );
  }
  return { samples, counts, parted };
}

const ICCS = [0, 0.3, 0.6, 0.9];
const all = (lists, make) =>
  lists
    .reduce((made, list) => made.flatMap((one) => list.map((value) => [...one, value])), [[]])
    .map((values) => make(...values));
const PARTS = {
  "one cell": all([[1, 2, 3, 5, 8, 15, 40], ICCS], (series, icc) => ({
    series,
    icc,
    name: `${series} series, ICC ${icc}`,
  })),
  "lower bounds": all([[1, 2, 3, 5, 8, 15, 40], ICCS], (series, icc) => ({
    bounds: 0.3,
    series,
    icc,
    name: `${series} series, ICC ${icc}, 30 % lower bounds`,
  })),
  "four layouts": [
    ...all(
      [
        ["stated", "found"],
        [
          [1, 1.3, 1.3, 1.3],
          [1, 1.1, 1.2, 1.3],
          [1, 1, 1, 1],
        ],
        [12, 20],
        ICCS,
      ],
      (choice, cells, series, icc) => ({
        choice,
        cells,
        series,
        icc,
        name: `cells ${choice}, fractiles x ${cells.join(", ")}, ${series / 4} series each, ICC ${icc}`,
      }),
    ),
    // Worst cell with fewer series than the 5 of each of the others.
    ...all(
      [
        ["stated", "found"],
        [2, 3],
        [0.3, 0.9],
      ],
      (choice, few, icc) => ({
        choice,
        cells: [1, 1.3, 1.3, 1.3],
        series: 15 + few,
        icc,
        place: [0, 1, 2, 3].flatMap((layout) => Array(layout === 0 ? few : 5).fill(layout)),
        name: `cells ${choice}, fractiles x 1, 1.3, 1.3, 1.3, ${few} series in the worst and 5 in the others, ICC ${icc}`,
      }),
    ),
  ],
  "other laws": all(
    [
      [
        "lognormal truth judged as normal",
        "normal truth judged as lognormal",
        "t4 tails",
        "two laboratories",
      ],
      [3, 5, 8, 15, 40],
      [0.3, 0.6],
    ],
    (kind, series, icc) => ({
      series,
      icc,
      name: `${kind}, ${series} series, ICC ${icc}`,
      law: kind.startsWith("lognormal") ? "lognormal" : "normal",
      judgedAs: kind.endsWith("lognormal") ? "lognormal" : "normal",
      tails: kind.startsWith("t4") ? "t4" : "normal",
      lab: kind.startsWith("two") ? 0.2 : 0,
    }),
  ),
};
/** Samples of a scenario, as a share: searches with lower bounds cost most. */
const effort = ({ part, series }) =>
  part === "one cell"
    ? 1
    : part === "four layouts"
      ? 0.2
      : part === "other laws"
        ? 0.5
        : series >= 40
          ? 0.15
          : series >= 15
            ? 0.3
            : 0.6;

if (isMainThread) {
  const words = process.argv.slice(2);
  const [samples = 1000, threads = 2] = words.filter((word) => /^\d+$/.test(word)).map(Number);
  const parts = Object.keys(PARTS).filter(
    (part) => words.every((word) => /^\d+$/.test(word)) || words.includes(part),
  );
  const scenarios = parts.flatMap((part) => PARTS[part].map((scenario) => ({ part, ...scenario })));
  const found = new Array(scenarios.length);
  let next = 0;
  // Each scenario has a seed of its own: the numbers do not depend on the threads.
  await Promise.all(
    Array.from(
      { length: threads },
      () =>
        new Promise((resolve, reject) => {
          const worker = new Worker(new URL(import.meta.url), { workerData: {} });
          const give = () =>
            next < scenarios.length
              ? worker.postMessage({
                  at: next,
                  scenario: scenarios[next],
                  samples: Math.ceil(samples * effort(scenarios[next++])),
                })
              : worker.terminate().then(resolve);
          worker.on("message", ({ at, result }) => {
            found[at] = result;
            give();
          });
          worker.once("error", reject);
          give();
        }),
    ),
  );
  print(scenarios, found);
} else {
  parentPort.on("message", ({ at, scenario, samples }) =>
    parentPort.postMessage({ at, result: runOf(scenario, samples) }),
  );
}

function print(scenarios, found) {
  const over = [];
  for (const [j, which] of [
    [1, "in general"],
    [0, "as tested (right only where ICC is 0: the series effect is ignored)"],
  ]) {
    for (const part of j === 1 ? Object.keys(PARTS) : ["one cell", "lower bounds"]) {
      const own = scenarios
        .map((scenario, i) => ({ scenario, ...found[i] }))
        .filter(({ scenario }) => scenario.part === part);
      if (own.length === 0) continue;
      console.log(
        `\n${part}, ${which}; true fractile ${TRUTHS.map((c) => (c === BELOW ? "1-" : c.toFixed(2))).join(", ")}\n  scenario | meets, % | falls short, % | undecided at 1, % | no verdict, %`,
      );
      for (const { scenario, samples, counts, parted } of own) {
        const shareOf = (i, word) => (counts[j][i][word] ?? 0) / samples;
        const limit = STATED + 3 * Math.sqrt((STATED * (1 - STATED)) / samples);
        const cell = (word, wrong) =>
          TRUTHS.map((c, i) => {
            const value = shareOf(i, word);
            const marked = wrong(c) && value > limit;
            if (marked && j === 1 && scenario.part !== "other laws")
              over.push(
                `${scenario.name}: ${word} in ${(100 * value).toFixed(1)} % at ${c.toFixed(2)}`,
              );
            return `${(100 * value).toFixed(value < 0.0995 ? 1 : 0)}${marked ? "*" : ""}`;
          }).join(" ");
        const none = shareOf(4, "too few series") + shareOf(4, "too few tests");
        const cells =
          scenario.choice === "found"
            ? ` | cells: ${Object.entries(parted)
                .sort((a, b) => b[1] - a[1])
                .slice(0, 2)
                .map(
                  ([name, count]) => `${name || "none"} ${((100 * count) / samples).toFixed(0)} %`,
                )
                .join(", ")}`
            : "";
        console.log(
          `  ${scenario.name} | ${cell("meets", (c) => c < 1)} | ${cell("falls short", (c) => c >= 1)} | ${(100 * shareOf(4, "undecided")).toFixed(0)} | ${(100 * none).toFixed(0)}${cells}`,
        );
      }
    }
  }
  console.log(
    over.length === 0
      ? "\nunder the model, no error in general above 10 % + 3 standard errors"
      : `\nunder the model, errors in general above 10 % + 3 standard errors:\n  ${over.join("\n  ")}`,
  );
}
