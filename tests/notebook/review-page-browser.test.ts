import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import {
  ReviewDesk,
  makeReviewRecord,
  readReviewRecord,
  serveReviewPage,
  writeReviewRecord,
} from "../../kernel-lib/src/notebook";
import type { ReviewPage, ReviewSessionOptions } from "../../kernel-lib/src/notebook";
import { axeFaults, hasChromium, launchChromium, watch } from "./browser";
import { fixtureCopy, notebookOf, scratchFolder } from "./notebook-in-scratch";
import { sharedKernel } from "./shared-kernel";

if (!hasChromium)
  console.log("skipped: the review page in a browser, as chromium is not installed");

describe.skipIf(!hasChromium)("the review page in a browser", { timeout: 180_000 }, () => {
  let browser: Browser;
  beforeAll(async () => void (browser = await launchChromium()), 120_000);
  afterAll(() => browser?.close());
  const startKernel = sharedKernel();

  interface Opened {
    readonly page: Page;
    readonly record: string;
    readonly served: ReviewPage;
    readonly faults: string[];
    /** Focus inside the page's cell, the number of the cell with the frame. */
    readonly current: () => Promise<string | null>;
    readonly verdicts: () => Promise<(string | undefined)[]>;
  }

  async function opened(
    files: readonly string[],
    use: (open: Opened) => Promise<void>,
    options: ReviewSessionOptions = {},
  ): Promise<void> {
    const record = join(scratchFolder(), "record.json");
    const desk = await ReviewDesk.open(files, options);
    const served = await serveReviewPage(desk, {
      sign: async (reviewer, reviews) => {
        await writeReviewRecord(record, await makeReviewRecord(reviews, reviewer, []));
        return `Signed by ${reviewer}`;
      },
    });
    const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
    try {
      const faults = watch(page, served.address);
      await page.goto(served.address);
      const current = () => page.locator("section.cell.current").getAttribute("data-number");
      const verdicts = () =>
        page
          .locator("section.cell")
          .evaluateAll((cells) => cells.map((cell) => (cell as HTMLElement).dataset["verdict"]));
      await use({ page, record, served, faults, current, verdicts });
      expect(faults).toEqual([]);
    } finally {
      await page.close();
      await served.close();
      await desk.close();
    }
  }
  const done = (page: Page, progress: RegExp) =>
    page
      .locator("#progress", { hasText: progress })
      .and(page.locator(":root:not(:has(#running:not(:empty))) #progress"))
      .waitFor();

  test("steps through by keyboard alone: runs, differences, remark, opinion, look, help, reload, sign", async () => {
    await opened(
      [fixtureCopy("changed-number")],
      async ({ page, record, current, verdicts }) => {
        expect(await page.locator("section.cell .verdict").first().innerText()).toBe(
          "not rerun yet",
        );
        await page.keyboard.press("n");
        await done(page, /1 of 4/);
        expect(await verdicts()).toEqual(["same", "waiting", "waiting", "waiting"]);
        expect(await current()).toBe("1");
        await page.keyboard.press("j");
        await page.keyboard.press("j");
        await page.keyboard.press("t");
        await done(page, /3 of 4 cells rerun, 2 same, 1 CHANGED/);
        await page.keyboard.press("d");
        expect(await current()).toBe("2");
        expect(await page.locator("#cell-2 .differs").allInnerTexts()).toEqual([
          "(changed: rerun 0.913)",
          "(changed: recorded 0.931)",
        ]);
        await page.keyboard.press("r");
        await page.keyboard.type("Typed in by hand? see ?n");
        await page.keyboard.press("Escape");
        await page.keyboard.press("u");
        await page.keyboard.press("v");
        await page.keyboard.type("rows[1].ratio");
        await page.keyboard.press("Enter");
        await page.locator("#looked", { hasText: "0.913" }).waitFor();
        await page.keyboard.press("Escape");
        await page.keyboard.press("?");
        expect(await page.locator("dialog[open] kbd").count()).toBeGreaterThan(10);
        await page.keyboard.press("Escape");
        expect(await page.locator("dialog[open]").count()).toBe(0);
        await page.reload();
        await done(page, /3 of 4/);
        expect(await page.locator("#cell-2 textarea").inputValue()).toBe(
          "Typed in by hand? see ?n",
        );
        expect(await page.locator('#cell-2 input[value="question"]').isChecked()).toBe(true);
        expect(await verdicts()).toEqual(["same", "changed", "same", "waiting"]);
        await page.keyboard.press("e");
        await done(page, /4 of 4/);
        // From the top of the page to the signing form with Tab alone.
        for (let presses = 0; presses < 80; presses++) {
          await page.keyboard.press("Tab");
          if (await page.evaluate("document.activeElement.id === 'reviewer'")) break;
        }
        await page.keyboard.type("A. Reviewer");
        await page.keyboard.press("Enter");
        await page.locator("#signed", { hasText: "Signed by A. Reviewer" }).waitFor();
        const { notebooks, reviewer } = await readReviewRecord(record);
        expect(reviewer).toBe("A. Reviewer");
        expect(
          notebooks[0]?.cells.map(({ verdict, opinion, remark }) => [verdict, opinion, remark]),
        ).toEqual([
          ["same", "", ""],
          ["changed", "question", "Typed in by hand? see ?n"],
          ["same", "", ""],
          ["same", "", ""],
        ]);
      },
      { startKernel },
    );
  });

  test("lays figures over each other and side by side, by key and by button", async () => {
    await opened(
      [fixtureCopy("changed-figure")],
      async ({ page }) => {
        await page.locator("#to").fill("3");
        await page.getByRole("button", { name: "Go" }).click();
        await done(page, /3 of 4/);
        const [recorded, rerun] = [
          page.locator("#cell-3 .recorded svg"),
          page.locator("#cell-3 .rerun svg"),
        ];
        const apart = async (): Promise<number> =>
          ((await rerun.boundingBox())?.x ?? 0) - ((await recorded.boundingBox())?.x ?? 0);
        expect(await apart()).toBeGreaterThan(200);
        await page.locator("#cell-3").focus();
        await page.keyboard.press("o");
        expect(await apart()).toBe(0);
        await page.keyboard.press("o");
        expect(await apart()).toBeGreaterThan(200);
        await page.keyboard.press("x");
        expect([await recorded.isVisible(), await rerun.isVisible()]).toEqual([true, false]);
        await page.keyboard.press("x");
        expect([await recorded.isVisible(), await rerun.isVisible()]).toEqual([false, true]);
        await page.getByRole("radio", { name: "rerun laid over recorded" }).check();
        expect([await apart(), await recorded.isVisible(), await rerun.isVisible()]).toEqual([
          0,
          true,
          true,
        ]);
        // The words say where the figure differs, whatever is seen.
        expect(await page.locator("#cell-3 .differences").innerText()).toContain(
          'trace "tests".y[3]',
        );
      },
      { startKernel },
    );
  });

  test("a running cell can be stopped, and the notebook started over", async () => {
    await opened(
      [notebookOf(["1", "let n = 0; while (n >= 0) n = (n + 1) % 1000;", "3"])],
      async ({ page, verdicts }) => {
        page.on("dialog", (dialog) => void dialog.accept());
        await page.getByRole("button", { name: "Run all" }).click();
        await page.locator("#running", { hasText: "Cell 2 is running" }).waitFor();
        await page.waitForTimeout(500);
        expect(await page.getByRole("button", { name: "Run next cell" }).isDisabled()).toBe(true);
        await page.keyboard.press("s");
        await done(page, /2 of 3/);
        expect(await verdicts()).toEqual(["not_recorded", "failed", "waiting"]);
        expect(await page.locator("#cell-2 .explanation").innerText()).toContain(
          "stopped by the user",
        );
        await page.getByRole("button", { name: "Start this notebook over" }).click();
        await done(page, /0 of 3/);
        await page.locator('#cell-2[data-verdict="waiting"]').waitFor();
        await page.locator("#cell-1").getByRole("button", { name: "Run up to this cell" }).click();
        await done(page, /1 of 3/);
      },
    );
  });

  test("a hostile notebook is harmless and asks for nothing", async () => {
    await opened(
      [fixtureCopy("hostile-html")],
      async ({ page, verdicts }) => {
        await page.keyboard.press("e");
        await done(page, /2 of 2/);
        expect(await verdicts()).toEqual(["same", "same"]);
        expect(await page.locator("#cell-2 .half").first().innerText()).toContain("shown");
        expect(await page.evaluate("typeof globalThis.hostile")).toBe("undefined");
        expect(
          await page
            .locator("#cell-2 .pair")
            .locator("script, iframe, img, form, button, style, meta, [onclick], [onload], [href]")
            .count(),
        ).toBe(0);
      },
      { startKernel },
    );
  });

  test("has no fault that axe finds: before, while and after the run, with the help open, and in the report", async () => {
    await opened(
      [
        fixtureCopy("changed-number"),
        notebookOf(["await new Promise((done) => setTimeout(done, 600_000));"]),
      ],
      async ({ page, served }) => {
        expect(await axeFaults(page)).toEqual([]);
        await page.keyboard.press("e");
        await done(page, /4 of 4/);
        expect(await axeFaults(page)).toEqual([]);
        await page.keyboard.press("?");
        expect(await axeFaults(page)).toEqual([]);
        await page.keyboard.press("Escape");
        await page.setViewportSize({ width: 800, height: 900 });
        expect(await axeFaults(page)).toEqual([]);
        expect(
          await page.evaluate(
            "document.documentElement.scrollWidth - document.documentElement.clientWidth",
          ),
        ).toBeLessThanOrEqual(0);
        await page.locator("nav a").nth(1).click();
        await page.waitForURL(`${served.address}2`);
        await page.keyboard.press("n");
        await page.locator("#running", { hasText: "Cell 1 is running" }).waitFor();
        expect(await axeFaults(page)).toEqual([]);
        await page.goto(`${served.address}report`);
        expect(await axeFaults(page)).toEqual([]);
      },
    );
  });

  test("focus is visible on what the Tab key reaches", async () => {
    await opened([fixtureCopy("same")], async ({ page }) => {
      for (let presses = 0; presses < 12; presses++) {
        await page.keyboard.press("Tab");
        expect(await page.evaluate("getComputedStyle(document.activeElement).outlineStyle")).toBe(
          "solid",
        );
      }
    });
  });

  test("the button ends the review", async () => {
    await opened([fixtureCopy("same")], async ({ page, served }) => {
      page.on("dialog", (dialog) => void dialog.accept());
      await page.getByRole("button", { name: "End the review" }).click();
      expect(await served.ended).toBe("the reviewer ended it");
      await page.locator("#told", { hasText: "The review has ended" }).waitFor();
    });
  });
});
