import { existsSync, mkdtempSync, readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { type Browser, chromium } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { keep } from "../../kernel-lib/src/face/keep";
import { Table } from "../../kernel-lib/src/tables";
import { gallery } from "../figures/gallery";

const executablePath = "/usr/bin/chromium";
const absent = !existsSync(executablePath);
if (absent)
  console.log(`skipped: kept pages read in a browser, because ${executablePath} is not installed`);

const exportsFolder = mkdtempSync(join(tmpdir(), "kept-"));
const figure = { ...gallery[0]!(), id: "kept", title: "Ratios <b>by group</b> & more" };
const hostile = ["<img src=x onerror=alert(1)>", "=1+1", "مرحبا", "x".repeat(3000)];
const table = new Table({
  id: "kept-table",
  title: "Ratios </title><script>alert(1)</script>",
  rowKey: ["group"],
  notes: ["Invented demonstration data."],
  columns: [
    { key: "group", title: "Group", kind: "text" },
    { key: "mean", title: "Mean ratio", kind: "number" },
    { key: "verdict", title: "Verdict", kind: "verdict" },
  ],
  rows: hostile.map((group, n) => ({ group, mean: 1 + n / 7, verdict: "meets" })),
});

beforeAll(async () => {
  process.env["CODE_COMPARISON_EXPORTS"] = exportsFolder;
  await keep(figure, table);
}, 120_000);
afterAll(() => {
  delete process.env["CODE_COMPARISON_EXPORTS"];
});

describe("keep", () => {
  it("leaves every form and no half-written file", () => {
    expect(readdirSync(join(exportsFolder, "figures")).sort()).toEqual([
      "kept.html",
      "kept.pdf",
      "kept.png",
      "kept.svg",
    ]);
    expect(readdirSync(join(exportsFolder, "tables")).sort()).toEqual(
      ["csv", "html", "md", "tex", "xlsx"].map((kind) => `kept-table.${kind}`),
    );
  });

  it("holds the numbers in full", () => {
    expect(readFileSync(join(exportsFolder, "tables/kept-table.csv"), "utf8")).toContain(
      String(1 + 3 / 7),
    );
    expect(readFileSync(join(exportsFolder, "tables/kept-table.html"), "utf8")).toContain(
      `data-value="${1 + 3 / 7}"`,
    );
  });

  it("leaves the forms for print out when a review asks for plain ones", async () => {
    const plain = mkdtempSync(join(tmpdir(), "kept-plain-"));
    [process.env["CODE_COMPARISON_EXPORTS"], process.env["CODE_COMPARISON_KEEP"]] = [
      plain,
      "plain",
    ];
    try {
      await keep(figure, table);
    } finally {
      process.env["CODE_COMPARISON_EXPORTS"] = exportsFolder;
      delete process.env["CODE_COMPARISON_KEEP"];
    }
    expect(readdirSync(join(plain, "figures"))).toEqual(["kept.svg"]);
    expect(readdirSync(join(plain, "tables"))).toEqual(["kept-table.csv"]);
    expect(readFileSync(join(plain, "figures/kept.svg"))).toEqual(
      readFileSync(join(exportsFolder, "figures/kept.svg")),
    );
  });

  it("refuses what is neither figure nor table", async () => {
    await expect(keep({ id: "other" } as never)).rejects.toThrow(/figures and tables/);
  });
});

describe.skipIf(absent)("kept pages in a browser", () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
  });
  afterAll(() => browser.close());

  it.each(["figures/kept.html", "tables/kept-table.html"])(
    "%s has no barrier, asks for nothing and runs nothing of the data",
    async (file) => {
      const context = await browser.newContext({
        viewport: { width: 800, height: 900 },
        bypassCSP: true,
      });
      const page = await context.newPage();
      const trouble: string[] = [];
      page.on("dialog", (dialog) => (trouble.push(dialog.message()), dialog.dismiss()));
      page.on("pageerror", (error) => trouble.push(error.message));
      page.on("request", (request) =>
        /^(file|data|blob):/.test(request.url()) ? undefined : trouble.push(request.url()),
      );
      await page.goto(pathToFileURL(join(exportsFolder, file)).href);
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
      const wide = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      await page.screenshot({ path: join(exportsFolder, `${file.replace(/\W/g, "-")}.png`) });
      await context.close();
      expect(violations).toEqual([]);
      expect(trouble).toEqual([]);
      expect(wide).toBeLessThanOrEqual(0);
    },
    120_000,
  );
});
