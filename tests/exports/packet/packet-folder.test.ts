import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { zipEntries } from "../../../kernel-lib/src/dataset";
import { checkDocument } from "../../../kernel-lib/src/exports/document";
import { writeManifest, verifyManifest } from "../../../kernel-lib/src/exports/manifest";
import { writePacket } from "../../../kernel-lib/src/exports/packet";
import { HOSTILE, hostilePacket } from "./packet-model";

const { model, characteristic, rounded, supported } = hostilePacket();

describe("the model", () => {
  it("takes its numbers from the results", () => {
    const [cover] = model.sections;
    expect(cover!.id).toBe("answer");
    expect(JSON.stringify(cover)).toContain(characteristic.toFixed(3));
    const tables = cover!.blocks.flatMap((block) => (block.kind === "table" ? [block.table] : []));
    expect(tables.map(({ id }) => id)).toEqual(["changes", "modes-without-change"]);
    expect(tables[0]!.column("lower_before")).toEqual([characteristic]);
    expect(tables[0]!.column("factor")).toEqual([rounded.toFixed(2)]);
    // Every row is in the sentence: 10 tests used, and those excluded.
    expect(JSON.stringify(cover!.blocks.at(-1))).toContain(
      `10 of ${10 + HOSTILE.length} rows read are used: 10 failures`,
    );
    expect(model.stamp).toContain("invented");
    const account = model.sections
      .flatMap(({ blocks }) => blocks)
      .flatMap((block) =>
        block.kind === "table" && block.table.id === "account-of-rows"
          ? block.table.column("n").map(Number)
          : [],
      );
    expect(account.reduce((sum, n) => sum + n, 0)).toBe(10 + HOSTILE.length);
  });
  it("names criterion and support of a proposal before any text that uses it, in the first table of its factor", () => {
    const blocks = model.sections.find(({ id }) => id === "proposal")!.blocks;
    const first = blocks.flatMap((block) => (block.kind === "table" ? [block.table] : []))[0]!;
    expect([
      first.column("criterion"),
      first.column("supported"),
      first.column("without_study"),
    ]).toEqual([["fractile"], [supported ? "yes" : "no"], ["one study only"]]);
    expect(JSON.stringify(blocks[1])).toContain('criterion \\\"fractile\\\"');
    if (!supported) expect(JSON.stringify(blocks[1])).toContain("supported: no");
  });
  it("refuses an anchor twice and an empty section", () => {
    expect(() =>
      checkDocument({ ...model, sections: [...model.sections, model.sections[0]!] }),
    ).toThrow("each anchor once");
    expect(() =>
      checkDocument({ ...model, sections: [{ id: "a", title: "A", blocks: [] }] }),
    ).toThrow('The section "A" is empty');
  });
});

describe("the folder", () => {
  it("holds single files and an archive that a manifest vouches for", async () => {
    const folder = mkdtempSync(join(tmpdir(), "packet-"));
    const names = await writePacket(model, folder, [
      { name: "hand-check.xlsx", content: new Uint8Array([1, 2]) },
    ]);
    expect(names).toEqual(
      expect.arrayContaining([
        "packet.html",
        "packet.docx",
        "packet.pdf",
        "packet.zip",
        "hand-check.xlsx",
        "figures/strips.svg",
        "figures/strips.png",
        "figures/strips.pdf",
        "tables/ratios.csv",
        "tables/ratios.xlsx",
        "tables/ratios.tex",
      ]),
    );
    const archive = zipEntries(
      new Uint8Array(readFileSync(join(folder, "packet.zip"))),
      () => true,
    );
    expect([...archive.keys()]).toEqual(names.filter((name) => name !== "packet.zip"));
    // The font's own license asks that its notices go with copies of it.
    const notices = readFileSync(join(folder, "NOTICES.txt"), "utf8");
    for (const words of [
      "DejaVu",
      "Copyright (c) 2003 by Bitstream, Inc.",
      "Copyright (c) 2006 by Tavmjong Bah",
      "shall be included in all copies",
    ])
      expect(notices.replace(/\s+/g, " ")).toContain(words);
    for (const [name, content] of archive)
      expect(readFileSync(join(folder, name)).equals(content)).toBe(true);
    await writeManifest(folder, { caution: "", madeWith: {}, inputs: {} });
    expect(await verifyManifest(folder)).toEqual([]);
    writeFileSync(join(folder, "tables/ratios.csv"), "changed");
    expect(await verifyManifest(folder)).toEqual([
      "tables/ratios.csv: content differs from the manifest",
    ]);
    // With digests of the data's rows it is still a manifest; what is none is refused in words.
    const tests = { columns: ["peak_load_kN"], tests: { "A-1": "abcdefghAB" } };
    await writeManifest(folder, {
      caution: "",
      madeWith: {},
      inputs: { "demo/tests.csv": "0".repeat(64) },
      rowDigests: { "demo/tests.csv": tests },
    });
    expect(await verifyManifest(folder)).toEqual([]);
    for (const [text, says] of [
      ["{", "is not valid JSON"],
      ['{"files":[]}', "is no manifest"],
      [
        JSON.stringify({ caution: "", madeWith: {}, inputs: {}, files: [], rowDigests: { x: 3 } }),
        "is no manifest (/rowDigests/x",
      ],
    ] as const) {
      writeFileSync(join(folder, "manifest.json"), text);
      await expect(verifyManifest(folder)).rejects.toThrow(says);
    }
  }, 300_000);
});
