import { spawnSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import {
  checkSignature,
  checkReviewRecord,
  readReviewRecord,
  recordSha256,
  reportHtml,
  signatureFile,
  writeReviewRecord,
  writeSignature,
} from "../../kernel-lib/src/notebook";
import type { NotebookReview, ReviewRecord } from "../../kernel-lib/src/notebook";
import { contradictionsIn } from "../../kernel-lib/src/notebook/record/contradictions";
import { Signing } from "../../kernel-lib/src/cli/notebook/signing";
import { notebookOf, scratchFolder } from "./notebook-in-scratch";

type Cell = ReviewRecord["notebooks"][number]["cells"][number];

function cellOf(number: number, change: Partial<Cell> = {}): Cell {
  return {
    number,
    id: `c${number}`,
    verdict: "same",
    explanation: "",
    tolerance: 1e-9,
    largest_relative_difference: null,
    opinion: "",
    remark: "",
    ...change,
  };
}

function recordOf(cells: readonly Cell[], change: Partial<ReviewRecord> = {}): ReviewRecord {
  const hash = "0".repeat(64);
  return {
    schema: "code-comparison-review/3",
    reviewer: "A. Reviewer",
    signed: "2026-01-02T03:04:05.000Z",
    reproduced: true,
    excused_accepted: false,
    environment: { node: "20.0.0", tslab: "1.0.22", library: hash, lock_file: "", inputs: {} },
    notebooks: [
      {
        name: "a.ipynb",
        sha256: hash,
        reproduced: true,
        code_cells: 2,
        reasons: [],
        notes: [],
        cells,
      },
    ],
    ...change,
  };
}

const BOTH = [cellOf(1), cellOf(2)];

describe("a record that contradicts itself is found out", () => {
  test.each([
    ["none", recordOf(BOTH), []],
    [
      "cells failed, yet reproduced",
      recordOf([cellOf(1), cellOf(2, { verdict: "failed" })]),
      ["a.ipynb is called reproduced, and cell 2 has failed"],
    ],
    [
      "one cell of two",
      recordOf([cellOf(1)]),
      ["the record says reproduced, and only 1 of 2 cells of a.ipynb were reviewed"],
    ],
    ["a cell more", recordOf([...BOTH, cellOf(3)]), ["a.ipynb: 3 cells reviewed of 2"]],
    [
      "a cell twice",
      recordOf([cellOf(1), cellOf(1)]),
      ["a.ipynb: the cells are not numbered from 1 in order"],
    ],
    [
      "no notebook",
      recordOf(BOTH, { notebooks: [] }),
      ["the record says reproduced, and names no notebook"],
    ],
    [
      "a notebook twice",
      recordOf(BOTH, { notebooks: [...recordOf(BOTH).notebooks, ...recordOf(BOTH).notebooks] }),
      ["the record names a.ipynb more than once"],
    ],
    [
      "the same, yet apart",
      recordOf([cellOf(1, { largest_relative_difference: 0.5 }), cellOf(2)]),
      ["a.ipynb, cell 1: the same, and yet 0.5 apart"],
    ],
    [
      "within tolerance, yet beyond",
      recordOf([
        cellOf(1, { verdict: "within_tolerance", largest_relative_difference: 1e-3 }),
        cellOf(2),
      ]),
      ["a.ipynb, cell 1: within the tolerance 1e-9, and yet 0.001 apart"],
    ],
    [
      "signed in the future",
      recordOf(BOTH, { signed: "2999-01-01T00:00:00.000Z" }),
      ["the record is signed in the future, 2999-01-01T00:00:00.000Z"],
    ],
  ] as const)("%s", (_name, record, found) => {
    expect(contradictionsIn(record)).toEqual(found);
  });

  test("an excused cell holds only with the reviewer's consent", () => {
    const cells = [cellOf(1), cellOf(2, { verdict: "excused" })];
    const [notebook] = recordOf(cells).notebooks;
    const notebooks = [{ ...notebook!, reproduced: false }];
    expect(contradictionsIn(recordOf(cells, { notebooks }))).toEqual([
      "a.ipynb: the author excuses cell 2, and the reviewer has not accepted it",
      "the record says reproduced, and a.ipynb was not",
    ]);
    expect(contradictionsIn(recordOf(cells, { notebooks, excused_accepted: true }))).toEqual([]);
  });

  test("cells that the notebook has and the record leaves out, and a record without environment", async () => {
    const file = notebookOf(["1", "2", "3"]);
    const { createHash } = await import("node:crypto");
    const sha256 = createHash("sha256").update(readFileSync(file)).digest("hex");
    const [notebook] = recordOf(BOTH).notebooks;
    const record = recordOf(BOTH, {
      notebooks: [{ ...notebook!, name: file.split("/").pop()!, sha256 }],
    });
    expect(await checkReviewRecord(record, [file], [])).toContain(
      `${file} has 3 code cells, the record says 2`,
    );
    const { environment: _left, ...without } = record;
    const path = join(scratchFolder(), "review-record.json");
    writeFileSync(path, JSON.stringify(without));
    await expect(readReviewRecord(path)).rejects.toThrow("environment");
  });
});

describe("the detached signature", () => {
  // RFC 8032, section 7.1, test 1 (from memory, agrees with Node): the seed, the public key, and the signature of no bytes.
  const seed = "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60";
  const known = "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a";
  const signed =
    "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b";
  const pem = (bytes: string, kind: string): string =>
    `-----BEGIN ${kind} KEY-----\n${Buffer.from(bytes, "hex").toString("base64")}\n-----END ${kind} KEY-----\n`;

  test("is that of RFC 8032, and holds for the bytes and the key that it was made with", async () => {
    const folder = scratchFolder();
    const at = (name: string): string => join(folder, name);
    writeFileSync(at("key.pem"), pem(`302e020100300506032b657004220420${seed}`, "PRIVATE"));
    writeFileSync(at("public.pem"), pem(`302a300506032b6570032100${known}`, "PUBLIC"));
    writeFileSync(at("other.pem"), pem(`302a300506032b6570032100${signed.slice(0, 64)}`, "PUBLIC"));
    writeFileSync(at("record.json"), "");
    const key = await writeSignature(at("record.json"), at("key.pem"));
    const parts = JSON.parse(readFileSync(signatureFile(at("record.json")), "utf8")) as Record<
      string,
      string
    >;
    expect(Buffer.from(parts["signature"]!, "base64").toString("hex")).toBe(signed);
    expect(Buffer.from(parts["public_key"]!, "base64").toString("hex")).toBe(known);
    for (const file of [undefined, at("public.pem"), at("key.pem")])
      expect(await checkSignature(at("record.json"), file)).toEqual({
        signedBy: key,
        problems: [],
      });
    expect((await checkSignature(at("record.json"), at("other.pem"))).problems).toEqual([
      `the record is signed with the key ${key}, not with ${at("other.pem")}`,
    ]);
    writeFileSync(at("record.json"), " ");
    expect((await checkSignature(at("record.json"))).problems).toEqual([
      `${signatureFile(at("record.json"))} is not the signature of this record: one of the two was changed`,
    ]);
    writeFileSync(signatureFile(at("record.json")), "{}");
    expect((await checkSignature(at("record.json"))).problems[0]).toContain("is no signature");
    expect(await checkSignature(at("key.pem"))).toEqual({ problems: [] });
    expect((await checkSignature(at("key.pem"), at("public.pem"))).problems[0]).toContain(
      "there is no signature",
    );
    await expect(writeSignature(at("record.json"), at("public.pem"))).rejects.toThrow(
      "is no private Ed25519 key",
    );
    await expect(writeSignature(at("record.json"), at("none"))).rejects.toThrow("there is no key");
  });

  const tool = spawnSync("ssh-keygen", ["-?"]).error === undefined;
  if (!tool) console.log("skipped: keys of OpenSSH, as ssh-keygen is not installed");
  test.skipIf(!tool)(
    "takes a key of ssh-keygen, under the fingerprint that it prints",
    async () => {
      const folder = scratchFolder();
      const [key, record] = [join(folder, "key"), join(folder, "record.json")];
      const make = (file: string, word: string): unknown =>
        spawnSync("ssh-keygen", ["-q", "-t", "ed25519", "-N", word, "-C", "", "-f", file]);
      make(key, "");
      make(`${key}-locked`, "a passphrase");
      const printed = spawnSync("ssh-keygen", ["-l", "-f", `${key}.pub`], { encoding: "utf8" });
      writeFileSync(record, "{}");
      const signedBy = await writeSignature(record, key);
      expect(printed.stdout).toContain(` ${signedBy} `);
      expect(await checkSignature(record, `${key}.pub`)).toEqual({ signedBy, problems: [] });
      await expect(writeSignature(record, `${key}-locked`)).rejects.toThrow("without a passphrase");
    },
  );
});

describe("signing a review", () => {
  const review: NotebookReview = {
    name: "a.ipynb",
    hash: "1".repeat(64),
    cells: [],
    reproduced: true,
    cellCount: 0,
    reasons: ["data file datasets/loads.csv has changed"],
    notes: [],
    seconds: 1,
  };

  test("the report carries reviewer, date, versions, hashes, the record's own and what changed", async () => {
    const folder = scratchFolder();
    const signing = new Signing(folder, { inputs: [] });
    expect(await reportHtml([review], await signing.of([review]))).toContain("Not signed.");
    expect(await signing.sign("A. <b>Reviewer</b>", [review])).toContain("review-record.json");
    const record = await readReviewRecord(signing.file);
    const { createHash } = await import("node:crypto");
    const sha256 = createHash("sha256").update(readFileSync(signing.file)).digest("hex");
    expect(recordSha256(record)).toBe(sha256);
    const html = readFileSync(join(folder, "report.html"), "utf8");
    for (const part of [
      "A. &lt;b&gt;Reviewer&lt;/b&gt;",
      record.signed,
      process.versions.node,
      record.environment.library,
      record.environment.lock_file,
      review.hash,
      sha256,
      "data file datasets/loads.csv has changed",
      "none: the record carries a name, no seal",
    ])
      expect(html).toContain(part);
    expect(await reportHtml([review], await signing.of([review]))).toBe(html);
    const later = { ...review, notes: ["after cell 3 the reviewer evaluated rows.length = 0"] };
    expect(await signing.of([later])).toBeUndefined();
    await writeReviewRecord(signing.file, record);
  });
});
