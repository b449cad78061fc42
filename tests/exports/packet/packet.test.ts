import { execFileSync, spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium, type Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { zipEntries } from "../../../kernel-lib/src/dataset";
import { writeManifest, verifyManifest } from "../../../kernel-lib/src/exports/manifest";
import {
  checkDocument,
  documentDocx,
  documentHtml,
  documentPdf,
} from "../../../kernel-lib/src/exports/document";
import { writePacket } from "../../../kernel-lib/src/exports/packet";
import { officeAbsent, throughOffice } from "../recalculated";
import { HOSTILE, hostilePacket } from "./packet-model";

const { model, characteristic, rounded, supported } = hostilePacket();
const same = (a: Uint8Array, b: Uint8Array): boolean => Buffer.from(a).equals(Buffer.from(b));
const tool = (name: string): string | undefined =>
  [`/usr/bin/${name}`, `/usr/local/bin/${name}`].find((file) => existsSync(file));
const pdfTools = ["pdftotext", "pdffonts", "qpdf"].every((name) => tool(name) !== undefined);
if (!pdfTools)
  console.log(
    "skipped: the PDF read by pdftotext, pdffonts and qpdf, because they are not installed",
  );
if (tool("tidy") === undefined)
  console.log("skipped: the HTML read by a checker, because tidy is not installed");
const chrome = tool("chromium");
if (chrome === undefined)
  console.log("skipped: the HTML read in a browser, because Chromium is not installed");
const flat = (text: string): string => text.replace(/\s+/g, " ");

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

describe("the packet in its formats", () => {
  let html: string;
  let docx: Uint8Array;
  let pdf: Uint8Array;
  beforeAll(async () => {
    [html, docx, pdf] = [
      await documentHtml(model),
      await documentDocx(model),
      await documentPdf(model),
    ];
  }, 300_000);

  it("repeats to the byte", async () => {
    expect(await documentHtml(model)).toBe(html);
    expect(same(await documentDocx(model), docx)).toBe(true);
    expect(same(await documentPdf(model), pdf)).toBe(true);
  }, 300_000);

  it("holds no live script and asks for nothing outside", () => {
    expect(html).not.toMatch(/<script|<link|<iframe/i);
    expect(html).not.toMatch(/(?:src|href)="(?!#|data:)/);
    expect(html).toContain("&lt;script&gt;alert(1)&lt;/script&gt;");
  });

  it("has real headings, native tables, editable equations and marked changes in the document", () => {
    const xml = new TextDecoder().decode(
      zipEntries(docx, (name) => name === "word/document.xml").get("word/document.xml"),
    );
    expect(xml.match(/<w:pStyle w:val="Heading1"\/>/g)).toHaveLength(model.sections.length);
    expect(xml.match(/<w:tbl>/g)).toHaveLength(
      model.sections.flatMap(({ blocks }) => blocks).filter(({ kind }) => kind === "table").length,
    );
    expect(xml).toContain("<m:oMath>");
    expect(xml).toMatch(/<w:u w:val="single"\/>/);
    expect(xml).toContain("&lt;script&gt;");
  });

  it.skipIf(tool("tidy") === undefined)("is HTML in which a checker finds no fault", () => {
    const { stderr } = spawnSync(
      tool("tidy")!,
      ["-e", "-q", "-utf8", "--drop-empty-elements", "no", "--new-blocklevel-tags", "math"],
      { input: html, encoding: "utf8" },
    );
    expect(stderr.split("\n").filter((line) => /Warning|Error/.test(line))).toEqual([]);
  });

  it.skipIf(officeAbsent)(
    "opens as a document in LibreOffice with every section",
    () => {
      const text = flat(
        new TextDecoder().decode(throughOffice(docx, "docx", "txt:Text (encoded):UTF8")),
      );
      for (const { title } of model.sections) expect(text).toContain(title);
      for (const shown of [
        `ψFRP,Na, which is ${rounded} for FRP bars`,
        "=cmd|' /C calc'!A0",
        "<script>alert(1)</script>",
        characteristic.toFixed(3),
      ])
        expect(text).toContain(shown);
    },
    300_000,
  );

  it.skipIf(officeAbsent || tool("pdftotext") === undefined)(
    "has contents whose links and page numbers hold when LibreOffice lays it out",
    () => {
      const file = join(mkdtempSync(join(tmpdir(), "packet-")), "printed.pdf");
      writeFileSync(file, throughOffice(docx, "docx", "pdf"));
      const pages = execFileSync(tool("pdftotext")!, ["-layout", file, "-"]).toString().split("\f");
      for (const [n, { title }] of model.sections.entries()) {
        const named = (text: string): string =>
          `${n + 1}  ${text}`.replace(/[.*+?^${}()|[\]\\]/g, "\\$&").replace(/ +/g, " +");
        const page = new RegExp(`${named(title)}\\.{3,}(\\d+)`).exec(pages.join("\f"))?.[1];
        expect(page, title).toBeDefined();
        expect(pages[Number(page) - 1]).toMatch(new RegExp(`${named(title)}\\s*$`, "m"));
      }
    },
    300_000,
  );

  it.skipIf(!pdfTools)(
    "is a sound PDF with embedded fonts, bookmarks and the same numbers as text",
    () => {
      const file = join(mkdtempSync(join(tmpdir(), "packet-")), "packet.pdf");
      writeFileSync(file, pdf);
      expect(execFileSync(tool("qpdf")!, ["--check", file]).toString()).toContain(
        "No syntax or stream encoding errors found",
      );
      const fonts = execFileSync(tool("pdffonts")!, [file]).toString().trim().split("\n").slice(2);
      expect(fonts.length).toBeGreaterThan(1);
      expect(fonts.filter((line) => !/\byes\s+(?:yes|no)\s+yes\b/.test(line))).toEqual([]);
      const text = flat(execFileSync(tool("pdftotext")!, [file, "-"]).toString());
      for (const { title } of model.sections) expect(text).toContain(title);
      for (const shown of [
        characteristic.toFixed(3),
        "Figure 1.",
        "Table 1.",
        "Page 1 of",
        "<script>alert(1)</script>",
      ])
        expect(text).toContain(shown);
      expect(execFileSync(tool("qpdf")!, ["--json", file]).toString()).toContain("/Outlines");
      // Symbols have real subscripts; only names of columns keep their underscores.
      expect(text).toContain("ψFRP,Na");
      expect(text).not.toMatch(/(?<!\p{L})\p{L}_\p{L}/u);
    },
  );

  it.skipIf(tool("pdfinfo") === undefined)(
    "is tagged: headings, lists, cells with headings, and figures in words",
    () => {
      const file = join(mkdtempSync(join(tmpdir(), "packet-")), "packet.pdf");
      writeFileSync(file, pdf);
      expect(execFileSync(tool("pdfinfo")!, [file]).toString()).toMatch(/Tagged:\s+yes/);
      const lines = execFileSync(tool("pdfinfo")!, ["-struct-text", file], { maxBuffer: 1e8 })
        .toString()
        .split("\n");
      const structure = lines
        .filter((line) => !line.trim().startsWith('"'))
        .map((line) => line.trim());
      const count = (tag: string): number =>
        structure.filter((line) => line.split(/[ :]/)[0] === tag).length;
      const blocks = model.sections.flatMap((section) => section.blocks);
      const tables = blocks.flatMap((block) => (block.kind === "table" ? [block.table] : []));
      const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);
      expect(structure[0]).toBe("Document");
      expect(count("H1")).toBe(1);
      expect(count("H2")).toBe(model.sections.length + 1);
      expect(count("TOCI")).toBe(model.sections.length);
      expect(count("LI")).toBe(
        sum(blocks.map((block) => (block.kind === "list" ? block.items.length : 0))),
      );
      expect(count("Figure")).toBe(blocks.filter(({ kind }) => kind === "figure").length);
      expect(count("Table")).toBe(tables.length);
      // One heading row and the body rows; headings that stand again on further pages are not read
      // again.
      expect(count("TR")).toBe(sum(tables.map(({ rows }) => rows.length + 1)));
      expect(count("TH")).toBe(
        sum(tables.map(({ rows, columns }) => columns.length + rows.length)),
      );
      expect(count("TD")).toBe(
        sum(tables.map(({ rows, columns }) => (columns.length - 1) * rows.length)),
      );
      const readAloud = lines.filter((line) => line.trim().startsWith('"')).join("\n");
      expect(readAloud).toContain(model.caution.slice(0, 40));
      expect(readAloud).not.toMatch(/Page \d+ of \d+/);
    },
  );

  it("writes the folder with single files and an archive that a manifest vouches for", async () => {
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
      expect(same(content, readFileSync(join(folder, name)))).toBe(true);
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

  describe.skipIf(chrome === undefined)("in a browser", () => {
    let browser: Browser;
    beforeAll(async () => {
      browser = await chromium.launch({ executablePath: chrome!, args: ["--no-sandbox"] });
    });
    afterAll(() => browser.close());

    it("opens without a fault, a request or a barrier, its links lead somewhere and nothing overflows", async () => {
      const file = join(mkdtempSync(join(tmpdir(), "packet-")), "packet.html");
      writeFileSync(file, html);
      const context = await browser.newContext({
        viewport: { width: 1100, height: 900 },
        bypassCSP: true,
      });
      const page = await context.newPage();
      const trouble: string[] = [];
      page.on("console", (message) =>
        message.type() === "error" ? trouble.push(message.text()) : undefined,
      );
      page.on("pageerror", (error) => trouble.push(error.message));
      page.on("dialog", (dialog) => (trouble.push(dialog.message()), dialog.dismiss()));
      page.on("request", (request) =>
        /^(file|data):/.test(request.url()) ? undefined : trouble.push(request.url()),
      );
      await page.goto(pathToFileURL(file).href);
      const seen = await page.evaluate(() => ({
        dead: [...document.querySelectorAll<HTMLAnchorElement>("a[href^='#']")]
          .map((a) => a.getAttribute("href")!)
          .filter((href) => document.querySelector(href) === null),
        twice: [...document.querySelectorAll("[id]")]
          .map(({ id }) => id)
          .filter((id, n, all) => all.indexOf(id) !== n),
        links: document.querySelectorAll("nav a").length,
        blank: [...document.images].filter((image) => image.naturalWidth === 0).length,
        images: document.images.length,
        wide: document.documentElement.scrollWidth - document.documentElement.clientWidth,
        scripts: document.scripts.length,
      }));
      expect(seen).toEqual({
        dead: [],
        twice: [],
        links: model.sections.length,
        blank: 0,
        images: 2,
        wide: 0,
        scripts: 0,
      });
      await page.addScriptTag({
        path: createRequire(import.meta.url).resolve("axe-core/axe.min.js"),
      });
      const violations = await page.evaluate(async () => {
        const { axe } = window as unknown as {
          axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
        };
        return (await axe.run()).violations.map(
          ({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 200)}`,
        );
      });
      expect(violations).toEqual([]);
      expect(trouble).toEqual([]);
      await context.close();
    }, 300_000);
  });
});
