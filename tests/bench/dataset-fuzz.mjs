// 100,000 mutated inputs (or as many as the first argument says) through the readers of CSV, JSON,
// spreadsheets, studies, curves, reduced
// values and descriptors: never a crash, a hang, an impossible number or a touched prototype.
import { createRequire } from "node:module";

const require = createRequire(import.meta.url);
const { deflateRawSync } = require("node:zlib");
const { parseCurve } = require("../../kernel-lib/dist/curves");
const {
  parseCurveValues,
  parseDataPackage,
  parseStudies,
  parseTests,
  parseTestsJson,
  parseTestsSpreadsheet,
  testsCsv,
  TestTable,
} = require("../../kernel-lib/dist/dataset");
const { generateDemonstration } = require("../../kernel-lib/dist/demonstration");
const { createRandom } = require("../../kernel-lib/dist/statistics/random");

const COUNT = Number(process.argv[2] ?? 100_000);
const PIECES = [
  '"',
  '""',
  "\n",
  "\r",
  "\r\n",
  ",",
  ";",
  "\t",
  "\u0000",
  "\ufeff",
  "NaN",
  "1e999",
  "-",
  "__proto__",
  "constructor",
  "é",
  "0x1",
  "1,000",
  "toString",
  "[",
  "{",
  "}",
  "<",
  "</c>",
  "&#0;",
  'r="A99999999"',
];
const bytesOf = (text) => new TextEncoder().encode(text);
const rows = generateDemonstration(1)
  .tests.slice(0, 2)
  .map(({ extra: _extra, ...row }) => row);
const sheet = (cells) =>
  `<row>${cells.map((value) => (typeof value === "number" ? `<c><v>${value}</v></c>` : `<c t="inlineStr"><is><t>${value ?? ""}</t></is></c>`)).join("")}</row>`;

/** A zip archive as small as the reader needs it. */
function zip(entries) {
  const locals = [];
  const directory = [];
  let offset = 0;
  for (const [name, content] of Object.entries(entries)) {
    const packed = deflateRawSync(content);
    const local = Buffer.alloc(30);
    local.writeUInt32LE(0x04034b50, 0);
    local.writeUInt16LE(8, 8);
    local.writeUInt32LE(packed.length, 18);
    local.writeUInt16LE(name.length, 26);
    const central = Buffer.alloc(46);
    central.writeUInt32LE(0x02014b50, 0);
    central.writeUInt16LE(8, 10);
    central.writeUInt32LE(packed.length, 20);
    central.writeUInt32LE(content.length, 24);
    central.writeUInt16LE(name.length, 28);
    central.writeUInt32LE(offset, 42);
    locals.push(local, Buffer.from(name), packed);
    directory.push(central, Buffer.from(name));
    offset += 30 + name.length + packed.length;
  }
  const end = Buffer.alloc(22);
  end.writeUInt32LE(0x06054b50, 0);
  end.writeUInt16LE(Object.keys(entries).length, 10);
  end.writeUInt32LE(offset, 16);
  return Uint8Array.from(Buffer.concat([...locals, ...directory, end]));
}
const workbook = (inner) =>
  zip({
    "xl/workbook.xml":
      '<workbook><sheets><sheet name="A" sheetId="1" r:id="r1"/></sheets></workbook>',
    "xl/_rels/workbook.xml.rels":
      '<Relationships><Relationship Id="r1" Target="worksheets/sheet1.xml"/></Relationships>',
    "xl/worksheets/sheet1.xml": inner,
  });

const sheetXml = bytesOf(
  `<worksheet><sheetData>${sheet(Object.keys(rows[0]))}${rows.map((row) => sheet(Object.values(row))).join("")}</sheetData></worksheet>`,
);
/**
 * Each kind of file with its reader; what is mutated is the file, or for the sheet the text inside
 * the archive.
 */
const kinds = [
  { seed: bytesOf(testsCsv(TestTable.fromRows(rows))), read: parseTests },
  {
    seed: bytesOf("Title;;\ntest_id;peak_load;failure_mode\n;lbf;\na;1,5;bond\n"),
    read: parseTests,
  },
  { seed: bytesOf(JSON.stringify(rows)), read: parseTestsJson },
  { seed: sheetXml, read: (bytes, file) => parseTestsSpreadsheet(workbook(bytes), file) },
  { seed: workbook(sheetXml), read: parseTestsSpreadsheet },
  { seed: bytesOf("study_id,provenance\na,own\n"), read: parseStudies },
  {
    seed: bytesOf(
      `load_kN,free_mm\n${Array.from({ length: 12 }, (_, i) => `${i},"${i}"`).join("\n")}\n`,
    ),
    read: parseCurve,
  },
  { seed: bytesOf("test_id,curve,curve_peak_kN\na,b,3.5\n"), read: parseCurveValues },
  {
    seed: bytesOf(
      '{"name":"x","resources":[{"name":"tests","path":"tests.csv","dialect":{"headerRows":[1]},"schema":{"fields":[{"name":"a"}]}}]}',
    ),
    read: (bytes, file) => parseDataPackage(new TextDecoder().decode(bytes), file),
  },
];
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
  const { seed, read } = kinds[k % kinds.length];
  const bytes = mutated(seed);
  const before = performance.now();
  const { tests, curve } = read(bytes, "fuzz");
  if (
    tests !== undefined &&
    !tests.numbers("peak_load_kN").every((load) => load > 0 && Number.isFinite(load))
  )
    throw new Error(`an impossible load in input ${k}`);
  if (curve && !curve.load_kN.every(Number.isFinite))
    throw new Error(`an impossible reading in input ${k}`);
  slowest = Math.max(slowest, performance.now() - before);
}
if (Object.keys(Object.prototype).length > 0)
  throw new Error("the prototype of all objects was touched");
console.log(
  `${COUNT} mutated inputs for ${kinds.length} readers: ${((performance.now() - start) / 1000).toFixed(1)} s, slowest ${slowest.toFixed(0)} ms, no crash`,
);
