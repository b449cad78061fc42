// Reading and checking 100,000 tests (CSV + schema + suspicious values), beside pandas when it is
// present.
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";

const require = createRequire(import.meta.url);
const { parseTests, testsCsv, TestTable } = require("../../kernel-lib/dist/dataset");
const { generateDemonstration } = require("../../kernel-lib/dist/demonstration");

const ROWS = 100_000;
const { tests } = generateDemonstration(1);
const rows = Array.from({ length: ROWS }, (_, i) => ({
  ...tests[i % tests.length],
  test_id: `t-${i}`,
}));
const text = testsCsv(TestTable.fromRows(rows));
const plain = new TextEncoder().encode(text);
const quoted = new TextEncoder().encode(text.replace("t-0,", '"t-0",'));

function best(work) {
  let least = Infinity;
  for (let k = 0; k < 5; k += 1) {
    const start = performance.now();
    work();
    least = Math.min(least, performance.now() - start);
  }
  return least;
}
const report = (what, ms) => console.log(`${what.padEnd(58)} ${ms.toFixed(0).padStart(6)} ms`);

const declared = new Set(["bar_family", "layout"]);
const check = (bytes) => {
  const reading = parseTests(bytes, "tests.csv", { declared });
  if (reading.tests.length !== ROWS || reading.rejected.length !== 0)
    throw new Error("rows were lost");
};
report(
  `read and check ${ROWS} rows (${(plain.length / 1e6).toFixed(1)} MB), no quotes`,
  best(() => check(plain)),
);
report(
  "the same with a quoted cell",
  best(() => check(quoted)),
);

const folder = mkdtempSync(join(tmpdir(), "bench-"));
const file = join(folder, "tests.csv");
writeFileSync(file, plain);
const python = spawnSync(
  "/usr/bin/python3",
  [
    "-c",
    `import pandas, time
times = []
for k in range(3):
    t = time.perf_counter(); f = pandas.read_csv(${JSON.stringify(file)}); times.append(time.perf_counter() - t)
print(min(times) * 1000, len(f))`,
  ],
  { encoding: "utf8" },
);
if (python.status === 0)
  report("pandas.read_csv of the same file, no checks", Number(python.stdout.split(" ")[0]));
else console.log("pandas is not present: peer skipped");

// What 100 MB take: a process of its own, so that its peak is its own.
const large = join(folder, "large.csv");
const lines = text.trimEnd().split("\n");
const times = Math.ceil(100e6 / plain.length);
writeFileSync(
  large,
  [
    lines[0],
    ...Array.from({ length: times }, (_, k) =>
      lines
        .slice(1)
        .map((line) => line.replace("t-", `t-${k}-`))
        .join("\n"),
    ),
  ].join("\n"),
);
const child = spawnSync(
  process.execPath,
  [
    "-e",
    `const { readTests } = require(process.argv[1]);
const t = performance.now();
void readTests(process.argv[2]).then(({ tests, rejected }) => console.log(tests.length, rejected.length, Math.round(performance.now() - t), Math.round(process.resourceUsage().maxRSS / 1024)));`,
    require.resolve("../../kernel-lib/dist/dataset"),
    large,
  ],
  { encoding: "utf8" },
);
const [read, aside, ms, megabytes] = child.stdout.split(" ").map(Number);
if (read !== times * ROWS || aside !== 0)
  throw new Error(`rows of the large file were lost: ${child.stdout}${child.stderr}`);
report(
  `${read} rows (${((times * plain.length) / 1e6).toFixed(0)} MB), at most ${megabytes} MB of memory`,
  ms,
);
rmSync(folder, { recursive: true });
