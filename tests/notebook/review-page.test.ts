import { existsSync } from "node:fs";
import { request } from "node:http";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { makeReviewRecord, readReviewRecord, reportHtml, reviewNotebook, serveReviewPage, writeReviewRecord } from "../../kernel-lib/src/notebook";
import type { NotebookReview, ReviewPage } from "../../kernel-lib/src/notebook";
import { fixtureCopy, scratchFolder } from "./notebook-in-scratch";

const CHROMIUM = "/usr/bin/chromium";
const hasChromium = existsSync(CHROMIUM);
if (!hasChromium) console.log("skipped: the review page in a browser, as chromium is not installed");

let reviews: NotebookReview[];
beforeAll(async () => {
  reviews = [await reviewNotebook(fixtureCopy("changed-number")), await reviewNotebook(fixtureCopy("hostile-html"))];
}, 120_000);

describe("the report", () => {
  test("says each verdict in words, and holds nothing that acts or loads", async () => {
    const html = await reportHtml(reviews);
    expect(html).toContain("output, table, row B, column ratio");
    expect(html).toContain("1.93e-2");
    expect(html).toContain("NOT reproduced");
    const { JSDOM } = await import("jsdom");
    const elements = [...new JSDOM(html).window.document.querySelectorAll("*")];
    expect(elements.filter(({ localName }) => /^(script|iframe|img|form|link|object)$/.test(localName)).map(({ outerHTML }) => outerHTML)).toEqual([]);
    const attributes = elements.flatMap((element) => [...element.attributes]).filter(({ name, value }) => /^on|^(src|href|action)$/.test(name) || /url\(/.test(value));
    expect(attributes.map(({ name, value }) => `${name}=${value}`)).toEqual([]);
    expect(html).toContain("default-src 'none'");
  });
});

describe("the record", () => {
  test("keeps to its schema, and a changed one is refused", async () => {
    const file = join(scratchFolder(), "record.json");
    const record = await makeReviewRecord(reviews, " A. Reviewer ", []);
    await writeReviewRecord(file, record);
    expect(await readReviewRecord(file)).toEqual(record);
    expect(record).toMatchObject({ reviewer: "A. Reviewer", reproduced: false });
    await writeReviewRecord(file, { ...record, reviewer: "" });
    await expect(readReviewRecord(file)).rejects.toThrow("is no review record");
    await expect(makeReviewRecord(reviews, "  ", [])).rejects.toThrow("needs the reviewer's name");
  });
});

describe("the page's server", () => {
  let page: ReviewPage;
  beforeAll(async () => void (page = await serveReviewPage(reviews, async (reviewer) => `signed by ${reviewer}`)));
  afterAll(() => page.close());

  function ask(path: string, headers: Record<string, string> = {}, body?: string): Promise<{ status: number; text: string }> {
    const url = new URL(page.address);
    return new Promise((done, failed) => {
      const asked = request({ host: url.hostname, port: url.port, path, headers: { host: url.host, ...headers }, method: body === undefined ? "GET" : "POST" }, (answer) => {
        let text = "";
        answer.setEncoding("utf8").on("data", (part: string) => (text += part)).on("end", () => done({ status: answer.statusCode ?? 0, text }));
      });
      asked.on("error", failed).end(body);
    });
  }

  test("answers its address only: not without the token, not under another name, not from another page", async () => {
    const { pathname, origin } = new URL(page.address);
    expect((await ask(pathname)).status).toBe(200);
    expect((await ask("/")).status).toBe(403);
    expect((await ask(`/${"0".repeat(48)}/`)).status).toBe(403);
    expect((await ask(pathname, { host: "example.invalid" })).status).toBe(403);
    expect((await ask(`${pathname}sign`, { origin: "http://example.invalid" }, "{}")).status).toBe(403);
    expect((await ask(`${pathname}sign`, { origin }, "{")).status).toBe(400);
    expect((await ask(`${pathname}sign`, { origin }, JSON.stringify({ reviewer: "A", remarks: [] }))).text).toBe("signed by A");
    expect((await ask(`${pathname}other`)).status).toBe(404);
  });
});

describe.skipIf(!hasChromium)("the page in a browser", () => {
  let browser: Browser;
  beforeAll(async () => {
    const { chromium } = await import("playwright-core");
    const args = ["--no-sandbox", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"];
    browser = await chromium.launch({ executablePath: CHROMIUM, args });
  }, 120_000);
  afterAll(() => browser.close());

  test("steps by keyboard, takes a remark, signs; nothing hostile ran and nothing was asked of elsewhere", { timeout: 120_000 }, async () => {
    const file = join(scratchFolder(), "record.json");
    const served = await serveReviewPage(reviews, async (reviewer) => {
      await writeReviewRecord(file, await makeReviewRecord(reviews, reviewer, []));
      return `Signed by ${reviewer}`;
    });
    try {
      const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
      const asked: string[] = [];
      const complaints: string[] = [];
      page.on("request", (one) => asked.push(one.url()));
      page.on("pageerror", (error) => complaints.push(error.message));
      await page.goto(served.address);
      await page.keyboard.press("d");
      expect(await page.locator("section.cell.current h3").innerText()).toContain("Ratios by series");
      expect(await page.locator("#place").innerText()).toBe("Cell 2 of 6, 1 looked at");
      await page.keyboard.press("r");
      await page.keyboard.type("The ratio of B was typed in by hand.");
      await page.locator("#reviewer").fill("A. Reviewer");
      await page.keyboard.press("Enter");
      await page.locator("#told", { hasText: /./ }).waitFor();
      expect(await page.locator("#told").innerText()).toBe("Signed by A. Reviewer");
      expect(await page.evaluate("typeof globalThis.hostile")).toBe("undefined");
      expect(asked.filter((url) => !url.startsWith(served.address))).toEqual([]);
      expect(complaints).toEqual([]);
      if (process.env["REVIEW_PAGE_PICTURE"]) await page.screenshot({ path: process.env["REVIEW_PAGE_PICTURE"] });
      const record = await readReviewRecord(file);
      expect(record.notebooks[0]?.cells[1]).toMatchObject({ verdict: "changed", remark: "The ratio of B was typed in by hand." });
    } finally {
      await served.close();
    }
  });

  test("has no fault that axe finds", { timeout: 120_000 }, async () => {
    // Without the hostile notebook: its red text is shown as it came.
    const served = await serveReviewPage(reviews.slice(0, 1), async () => "");
    try {
      const page = await browser.newPage();
      await page.goto(served.address);
      const { source } = (await import("axe-core")).default;
      const found = await page.evaluate<string[]>(`${source}; axe.run().then((result) => result.violations.map((one) => one.id + ": " + one.nodes.map((node) => node.html.slice(0, 120)).join(" | ")))`);
      expect(found).toEqual([]);
    } finally {
      await served.close();
    }
  });
});
