import { createHash } from "node:crypto";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { parseTests, readTests, testsCsv, TestTable } from "../../kernel-lib/src/dataset";
import { visitPieces, visitRecords } from "../../kernel-lib/src/dataset/reading/delimited-text";
import { generateDemonstration } from "../../kernel-lib/src/demonstration";
import { createRandom } from "../../kernel-lib/src/statistics/random";

const random = createRandom("pieces");

/** A text cut at random places gives the records of the whole text. */
function records(text: string, cuts: number): { rows: unknown[]; broken: unknown } {
  const places = Array.from({ length: cuts }, () => random.integer(text.length + 1)).sort((a, b) => a - b);
  const pieces = [0, ...places].map((from, k) => text.slice(from, places[k] ?? text.length));
  const rows: unknown[] = [];
  const broken = visitPieces(pieces, text.includes("\n") ? "\n" : "\r", ",", (cells, row, fault) => rows.push([row, fault, ...cells]));
  return { rows, broken };
}

describe("a text in pieces", () => {
  it("gives the records of the whole, wherever it is cut: quotes, quoted line ends, CRLF, CR, blank lines, broken quotes", () => {
    const parts = ["a,b", '"x,1",2', '"two\nlines",3', '"say ""so""",4', "", "5\",6", '"odd"tail,7', "ä,€", '"never closed,8'];
    for (let round = 0; round < 600; round += 1) {
      const end = ["\n", "\r\n", "\r"][round % 3] ?? "\n";
      const text = Array.from({ length: 1 + random.integer(12) }, () => parts[random.integer(round % 5 === 0 ? parts.length : parts.length - 1)] ?? "").join(end) + (round % 2 === 0 ? end : "");
      const rows: unknown[] = [];
      const broken = visitRecords(text, ",", (cells, row, fault) => rows.push([row, fault, ...cells]));
      expect(records(text, random.integer(6))).toEqual({ rows, broken });
    }
  });

  it("a file of many pieces is read as its bytes are, with its own SHA-256, in every encoding", async () => {
    const folder = mkdtempSync(join(tmpdir(), "large-"));
    try {
      const demo = generateDemonstration(1).tests;
      const text = testsCsv(TestTable.fromRows(Array.from({ length: 3000 }, (_, i) => ({ ...demo[i % demo.length]!, test_id: `Prüfkörper-Nr-${String(i)}`, remarks: i % 7 === 0 ? 'said "so", twice' : null }))));
      const whole = parseTests(new TextEncoder().encode(text), "t.csv").tests.rows();
      expect(whole).toHaveLength(3000);
      for (const encoding of ["utf8", "latin1", "utf16le"] as const) {
        const bytes = Buffer.concat([encoding === "utf16le" ? Buffer.from([0xff, 0xfe]) : Buffer.alloc(0), Buffer.from(text, encoding)]);
        writeFileSync(join(folder, "t.csv"), bytes);
        const read = await readTests(join(folder, "t.csv"));
        expect(read.tests.rows()).toEqual(whole);
        expect(read.sha256).toBe(createHash("sha256").update(bytes).digest("hex"));
      }
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
