// First-order reliability and Monte Carlo simulation; numpy beside the simulation where present.
import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { createRequire } from "node:module";

const require = createRequire(import.meta.url);
const {
  designLimitState,
  factorForTargetIndex,
  firstOrderReliability,
  limitStateOf,
  loadModel,
  marginal,
  simulatedReliability,
} = require("../../kernel-lib/dist/proposals");
const { normal } = require("../../kernel-lib/dist/statistics");

/**
 * Least and middle time of several runs, ms: on a machine that others use, the least tells most.
 */
const times = (work, runs = 15) => {
  const all = Array.from({ length: runs }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  }).sort((a, b) => a - b);
  return `${all[0].toFixed(1)} ms (middle ${all[runs >> 1].toFixed(1)})`;
};
const loads = loadModel("nowak-2003");
const shares = Array.from({ length: 1000 }, (_, i) => 0.2 + 0.6 * (i / 999));
const states = shares.map((share, i) =>
  designLimitState(
    { resistance: { bias: 1.1, cov: 0.1 + (0.1 * (i % 7)) / 6 }, loads },
    0.7,
    share,
  ),
);
console.log(
  `1000 first-order solves, log-normal R, normal D, Gumbel L: ${times(() => states.forEach((state) => firstOrderReliability(state)))} (wanted: under 20)`,
);
const pairs = shares.map((share) => ({
  names: ["R", "Q"],
  marginals: [marginal("lognormal", 2, 0.1 + share / 10), marginal("lognormal", 1, 0.2)],
  g: ([r, q]) => r - q,
}));
console.log(
  `1000 first-order solves, log-normal pair, no gradient given: ${times(() => pairs.forEach((state) => firstOrderReliability(state)))}`,
);
console.log(
  `resistance factor for a target, five load ratios: ${times(() => factorForTargetIndex({ resistance: { bias: 1.1, cov: 0.15 }, loads, targetIndex: 3.5, n: 12 }))}`,
);

const variables = {
  M: marginal("lognormal", 1.15, 0.12),
  P: marginal("lognormal", 1.1, 0.15),
  D: normal(0.5, 0.05),
  L: marginal("lognormal", 0.3, 0.25),
};
const four = limitStateOf("M * P - D - L", variables);
const settings = { samples: 10_000_000, seed: 1, sampling: "crude" };
const asFunction = {
  names: four.names,
  marginals: four.marginals,
  g: (x) => x[0] * x[1] - x[2] - x[3],
};
const numpy = `
import numpy as np, time
t, c = time.perf_counter(), time.process_time(); rng = np.random.default_rng(1); n = 10_000_000
ln = lambda m, v: np.exp(np.log(m) - np.log1p(v*v)/2 + np.sqrt(np.log1p(v*v)) * rng.standard_normal(n))
p = np.mean(ln(1.15,.12) * ln(1.1,.15) - (0.5 + 0.05 * rng.standard_normal(n)) - ln(.3,.25) < 0)
print((time.perf_counter() - t) * 1e3, (time.process_time() - c) * 1e3, p)`;
// Settings for the linear algebra of another build of numpy may stand in the environment; one
// thread, as it is by itself here.
const { OPENBLAS_CORETYPE: _core, OPENBLAS_L2_SIZE: _size, ...environment } = process.env;
const runs = {
  "limit state as a formula": () => simulatedReliability(four, settings),
  "limit state as a function": () => simulatedReliability(asFunction, settings),
};
const best = new Map();
const note = (name, clock, cpu, p) => {
  const known = best.get(name) ?? { clock: Infinity, cpu: Infinity };
  best.set(name, { clock: Math.min(known.clock, clock), cpu: Math.min(known.cpu, cpu), p });
};
const python = existsSync("/usr/bin/python3");
// In turns, so that a busy moment of the machine hits all of them alike.
for (let round = 0; round < 4; round += 1) {
  for (const [name, work] of Object.entries(runs)) {
    const [start, spent] = [performance.now(), process.cpuUsage()];
    const { failureProbability } = work();
    const { user, system } = process.cpuUsage(spent);
    note(name, performance.now() - start, (user + system) / 1e3, failureProbability);
  }
  if (python)
    note(
      "numpy, the same, one thread",
      ...execFileSync("/usr/bin/python3", ["-c", numpy], {
        env: { ...environment, OMP_NUM_THREADS: "1" },
      })
        .toString()
        .split(" ")
        .map(Number),
    );
}
const peer = best.get("numpy, the same, one thread");
console.log(
  "Monte Carlo, 1e7 samples of 4 variables; least of 4 runs in turns, by the clock and by processor time (wanted: at most 1.0 of numpy's):",
);
for (const [name, { clock, cpu, p }] of best) {
  const share =
    peer && peer.p !== p
      ? `, ${(clock / peer.clock).toFixed(2)} of numpy by the clock, ${(cpu / peer.cpu).toFixed(2)} by processor time`
      : "";
  console.log(
    `  ${name}: ${clock.toFixed(0)} ms, processor ${cpu.toFixed(0)} ms, p ${p.toExponential(3)}${share}`,
  );
}
if (!peer) console.log("  python is not here: numpy skipped");
