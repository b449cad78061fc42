import { existsSync, mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { KernelClient } from "../../kernel-lib/src/notebook";
import { scratchFolder } from "./notebook-in-scratch";

const BUILT = join(__dirname, "..", "..", "kernel-lib", "dist", "index.d.ts");
if (!existsSync(BUILT))
  console.log("skipped: kernel-lib in the kernel, as it is not built (npm run build)");

type Bundle = Record<string, unknown>;

describe.skipIf(!existsSync(BUILT))("the library in a notebook deep under the project", () => {
  let kernel: KernelClient;
  beforeAll(async () => {
    const folder = join(scratchFolder(), "a", "b");
    mkdirSync(folder, { recursive: true });
    kernel = await KernelClient.start({ workingDirectory: folder });
    await result(
      'import { characteristicValue, openStudy, show } from "kernel-lib";\nimport * as library from "kernel-lib";\nimport { code, developmentLength, lightweightFactor, trace } from "kernel-lib/provisions";',
    );
    await result(
      'const study = await openStudy();\nconst steel = code("aci318-19");\nconst groups = study.compare("aci318-19").by("mode");',
    );
  }, 120_000);
  afterAll(() => kernel.shutdown());

  /** What the cell's last value is shown as. */
  async function result(cell: string): Promise<Bundle> {
    const shown: Bundle[] = [];
    const reply = await kernel.execute(
      cell,
      ({ type, content }) =>
        void (type === "execute_result" && shown.push(content["data"] as Bundle)),
    );
    expect(reply["status"], String(reply["evalue"])).toBe("ok");
    return shown[0] ?? {};
  }

  async function hover(name: string): Promise<string> {
    const reply = await kernel.request("inspect_request", {
      code: `${name}(`,
      cursor_pos: 3,
      detail_level: 0,
    });
    expect(reply["found"]).toBe(true);
    return String((reply["data"] as Bundle)["text/plain"]);
  }

  test("hover shows the signature and the documentation: formula, units and example", async () => {
    expect(await hover("characteristicValue")).toMatch(
      /^characteristicValue\(values: ArrayLike<number>/,
    );
    expect(await hover("characteristicValue")).toContain("x_k = mean − k·SD");
    expect(await hover("code")).toContain("A code by its id.");
    expect(await hover("code")).toContain('code("aci318-19")');
  });

  test("hover over a quantity of a code names its clause and its unit", async () => {
    const text = await hover("lightweightFactor");
    expect(text).toMatch(/^lightweightFactor\(density_kg_m3: number\): number/);
    expect(text).toContain("ACI 318-19 Table 19.2.4.1(a)");
    expect(text).toContain("1 lb/ft³ is 16.018463 kg/m³");
    expect(await hover("developmentLength")).toContain("N, mm, MPa");
  });

  test("completion knows the library's names and the fields of its values", async () => {
    const matches = async (text: string): Promise<unknown> =>
      (await kernel.request("complete_request", { code: text, cursor_pos: text.length }))[
        "matches"
      ];
    expect(await matches("library.toleranceF")).toContain("toleranceFactor");
    expect(await matches("steel.edi")).toContain("edition");
  });

  test("a table as last value: HTML, Markdown, text and its data in one bundle", async () => {
    const bundle = await result('groups.table("statistics", { title: "Ratios (invented)" })');
    expect(Object.keys(bundle).sort()).toEqual([
      "application/vnd.code-comparison.table+json",
      "text/html",
      "text/markdown",
      "text/plain",
    ]);
    expect(bundle["text/html"]).toContain("<caption>Ratios (invented)");
    expect(bundle["text/plain"]).toMatch(/^Ratios \(invented\)/);
  });

  test("a figure as last value: plotly data, its picture for every page and text in one bundle", async () => {
    const bundle = await result('groups.figure("ratio strips")');
    expect(Object.keys(bundle)).toEqual(
      expect.arrayContaining([
        "application/vnd.plotly.v1+json",
        "image/png",
        "text/html",
        "text/plain",
      ]),
    );
    expect((bundle["application/vnd.plotly.v1+json"] as Bundle)["data"]).toBeInstanceOf(Array);
    expect(bundle["text/html"]).toMatch(/^<img src="data:image\/svg\+xml;base64,/);
  });

  test("a prediction followed through its provision as last value: the hand calculation with clauses and units", async () => {
    const bundle = await result("trace(steel, steel.provisions[0]!, study.data.tests, 0)");
    expect(bundle["text/html"]).toContain('class="hand-calculation"');
    expect(bundle["text/plain"]).toMatch(/17\.6\.1/);
    expect(bundle["text/plain"]).toMatch(/\b(mm|in|lb|kN)\b/);
  });
});

test("the library is missed outside the project with a message that says what to do", async () => {
  const outside = mkdtempSync(join(tmpdir(), "outside-"));
  const lost = await KernelClient.start({ workingDirectory: outside });
  try {
    const reply = await lost.execute('import * as library from "kernel-lib";', () => undefined);
    expect(reply).toMatchObject({ status: "error", ename: "CompileError" });
    expect((reply["traceback"] as string[]).join("\n")).toContain(
      "Keep the notebook inside the project's folder",
    );
  } finally {
    await lost.shutdown();
    rmSync(outside, { recursive: true });
  }
});
