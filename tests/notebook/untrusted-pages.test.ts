import { spawn, spawnSync } from "node:child_process";
import type { ChildProcess } from "node:child_process";
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  symlinkSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { parseNotebook, wholeText } from "../../kernel-lib/src/notebook";
import { hasChromium, launchChromium } from "./browser";
import { lookedAt, stripAsUntrusted } from "./looked-at";
import { scratchFolder } from "./notebook-in-scratch";

// The recorded notebooks as a person sees them who runs nothing and trusts nothing: converted to
// HTML, and opened in the classic notebook where that is installed.

const PYTHON = "/usr/bin/python3";
const has = (modules: string): boolean =>
  existsSync(PYTHON) && spawnSync(PYTHON, ["-c", `import ${modules}`]).status === 0;
const hasConverter = hasChromium && has("nbconvert");
const hasClassic = hasChromium && has("notebook.notebookapp");
if (!hasConverter)
  console.log("skipped: notebooks as HTML pages (chromium and python3-nbconvert are needed)");
if (!hasClassic)
  console.log("skipped: notebooks in the classic page (chromium and jupyter-notebook are needed)");

const FOLDER = join(__dirname, "..", "..", "notebooks");
const NOTEBOOKS = readdirSync(FOLDER).filter((name) => name.endsWith(".ipynb"));
const WIDTH = 1200;

/** Figures that the notebook's outputs hold as data. */
function figuresOf(name: string): number {
  const { cells } = parseNotebook(readFileSync(join(FOLDER, name), "utf8"), name);
  return cells.flatMap((cell) =>
    cell.cell_type === "code"
      ? cell.outputs.filter(
          (output) => "data" in output && "application/vnd.plotly.v1+json" in output.data,
        )
      : [],
  ).length;
}

/** Looks at a page; where something is wrong, a picture of it is kept and named. */
async function expectReadable(page: Page, outputs: string, name: string): Promise<void> {
  const { pictures, faults } = await lookedAt(page, outputs);
  let kept = "";
  if (faults.length > 0 || pictures !== figuresOf(name)) {
    kept = join(mkdtempSync(join(tmpdir(), "notebook-page-")), `${basename(name, ".ipynb")}.png`);
    await page.screenshot({ path: kept, fullPage: true });
  }
  expect(faults, `${name}: see ${kept}`).toEqual([]);
  expect(pictures, `${name}, figures drawn: see ${kept}`).toBe(figuresOf(name));
}

test("the recorded figures are not empty of data", () => {
  expect(NOTEBOOKS.map(figuresOf).reduce((a, b) => a + b, 0)).toBeGreaterThan(30);
});

// nbconvert.exporters: HTMLExporter, MarkdownExporter, ScriptExporter; from_filename
const CONVERT = `import json, os, sys
from nbconvert.exporters import HTMLExporter, MarkdownExporter, ScriptExporter
from traitlets.config import Config
with open(sys.argv[2]) as file:
    config = Config(json.load(file))
for f in sys.argv[3:]:
    for kind, exporter in [("html", HTMLExporter()), ("md", MarkdownExporter(config=config)), ("ts", ScriptExporter())]:
        with open(os.path.join(sys.argv[1], os.path.basename(f) + "." + kind), "w") as page:
            page.write(exporter.from_filename(f)[0])`;

describe.skipIf(!hasConverter)("converted to HTML", { timeout: 120_000 }, () => {
  const pages = scratchFolder();
  let browser: Browser;
  beforeAll(async () => {
    const files = NOTEBOOKS.map((name) => join(FOLDER, name));
    const config = join(FOLDER, "nbconvert.json");
    const done = spawnSync(PYTHON, ["-c", CONVERT, pages, config, ...files], { encoding: "utf8" });
    expect(done.status, done.stderr).toBe(0);
    browser = await launchChromium();
  }, 120_000);
  afterAll(() => browser?.close());

  test.each(NOTEBOOKS)("%s shows everything, also without styles and MathML", async (name) => {
    const page = await browser.newPage({ viewport: { width: WIDTH, height: 900 } });
    // Fonts and scripts from elsewhere are not needed to read the page.
    await page.route(/^https?:/, (route) => route.abort());
    await page.goto(`file://${join(pages, `${name}.html`)}`);
    await expectReadable(page, ".jp-OutputArea-output", name);
    await stripAsUntrusted(page, ".jp-OutputArea-output");
    await expectReadable(page, ".jp-OutputArea-output", name);
    await page.close();
  });

  test.each(NOTEBOOKS)("%s reads well as Markdown and as a script", (name) => {
    const markdown = readFileSync(join(pages, `${name}.md`), "utf8");
    // Pictures are files, tables are Markdown: nobody reads a picture's bytes or a cell's tags.
    expect(markdown.match(/^!\[png\]\(output_[\d_]+\.png\)$/gm) ?? []).toHaveLength(
      figuresOf(name),
    );
    expect(markdown).not.toMatch(/<(?:table|td|div|img|math|svg)\b|base64/);
    const script = readFileSync(join(pages, `${name}.ts`), "utf8");
    const { cells } = parseNotebook(readFileSync(join(FOLDER, name), "utf8"), name);
    for (const { cell_type, source } of cells)
      if (cell_type === "code") expect(script).toContain(wholeText(source).trim());
  });
});

describe.skipIf(!hasClassic)("in the classic notebook, not trusted", { timeout: 120_000 }, () => {
  const PORT = 18_900 + (process.pid % 90);
  const folder = scratchFolder();
  let server: ChildProcess;
  let browser: Browser;
  // One for all notebooks: the page and its scripts are read once.
  let context: BrowserContext;
  beforeAll(async () => {
    const data = join(folder, "data");
    mkdirSync(data);
    // Links, so that no signature of another folder makes one trusted.
    for (const name of NOTEBOOKS) symlinkSync(join(FOLDER, name), join(folder, name));
    server = spawn(
      PYTHON,
      [
        ...["-m", "notebook", "--allow-root", "--no-browser", `--port=${PORT}`],
        ...["--NotebookApp.token=", "--NotebookApp.password=", `--notebook-dir=${folder}`],
        "--NotebookApp.port_retries=0",
      ],
      {
        stdio: "ignore",
        env: { ...process.env, JUPYTER_DATA_DIR: data, JUPYTER_CONFIG_DIR: data, HOME: data },
      },
    );
    for (let tries = 0; ; tries++) {
      const up = await fetch(`http://localhost:${PORT}/api`).catch(() => undefined);
      if (up?.ok) break;
      if (tries > 300) throw new Error("the notebook server does not answer");
      await new Promise((waited) => setTimeout(waited, 200));
    }
    browser = await launchChromium();
    context = await browser.newContext({ viewport: { width: WIDTH, height: 900 } });
  }, 120_000);
  afterAll(async () => {
    await browser?.close();
    server?.kill();
  });

  test.each(NOTEBOOKS)("%s shows everything", async (name) => {
    const page = await context.newPage();
    await page.goto(`http://localhost:${PORT}/notebooks/${name}`);
    await page.waitForFunction(() =>
      /trusted/i.test(document.querySelector("#notification_trusted")?.textContent ?? ""),
    );
    expect(await page.textContent("#notification_trusted")).toBe("Not Trusted");
    await page.waitForFunction(
      () =>
        document.querySelectorAll(".output_subarea").length > 0 &&
        !document.querySelector(".MathJax_Processing"),
    );
    // Outputs of many lines stand in a box that scrolls down: all of it is looked at.
    await page.evaluate(() => {
      for (const box of document.querySelectorAll(".output_scroll"))
        box.classList.remove("output_scroll");
    });
    await expectReadable(page, ".output_subarea", name);
    await page.close();
  });
});
