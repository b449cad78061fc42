import { execFileSync, spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium, type Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { zipEntries } from "../../../kernel-lib/src/dataset";
import { documentDocx, documentHtml, documentPdf } from "../../../kernel-lib/src/exports/document";
import { officeAbsent, throughOffice } from "../recalculated";
import { hostilePacket } from "./packet-model";

const { model, characteristic, rounded } = hostilePacket();
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
