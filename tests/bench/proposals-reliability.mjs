// First-order reliability and Monte Carlo simulation; numpy beside the simulation where present.
import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { createRequire } from "node:module";

const require = createRequire(import.meta.url);
const { designLimitState, factorForTargetIndex, firstOrderReliability, loadModel, marginal, simulatedReliability } = require("../../kernel-lib/dist/proposals");
const { normal } = require("../../kernel-lib/dist/statistics");

const median = (work) => {
  const times = Array.from({ length: 7 }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  }).sort((a, b) => a - b);
  return times[3];
};
const loads = loadModel("nowak-2003");
const shares = Array.from({ length: 1000 }, (_, i) => 0.2 + 0.6 * (i / 999));
const states = shares.map((share, i) => designLimitState({ resistance: { bias: 1.1, cov: 0.1 + 0.1 * (i % 7) / 6 }, loads }, 0.7, share));
console.log(`1000 first-order solves, log-normal R, normal D, Gumbel L: ${median(() => states.forEach((state) => firstOrderReliability(state))).toFixed(1)} ms (wanted: under 20)`);
const pairs = shares.map((share) => ({ names: ["R", "Q"], marginals: [marginal("lognormal", 2, 0.1 + share / 10), marginal("lognormal", 1, 0.2)], g: ([r, q]) => r - q }));
console.log(`1000 first-order solves, log-normal pair, no gradient given: ${median(() => pairs.forEach((state) => firstOrderReliability(state))).toFixed(1)} ms`);
console.log(`resistance factor for a target, five load ratios: ${median(() => factorForTargetIndex({ resistance: { bias: 1.1, cov: 0.15 }, loads, targetIndex: 3.5, n: 12 })).toFixed(2)} ms`);

const four = {
  names: ["M", "P", "D", "L"],
  marginals: [marginal("lognormal", 1.15, 0.12), marginal("lognormal", 1.1, 0.15), normal(0.5, 0.05), marginal("lognormal", 0.3, 0.25)],
  g: (x) => x[0] * x[1] - x[2] - x[3],
};
const start = performance.now();
const found = simulatedReliability(four, { samples: 10_000_000, seed: 1, sampling: "crude" });
console.log(`Monte Carlo, 1e7 samples of 4 variables, one thread: ${(performance.now() - start).toFixed(0)} ms, p ${found.failureProbability?.toExponential(3)}`);
const numpy = `
import numpy as np, time
t = time.perf_counter(); rng = np.random.default_rng(1); n = 10_000_000
ln = lambda m, v: np.exp(np.log(m) - np.log1p(v*v)/2 + np.sqrt(np.log1p(v*v)) * rng.standard_normal(n))
p = np.mean(ln(1.15,.12) * ln(1.1,.15) - (0.5 + 0.05 * rng.standard_normal(n)) - ln(.3,.25) < 0)
print("numpy, the same: %.0f ms, p %.3e" % ((time.perf_counter() - t) * 1e3, p))`;
if (existsSync("/usr/bin/python3")) process.stdout.write(execFileSync("/usr/bin/python3", ["-c", numpy]).toString());
else console.log("python is not here: numpy skipped");
