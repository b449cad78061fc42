// Exact tolerance factors, characteristic values and random numbers; scipy and R beside them where
// present.
import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { createRequire } from "node:module";

const require = createRequire(import.meta.url);
const {
  toleranceFactor,
  characteristicValue,
  createRandom,
  studentizedRange,
  studentT,
  welchTest,
} = require("../../kernel-lib/dist/statistics");

function time(label, count, work) {
  for (let i = 0; i < Math.min(count, 200); i++) work(i);
  const rounds = [];
  for (let r = 0; r < 5; r++) {
    const start = performance.now();
    for (let i = 0; i < count; i++) work(i + r * count + 1000);
    rounds.push(((performance.now() - start) / count) * 1000);
  }
  rounds.sort((a, b) => a - b);
  console.log(`${label}: ${rounds[2].toFixed(3)} us`);
}

for (const n of [3, 5, 10, 40, 1000])
  time(`exact K, n ${n}, not remembered`, 300, (i) =>
    toleranceFactor({ n, confidence: 0.9 + i * 1e-6 }),
  );
time("exact K, remembered", 10_000, () => toleranceFactor({ n: 5 }));
const values = [42, 45, 51, 47, 44];
time("characteristic value of five", 10_000, () => characteristicValue(values));
time("Welch test", 3000, () => welchTest(values, [40, 39, 37, 44]));
time("t quantile", 3000, (i) => studentT(3 + i * 1e-3).quantile(0.975));
time("studentised range quantile", 20, (i) =>
  studentizedRange(4, 5 + i * 0.01).upperQuantile(0.05),
);
const random = createRandom(1);
let sum = 0;
time("normal number", 1_000_000, () => {
  sum += random.normal();
});
time("uniform number", 1_000_000, () => {
  sum += random.uniform();
});

// Coverage: the 90 % bound lies below the 5 % fractile in 90 ± 1 % of 20,000 normal samples.
for (const n of [5, 10, 30]) {
  let held = 0;
  for (let i = 0; i < 20_000; i++) {
    const bound = characteristicValue(Float64Array.from({ length: n }, () => random.normal()));
    if (bound.value <= -1.6448536269514722) held += 1;
  }
  const share = held / 20_000;
  console.log(
    `coverage of the 90 % characteristic value, n ${n}: ${(100 * share).toFixed(2)} % ${Math.abs(share - 0.9) <= 0.01 ? "holds" : "DOES NOT HOLD"}`,
  );
}

peer("/usr/bin/python3", [
  "-c",
  "import timeit;from scipy.stats import nct;print('scipy nct.ppf, n 5: %.0f us'%(timeit.timeit(lambda: nct.ppf(.9,4,3.678004),number=50)/50*1e6))",
]);
peer("/usr/bin/Rscript", [
  "-e",
  "t<-system.time(for(i in 1:500) qt(.9,4,ncp=3.678004))[3];cat(sprintf('R qt(ncp), n 5: %.0f us\\n',t/500*1e6))",
]);

function peer(program, parameters) {
  if (!existsSync(program)) return console.log(`${program} is not here: peer skipped`);
  try {
    process.stdout.write(
      execFileSync(program, parameters, { stdio: ["ignore", "pipe", "ignore"] }).toString(),
    );
  } catch {
    console.log(`${program} could not run its part: peer skipped`);
  }
}
