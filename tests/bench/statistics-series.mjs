// Bounds of the 5 % fractile of tests in series: how often each method holds it where 90 % is
// stated, over designs, intraclass
// correlations, lower bounds and laws other than the model's, how far below it the lower bound lies
// on average (in SD), and what it costs.
// npm run bench statistics-series, or: node tests/bench/statistics-series.mjs [samples, default
// 200; four times as many with many series].
import { createRequire } from "node:module";

const require = createRequire(import.meta.url);
const {
  boundByAnalysisOfVariance,
  characteristicBySeries,
  characteristicCensored,
  characteristicValue,
  createRandom,
  normal,
} = require("../../kernel-lib/dist/statistics");

const SAMPLES = Number(process.argv[2] ?? 200);
const Z = -normal().quantile(0.05);
const [CONFIDENCE, PIVOTS] = [0.9, 4000];
const valueOf = (found, value) => (found.status === "ok" ? value(found) : NaN);

const pivots = new Map();
/**
 * Random parts of the generalized pivot, drawn once a design: Z/sqrt(chi2_between), 1/chi2_between,
 * 1/chi2_within. The same draws serve every sample of the design.
 */
function pivotDraws(between, within) {
  const key = `${between} ${within}`;
  if (!pivots.has(key)) {
    const random = createRandom(`pivot ${key}`);
    const chi2 = (nu) => {
      let sum = 0;
      for (let i = 0; i < nu; i += 1) sum += random.normal() ** 2;
      return sum;
    };
    pivots.set(
      key,
      Array.from({ length: PIVOTS }, () => {
        const b = chi2(between);
        return [random.normal() / Math.sqrt(b), 1 / b, 1 / chi2(within)];
      }),
    );
  }
  return pivots.get(key);
}

/**
 * Generalized pivotal quantity of mu - z sqrt(s_b^2 + s_e^2) in the one-way random model with
 * unequal sizes: with the mean of the k series means, SS_m = sum (mean_i - mean)^2, SS_e within
 * series, and the harmonic mean n of the sizes, G = mean + (Z/sqrt(chi2_(k-1))) sqrt(SS_m/k) - z
 * sqrt(SS_m/chi2_(k-1) + (1 - 1/n) SS_e/chi2_(N-k)); the bound is its 10 % point. Krishnamoorthy
 * and Mathew, Technometrics 46 (2004), and Statistical Tolerance Regions (2009), chapter 5 (from
 * memory).
 */
function generalizedPivot({ values, clusters }) {
  const groups = new Map();
  values.forEach((value, i) =>
    groups.set(clusters[i], [...(groups.get(clusters[i]) ?? []), value]),
  );
  const parts = [...groups.values()].map((own) => ({
    n: own.length,
    mean: own.reduce((sum, one) => sum + one, 0) / own.length,
    own,
  }));
  const k = parts.length;
  const mean = parts.reduce((sum, part) => sum + part.mean, 0) / k;
  const between = parts.reduce((sum, part) => sum + (part.mean - mean) ** 2, 0);
  const within = parts.reduce(
    (sum, part) => sum + part.own.reduce((inner, one) => inner + (one - part.mean) ** 2, 0),
    0,
  );
  const rest = 1 - parts.reduce((sum, { n }) => sum + 1 / n, 0) / k;
  const root = Math.sqrt(between / k);
  const found = Float64Array.from(
    pivotDraws(k - 1, values.length - k),
    ([t, b, e]) => mean + t * root - Z * Math.sqrt(between * b + rest * within * e),
  ).sort();
  return found[Math.round((1 - CONFIDENCE) * PIVOTS)];
}

const leavingOut = (sample) =>
  valueOf(characteristicCensored({ ...sample, distribution: "normal" }), (f) => f.characteristic);
// The fit of a sample serves both bounds.
const fits = new WeakMap();
const fitOf = (sample) =>
  fits.get(sample) ?? fits.set(sample, characteristicBySeries(sample)).get(sample);
const included = (sample) => valueOf(fitOf(sample), (f) => f.characteristic);
const exact = {
  "series effect ignored": ({ values }) => valueOf(characteristicValue(values), (f) => f.value),
  "analysis of variance": ({ values, clusters }) =>
    valueOf(boundByAnalysisOfVariance({ values, series: clusters }), (f) => f.value),
};
const WAYS = {
  free: {
    ...exact,
    "generalized pivot": generalizedPivot,
    "leaving out a series": leavingOut,
    "series effect included": included,
  },
  bounded: { "leaving out a series": leavingOut, "series effect included": included },
  many: { ...exact, "generalized pivot": generalizedPivot, "series effect included": included },
};
const upper = (sample) => valueOf(fitOf(sample), (f) => f.upper);

const t4 = (random) =>
  random.normal() /
  Math.sqrt(
    (random.normal() ** 2 + random.normal() ** 2 + random.normal() ** 2 + random.normal() ** 2) / 4,
  ) /
  Math.SQRT2;
const LAWS = {
  normal: { score: (random) => random.normal() },
  // 5 % points of the sum of two such t4 with the variances of ICC 0.3 and 0.8, by quadrature.
  "t4 tails": { score: t4, truth: { 0.3: -1.54604, 0.8: -1.53664 } },
  "lognormal, COV 15 %": {
    score: (random) => random.normal(),
    sd: 0.15,
    shape: (x) => Math.exp(Math.sqrt(Math.log1p(0.15 ** 2)) * x),
  },
  // A fifth of the variance lies between laboratories; the fractile is that of a further
  // laboratory.
  "two laboratories": { score: (random) => random.normal(), lab: 0.2 },
};

function draw(
  random,
  sizes,
  correlation,
  { score, shape = (x) => x, lab = 0 },
  limitAt = Infinity,
) {
  const sample = { values: [], censored: [], clusters: [] };
  const labs = lab > 0 ? [score(random), score(random)] : [0, 0];
  sizes.forEach((n, label) => {
    const shift =
      Math.sqrt(lab) * labs[label % 2] + Math.sqrt((1 - lab) * correlation) * score(random);
    for (let i = 0; i < n; i += 1) {
      const value = shift + Math.sqrt((1 - lab) * (1 - correlation)) * score(random);
      const limit = limitAt === Infinity ? Infinity : limitAt + random.normal();
      sample.values.push(shape(Math.min(value, limit)));
      sample.censored.push(value > limit);
      sample.clusters.push(label);
    }
  });
  return sample;
}

function table(title, kind, cases, samples, limitAt) {
  console.log(
    `${title}; ${samples} samples each: share of lower bounds that hold (mean distance below the fractile in SD; samples without an answer)`,
  );
  const ways = WAYS[kind];
  const spent = Object.fromEntries(Object.keys(ways).map((way) => [way, { time: 0, count: 0 }]));
  for (const { name, sizes, correlation, law = "normal" } of cases) {
    const random = createRandom(`series ${kind} ${name}`);
    const { truth = {}, shape = (x) => x, sd = 1 } = LAWS[law];
    const fractile = shape(truth[correlation] ?? -Z);
    const found = Object.fromEntries(Object.keys(ways).map((way) => [way, []]));
    const uppers = [];
    for (let s = 0; s < samples; s += 1) {
      const sample = draw(random, sizes, correlation, LAWS[law], limitAt);
      for (const [way, bound] of Object.entries(ways)) {
        const start = performance.now();
        found[way].push(bound(sample));
        spent[way].time += performance.now() - start;
        spent[way].count += 1;
      }
      uppers.push(upper(sample));
    }
    const words = Object.entries(found).map(([way, bounds]) => {
      const answered = bounds.filter(Number.isFinite);
      const mean = answered.reduce((sum, one) => sum + (fractile - one) / sd, 0) / answered.length;
      return `${way} ${((100 * answered.filter((one) => one <= fractile).length) / answered.length).toFixed(1)} % (${mean.toFixed(2)}${answered.length < samples ? `; ${samples - answered.length}` : ""})`;
    });
    const above = uppers.filter(Number.isFinite);
    console.log(
      `  ${name}: ${words.join(", ")}; upper bound, series effect included, ${((100 * above.filter((one) => one >= fractile).length) / above.length).toFixed(1)} %`,
    );
  }
  console.log(
    `  time a sample: ${Object.entries(spent)
      .map(([way, { time, count }]) => `${way} ${(time / count).toFixed(2)} ms`)
      .join(", ")}`,
  );
}

const DESIGNS = {
  "3 series of 3 to 5": [3, 4, 5],
  "5 of 3 to 6": [3, 4, 5, 6, 4],
  "8 of 1 to 12": [1, 1, 2, 3, 3, 4, 8, 12],
  "10 of 3 to 10": [3, 3, 4, 4, 5, 5, 6, 6, 8, 10],
  "25 of 3 to 7": Array.from({ length: 25 }, (_, i) => 3 + (i % 5)),
};
const few = Object.entries(DESIGNS).flatMap(([design, sizes]) =>
  [0, 0.2, 0.5, 0.8].map((correlation) => ({
    name: `${design}, ICC ${correlation}`,
    sizes,
    correlation,
  })),
);
const MANY = { "60 series of 10": [60, 10], "100 of 5": [100, 5], "200 of 3": [200, 3] };
const many = Object.entries(MANY).flatMap(([design, [k, n]]) =>
  [0.6, 0.75, 0.85, 0.95].map((correlation) => ({
    name: `${design}, ICC ${correlation}`,
    sizes: Array(k).fill(n),
    correlation,
  })),
);
const other = Object.keys(LAWS)
  .slice(1)
  .flatMap((law) =>
    [5, 15, 60].flatMap((k) =>
      [0.3, 0.8].map((correlation) => ({
        name: `${law}, ${k} series of 3 to 5, ICC ${correlation}`,
        law,
        correlation,
        sizes: Array.from({ length: k }, (_, i) => 3 + (i % 3)),
      })),
    ),
  );

table("Few series, no lower bounds", "free", few, SAMPLES);
// A limit that scatters as the values do cuts off the wanted share.
table(
  "Few series, 30 % lower bounds",
  "bounded",
  few,
  SAMPLES,
  Math.SQRT2 * normal().quantile(0.7),
);
table("Many series that differ", "many", many, 4 * SAMPLES);
table("Other laws than the model's", "many", other, 4 * SAMPLES);
