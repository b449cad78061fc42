// Mutated files (5,000, or as many as the first argument says) through every reader: never a crash, a hang, an impossible number or a touched prototype.
import { createRequire } from "node:module";

const require = createRequire(import.meta.url);
const { parseCurve, parseDataPackage, parseStudies, parseTests, parseTestsJson, testsCsv, TestTable } = require("../../kernel-lib/dist/dataset");
const { generateDemonstration } = require("../../kernel-lib/dist/demonstration");
const { createRandom } = require("../../kernel-lib/dist/statistics/random");

const COUNT = Number(process.argv[2] ?? 5_000);
const PIECES = ['"', '""', "\n", "\r", "\r\n", ",", ";", "\t", "\u0000", "\ufeff", "NaN", "1e999", "-", "__proto__", "constructor", "é", "0x1", "1,000", "toString", "[", "{", "}"];
const rows = generateDemonstration(1).tests.slice(0, 4);
const seeds = [testsCsv(TestTable.fromRows(rows)), JSON.stringify(rows.map(({ extra: _extra, ...row }) => row)), "test_id;peak_load_lbf\n;lbf\na;1,5\n", 'load_kN,free_mm\n1,2\n"3",4\n', "study_id,provenance\na,own\n"].map((text) => new TextEncoder().encode(text));
const random = createRandom("bench fuzz");

function mutated(bytes) {
  let current = Array.from(bytes);
  for (let changes = 1 + random.integer(6); changes > 0; changes -= 1) {
    const at = random.integer(current.length + 1);
    const kind = random.integer(4);
    if (kind === 0) current[at] = random.integer(256);
    else if (kind === 1) current.splice(at, 1 + random.integer(20));
    else if (kind === 2) current.length = at;
    else current.splice(at, 0, ...new TextEncoder().encode(random.choice(PIECES)));
  }
  return Uint8Array.from(current);
}

const start = performance.now();
let slowest = 0;
for (let k = 0; k < COUNT; k += 1) {
  const bytes = mutated(random.choice(seeds));
  const before = performance.now();
  for (const read of [parseTests, parseTestsJson]) {
    const { tests } = read(bytes, "fuzz");
    if (!tests.numbers("peak_load_kN").every((load) => load > 0 && Number.isFinite(load))) throw new Error(`an impossible load in input ${k}`);
  }
  parseStudies(bytes, "fuzz");
  parseCurve(bytes, "fuzz");
  parseDataPackage(new TextDecoder().decode(bytes), "fuzz");
  slowest = Math.max(slowest, performance.now() - before);
}
if (Object.keys(Object.prototype).length > 0) throw new Error("the prototype of all objects was touched");
console.log(`${COUNT} mutated files, 5 readers each: ${((performance.now() - start) / 1000).toFixed(1)} s, slowest ${slowest.toFixed(0)} ms, no crash`);
