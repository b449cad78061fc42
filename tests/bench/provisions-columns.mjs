// Capacities by column: all modes of ACI 318-19 for 100,000 tests, and its tension modes for
// 1,000,000 beside numpy.
import { spawnSync } from "node:child_process";
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";

const require = createRequire(import.meta.url);
const { TestTable } = require("../../kernel-lib/dist/dataset");
const {
  code,
  predict,
  governing,
  governingMap,
  elasticities,
  trace,
} = require("../../kernel-lib/dist/provisions");

/** The columns of tests/bench/peers/aci318_tension.py, made the same way. */
function tests(n, groups) {
  const part = (prime) =>
    Float64Array.from({ length: n }, (_, i) => ((i + 1) * Math.sqrt(prime)) % 1);
  const [strength, depth, size, edge1, edge2, bond, bar] = [2, 3, 5, 7, 11, 13, 17].map(part);
  const diameter = size.map((u) => [9.5, 12.7, 15.9, 19.1, 25.4][Math.floor(5 * u)]);
  const embedment = diameter.map((d, i) => d * (5 + 14 * depth[i]));
  const numbers = {
    concrete_strength_MPa: strength.map((u) => 20 + 30 * u),
    embedment_mm: embedment,
    bar_diameter_mm: diameter,
    edge_1_mm: edge1.map((u, i) => embedment[i] * (0.5 + 2.5 * u)),
    edge_2_mm: edge2.map((u, i) => embedment[i] * (0.5 + 2.5 * u)),
    bond_strength_char_MPa: bond.map((u) => 6 + 10 * u),
    bond_strength_uncracked_char_MPa: bond.map((u) => 6 + 10 * u),
    bar_strength_MPa: bar.map((u) => 500 + 700 * u),
    bar_shear_strength_MPa: bar.map((u) => 120 + 80 * u),
    member_thickness_mm: strength.map((u) => 200 + 400 * u),
    ...(groups
      ? { group_nx: bar.map((u) => (u < 0.2 ? 2 : 1)), spacing_x_mm: bond.map((u) => 60 + 600 * u) }
      : {}),
  };
  const words = {
    concrete_strength_basis: "cylinder",
    installation: "post_installed",
    bar_material: "gfrp",
    cracked: "yes",
    concrete_type: "normal",
    setup: "unconfined_tension",
    action: "tension",
  };
  const texts = Object.fromEntries(
    Object.entries(words).map(([name, word]) => [name, new Array(n).fill(word)]),
  );
  return new TestTable(n, {
    numbers: new Map(Object.entries(numbers)),
    texts: new Map(Object.entries(texts)),
  });
}

function best(work) {
  let least = Infinity;
  for (let k = 0; k < 5; k += 1) {
    const start = performance.now();
    work();
    least = Math.min(least, performance.now() - start);
  }
  return least;
}
const report = (what, ms) => console.log(`${what.padEnd(72)} ${ms.toFixed(1).padStart(7)} ms`);

const aci = code("aci318-19");
const hundredThousand = tests(100_000, false);
report(
  `${aci.provisions.length} provisions of ACI 318-19, 100,000 tests`,
  best(() => predict(aci, hundredThousand)),
);
const prediction = predict(aci, hundredThousand);
report(
  "governing capacity of the same",
  best(() => governing(prediction)),
);
const grouped = tests(100_000, true);
report(
  "the same with a fifth of them groups of two, some of which part",
  best(() => predict(aci, grouped)),
);
const few = tests(30, false);
let other = 0;
report(
  "30 tests, all provisions, under an option not met before",
  best(() => predict(aci, few, { options: { product_c_ac: 100 + (other += 1) } })),
);
report(
  "30 tests, all provisions, met before",
  best(() => predict(aci, few)),
);
report(
  "30 tests, all provisions, with every hand calculation",
  best(() => {
    for (let i = 0; i < 30; i++)
      for (const provision of aci.provisions) trace(aci, provision, few, i);
  }),
);

const axis = (column, from, to) => ({
  column,
  values: Array.from({ length: 60 }, (_, k) => from + ((to - from) * k) / 59),
});
report(
  "which mode governs over 60 x 60 embedments and strengths",
  best(() =>
    governingMap(aci, few, 3, {
      x: axis("embedment_mm", 60, 400),
      y: axis("concrete_strength_MPa", 20, 60),
    }),
  ),
);
report(
  "elasticities of all capacities of a row",
  best(() => elasticities(aci, few, 3)),
);

const inTension = new Set(["17.6.1.2", "17.6.2", "17.6.5"].map((clause) => `aci318-19/${clause}`));
const tension = { ...aci, provisions: aci.provisions.filter(({ id }) => inTension.has(id)) };
const million = tests(1_000_000, false);
const loads = million
  .numbers("concrete_strength_MPa")
  .map((strength) => 20 + (80 * (strength - 20)) / 30);
/**
 * Three capacities with their limits and missing values, the governing one, and the ratio of the
 * load to it.
 */
function whole() {
  const prediction = predict(tension, million);
  const least = governing(prediction);
  const ratio = new Float64Array(million.length);
  for (let i = 0; i < ratio.length; i++) ratio[i] = (loads[i] * 1000) / least.capacity[i];
  return { prediction, least, ratio };
}
/**
 * Least wall and least processor time of all threads, ms; where other work runs, only the second
 * says what it takes.
 */
function both(work, repeats = 7) {
  let [wall, processor] = [Infinity, Infinity];
  for (let k = 0; k < repeats; k++) {
    const [start, busy] = [performance.now(), process.cpuUsage()];
    work();
    const { user, system } = process.cpuUsage(busy);
    [wall, processor] = [
      Math.min(wall, performance.now() - start),
      Math.min(processor, (user + system) / 1000),
    ];
  }
  return { wall, processor };
}
const times = (what, { wall, processor }) =>
  console.log(
    `${what.padEnd(72)} ${wall.toFixed(1).padStart(7)} ms, processor ${processor.toFixed(1).padStart(6)} ms`,
  );

times(
  "bar strength, breakout and bond in tension, 1,000,000 tests",
  both(() => predict(tension, million)),
);
const ours = both(whole);
times("the same with the governing capacity, its mode and the ratio", ours);
const collect = (setFlagsFromString("--expose-gc"), runInNewContext("gc"));
collect();
const before = process.memoryUsage().arrayBuffers;
const { prediction: last, least, ratio } = whole();
const inputs =
  [
    "concrete_strength_MPa",
    "embedment_mm",
    "bar_diameter_mm",
    "edge_1_mm",
    "edge_2_mm",
    "bond_strength_char_MPa",
    "bar_strength_MPa",
  ].length * 8e6;
console.log(
  `memory taken: ${((process.memoryUsage().arrayBuffers - before) / inputs).toFixed(2)} times the ${inputs / 1e6} MB of the number columns read (at most 4)`,
);
const sums = [...last.columns.map(({ capacity }) => capacity), least.capacity, ratio].map(
  (column) => column.reduce((sum, value) => sum + value, 0),
);

const { OPENBLAS_CORETYPE: _core, OPENBLAS_L2_SIZE: _cache, ...environment } = process.env;
const peer = spawnSync(
  "/usr/bin/python3",
  [fileURLToPath(new URL("peers/aci318_tension.py", import.meta.url)), "1000000"],
  { encoding: "utf8", env: { ...environment, OMP_NUM_THREADS: "1" } },
);
if (peer.status === 0) {
  const [wall, processor, bareWall, bareProcessor, ...theirs] = peer.stdout
    .trim()
    .split(" ")
    .map(Number);
  times("numpy, all of it: limits, missing values, governing, ratio", { wall, processor });
  times("numpy, bare: three capacities for rows known to be alike", {
    wall: bareWall,
    processor: bareProcessor,
  });
  console.log(
    `all of it takes ${(ours.wall / wall).toFixed(2)} times the wall time and ${(ours.processor / processor).toFixed(2)} times the processor time of numpy (aim 0.6)`,
  );
  const apart = Math.max(...sums.map((sum, k) => Math.abs(sum / theirs[k] - 1)));
  console.log(
    `largest relative difference of the sums from numpy: ${apart.toExponential(1)} ${apart < 1e-11 ? "(agree)" : "(DO NOT AGREE)"}`,
  );
} else console.log("numpy is not present: peer skipped");
