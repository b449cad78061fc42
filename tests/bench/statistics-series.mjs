// Lower bounds of tests in series: how often each way holds the 5 % fractile where 90 % is stated, over designs, intraclass
// correlations and lower bounds, how low it lies on average (in SD), and what it costs. npm run bench statistics-series, or: node tests/bench/statistics-series.mjs [samples, default 200].
import { createRequire } from "node:module";

const require = createRequire(import.meta.url);
const { boundByAnalysisOfVariance, characteristicBySeries, characteristicCensored, characteristicValue, createRandom, normal } = require("../../kernel-lib/dist/statistics");

const SAMPLES = Number(process.argv[2] ?? 200);
const Z = 1.6448536269514722;
const DESIGNS = { "3 series of 3 to 5": [3, 4, 5], "5 of 3 to 6": [3, 4, 5, 6, 4], "8 of 1 to 12": [1, 1, 2, 3, 3, 4, 8, 12], "10 of 3 to 10": [3, 3, 4, 4, 5, 5, 6, 6, 8, 10], "25 of 3 to 7": Array.from({ length: 25 }, (_, i) => 3 + (i % 5)) };
const CORRELATIONS = [0, 0.2, 0.5, 0.8];
const told = (found, value) => (found.status === "ok" ? value(found) : NaN);
const ways = {
  free: {
    "as independent": ({ values }) => told(characteristicValue(values), (f) => f.value),
    "analysis of variance": ({ values, clusters }) => told(boundByAnalysisOfVariance({ values, series: clusters }), (f) => f.value),
    "leaving out a series": (sample) => told(characteristicCensored({ ...sample, distribution: "normal" }), (f) => f.characteristic),
    "counted by series": (sample) => told(characteristicBySeries(sample), (f) => f.characteristic),
  },
  bounded: {
    "leaving out a series": (sample) => told(characteristicCensored({ ...sample, distribution: "normal" }), (f) => f.characteristic),
    "counted by series": (sample) => told(characteristicBySeries(sample), (f) => f.characteristic),
  },
};

function draw(random, sizes, correlation, limitAt) {
  const sample = { values: [], censored: [], clusters: [] };
  sizes.forEach((n, label) => {
    const shift = Math.sqrt(correlation) * random.normal();
    for (let i = 0; i < n; i += 1) {
      const value = shift + Math.sqrt(1 - correlation) * random.normal();
      const limit = limitAt === Infinity ? Infinity : limitAt + random.normal();
      sample.values.push(Math.min(value, limit));
      sample.censored.push(value > limit);
      sample.clusters.push(label);
    }
  });
  return sample;
}

for (const [kind, some] of Object.entries(ways)) {
  const share = kind === "free" ? 0 : 0.3;
  console.log(`${share * 100} % lower bounds, ${SAMPLES} samples each: share that holds (mean bound in SD; samples without an answer)`);
  const spent = Object.fromEntries(Object.keys(some).map((way) => [way, { time: 0, count: 0 }]));
  const random = createRandom(`series ${kind}`);
  for (const [design, sizes] of Object.entries(DESIGNS)) {
    for (const correlation of CORRELATIONS) {
      const found = Object.fromEntries(Object.keys(some).map((way) => [way, []]));
      for (let s = 0; s < SAMPLES; s += 1) {
        // A limit that scatters as the values do cuts off the wanted share.
        const sample = draw(random, sizes, correlation, share === 0 ? Infinity : Math.SQRT2 * normal().quantile(1 - share));
        for (const [way, bound] of Object.entries(some)) {
          const start = performance.now();
          found[way].push(bound(sample));
          spent[way].time += performance.now() - start;
          spent[way].count += 1;
        }
      }
      const words = Object.entries(found).map(([way, bounds]) => {
        const answered = bounds.filter(Number.isFinite);
        return `${way} ${((100 * answered.filter((one) => one <= -Z).length) / answered.length).toFixed(1)} % (${(answered.reduce((sum, one) => sum + one, 0) / answered.length).toFixed(2)}${answered.length < SAMPLES ? `; ${SAMPLES - answered.length}` : ""})`;
      });
      console.log(`  ${design}, ICC ${correlation}: ${words.join(", ")}`);
    }
  }
  console.log(`  time a sample: ${Object.entries(spent).map(([way, { time, count }]) => `${way} ${(time / count).toFixed(2)} ms`).join(", ")}`);
}
