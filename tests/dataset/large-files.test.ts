import { createHash } from "node:crypto";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { parseTests, readTests, testsCsv, TestTable } from "../../kernel-lib/src/dataset";
import { MAXIMUM_BYTES } from "../../kernel-lib/src/dataset/reading/read-table";
import { generateDemonstration } from "../../kernel-lib/src/demonstration";

describe("large files", () => {
  it("a file is read as its bytes are, with its own SHA-256, in every encoding", async () => {
    const folder = mkdtempSync(join(tmpdir(), "large-"));
    try {
      const demo = generateDemonstration(1).tests;
      const text = testsCsv(
        TestTable.fromRows(
          Array.from({ length: 3000 }, (_, i) => ({
            ...demo[i % demo.length]!,
            test_id: `Prüfkörper-Nr-${String(i)}`,
            remarks: i % 7 === 0 ? 'said "so", twice' : null,
          })),
        ),
      );
      const whole = parseTests(new TextEncoder().encode(text), "t.csv").tests.rows();
      expect(whole).toHaveLength(3000);
      for (const encoding of ["utf8", "latin1", "utf16le"] as const) {
        const bytes = Buffer.concat([
          encoding === "utf16le" ? Buffer.from([0xff, 0xfe]) : Buffer.alloc(0),
          Buffer.from(text, encoding),
        ]);
        writeFileSync(join(folder, "t.csv"), bytes);
        const read = await readTests(join(folder, "t.csv"));
        expect(read.tests.rows()).toEqual(whole);
        expect(read.sha256).toBe(createHash("sha256").update(bytes).digest("hex"));
      }
    } finally {
      rmSync(folder, { recursive: true });
    }
  });

  it("a file larger than the library holds is refused with its size and the limit, and nothing of it is read", () => {
    const { tests, rejected, diagnostics } = parseTests(new Uint8Array(MAXIMUM_BYTES + 1), "t.csv");
    expect([tests.length, rejected.length]).toEqual([0, 0]);
    expect(diagnostics.map(({ rule, message }) => [rule, message])).toEqual([
      ["too-large", "t.csv has 200000001 bytes, expected at most 200000000; split it"],
    ]);
  });
});
