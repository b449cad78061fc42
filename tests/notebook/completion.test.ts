import { existsSync } from "node:fs";
import { join, relative } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { KernelClient, executeCell } from "../../kernel-lib/src/notebook";
import { project } from "../house/project-files";
import { scratchFolder } from "./notebook-in-scratch";

const built = existsSync(join(project, "kernel-lib", "dist", "index.d.ts"));
if (!built) console.log("skipped: completion in the kernel, as kernel-lib is not built");

// Messages: Jupyter's messaging protocol 5.3, "Completion" and "Introspection": `matches` replace
// the text of the cell from `cursor_start` to `cursor_end`.
describe.skipIf(!built)("help while writing a cell", () => {
  let kernel: KernelClient;
  beforeAll(async () => {
    kernel = await KernelClient.start({ workingDirectory: join(project, "notebooks") });
    const reply = await kernel.execute(
      'import { openStudy, show } from "kernel-lib";\nconst study = await openStudy({ keep: "none" });\nconst groups = study.compare("aci318-19").by("mode");',
      () => undefined,
    );
    expect(reply["status"], String(reply["evalue"])).toBe("ok");
  }, 120_000);
  afterAll(() => kernel.shutdown());

  /** The cell after the first match is taken; `|` is the cursor. */
  async function completed(cell: string): Promise<string> {
    const { code, reply } = await completion(cell);
    const [first] = reply.matches;
    expect(first, cell).toBeDefined();
    return code.slice(0, reply.cursor_start) + String(first) + code.slice(reply.cursor_end);
  }

  async function completion(cell: string) {
    const code = cell.replace("|", "");
    const reply = await kernel.request("complete_request", {
      code,
      cursor_pos: cell.indexOf("|"),
    });
    return {
      code,
      reply: reply as { matches: string[]; cursor_start: number; cursor_end: number },
    };
  }

  async function help(cell: string): Promise<string> {
    const reply = await kernel.request("inspect_request", {
      code: cell.replace("|", ""),
      cursor_pos: cell.indexOf("|"),
      detail_level: 0,
    });
    return reply["found"] ? String((reply["data"] as Record<string, string>)["text/plain"]) : "";
  }

  it.each([
    ["a code", 'study.compare("aci318|', 'study.compare("aci318-19'],
    ["a code before its closing quote", 'study.compare("aci4|")', 'study.compare("aci408r-03")'],
    ["a word in the middle of a name", 'study.compare("mc2010|")', 'study.compare("fib-mc2010")'],
    [
      "one of several codes",
      'study.compare(["aci318-19", "en1992-4|"])',
      'study.compare(["aci318-19", "en1992-4-2018"])',
    ],
    [
      "a provision",
      'study.propose("aci318-19", { provision: "aci318-19/17.6.5|", factor: 1 })',
      'study.propose("aci318-19", { provision: "aci318-19/17.6.5", factor: 1 })',
    ],
    ["a column", 'study.by("bar_diam|")', 'study.by("bar_diameter_mm")'],
    ["a material", 'study.where({ bar_material: "g|" })', 'study.where({ bar_material: "gfrp" })'],
    [
      "a mode",
      'study.compare("aci318-19").mode("concrete_e|',
      'study.compare("aci318-19").mode("concrete_edge_breakout',
    ],
    ["a view of a table", 'groups.table("stat|")', 'groups.table("statistics")'],
    ["a view of a figure", 'groups.figure("ratio s|', 'groups.figure("ratio strips'],
    [
      "a level",
      'study.compare("aci318-19", { level: "des|" })',
      'study.compare("aci318-19", { level: "design" })',
    ],
    ["a key of an object", "study.where({ bar_mat| })", "study.where({ bar_material })"],
    [
      "an option of a code",
      'study.predict("aci318-19", { options: { inst| } })',
      'study.predict("aci318-19", { options: { installation_category } })',
    ],
    [
      "a name to import",
      'import { openRev| } from "kernel-lib";',
      'import { openReview } from "kernel-lib";',
    ],
    [
      "a name to import, nothing behind it",
      "import { openStudy, spec|",
      "import { openStudy, specimen",
    ],
    [
      "a name of a room",
      'import { tukey| } from "kernel-lib/statistics";',
      'import { tukeyComparison } from "kernel-lib/statistics";',
    ],
    [
      "a module",
      'import { show } from "kernel-lib/stat|"',
      'import { show } from "kernel-lib/statistics"',
    ],
    [
      "a type to import",
      'import type { StudyO| } from "kernel-lib";',
      'import type { StudyOptions } from "kernel-lib";',
    ],
    [
      "a column in a condition, and its word only",
      'study.where("cracked == 0 && bar_dia| <= 25")',
      'study.where("cracked == 0 && bar_diameter_mm <= 25")',
    ],
    [
      "a value in a condition",
      "openStudy({ where: \"bar_material == 'gf|'\" })",
      "openStudy({ where: \"bar_material == 'gfrp'\" })",
    ],
    ["a word inside a longer one", 'study.by("bar_dia|meter_mm")', 'study.by("bar_diameter_mm")'],
    ["a method", "study.comp|", "study.compare"],
  ])("%s: %s", async (_, cell, expected) => expect(await completed(cell)).toBe(expected));

  it("offers nothing that does not hold what was typed", async () => {
    const { reply } = await completion('study.compare("aci318|")');
    expect(reply.matches.length).toBeGreaterThan(1);
    for (const match of reply.matches) expect(match).toContain("aci318");
    expect((await completion('study.compare("zzz|")')).reply.matches).toEqual([]);
  });

  it("says of a provision between quotes which clause it is, and its formula", async () => {
    const text = await help('study.propose("aci318-19", { provision: "aci318-19/17.6|.5" })');
    expect(text).toContain("17.6.5");
    expect(text).toMatch(/capacity = \S/);
    expect(await help('study.compare("aci|318-19")')).toContain("Edition");
    expect(await help('study.by("embedment|_mm")')).toContain("mm");
  });

  it("says inside a call what the function takes", async () => {
    expect(await help("study.compare(|)")).toContain("Tests.compare");
    expect(await help('study.compare("aci318-19", |)')).toMatch(
      /^argument 2: options\?: CompareOptions/,
    );
    expect(await help('study.compare("aci318-19", |')).toMatch(/^argument 2: options/);
    expect(await help('show(study.compare("aci318-19", |), 1)')).toMatch(/^argument 2: options/);
    expect(await help('study.compare("aci318-19")|')).toBe("");
  });

  it("says what it does not use, and where a file went", async () => {
    const text = async (cell: string): Promise<string> => {
      const shown: string[] = [];
      const reply = await kernel.execute(cell, ({ content }) => {
        const { text: printed, data } = content as { text?: string; data?: Record<string, string> };
        shown.push(printed ?? data?.["text/plain"] ?? "");
      });
      expect(reply["status"], String(reply["evalue"])).toBe("ok");
      return shown.join("");
    };
    expect(await text('await openStudy({ data: "datasets/demo", keep: "none" });\n1')).toMatch(
      /^Not used: \d+ rows excluded \(first demo\/tests\.csv, line \d+: .+\)\. All of them: audit/,
    );
    const folder = scratchFolder();
    const file = join(folder, "groups.svg");
    const place = relative(project, file).replaceAll("\\", "/");
    const save = `await groups.figure().save(${JSON.stringify(file)})`;
    expect(await text(save)).toBe(`Saved: ${place}\n`);
    expect(existsSync(file)).toBe(true);
    const shown = await text("study.data.tests");
    expect(shown).toMatch(/1,\d{3} tests; the first 5 are shown/);
    expect(await text("({ tests: study.data.tests })")).toMatch(
      /^\{ tests: TestTable \(1\d{3} tests, \d+ columns\) \}$/,
    );
  });

  it("draws the same figure after an interrupt in the middle of its drawing", async () => {
    const figure = "const drawn = groups.figure();";
    await kernel.execute(figure, () => undefined);
    const stop = new AbortController();
    const limits = { timeLimitSeconds: 60, graceSeconds: 20, signal: stop.signal };
    const begun = "console.log('going');\nawait new Promise((next) => setTimeout(next, 60));\n";
    const cell = `${begun}for (;;) show({ ...drawn, title: String(Math.random()) }, drawn);`;
    const outcome = await executeCell(kernel, cell, limits, ({ content }) => {
      if (String(content["text"]).includes("going")) setTimeout(() => stop.abort(), 120);
    });
    expect(outcome).toMatchObject({ status: "interrupted", kernelAlive: true });
    const types: string[] = [];
    const reply = await kernel.execute("show(drawn);", ({ content }) => {
      types.push(...Object.keys((content["data"] as object | undefined) ?? {}));
    });
    expect(reply["status"]).toBe("ok");
    expect(types).toContain("image/svg+xml");
  });

  it("says why a frame of danfojs does not take rows of tests", async () => {
    await kernel.execute('import { DataFrame } from "danfojs-node";', () => undefined);
    const reply = await kernel.execute("new DataFrame(study.data.tests.rows());", () => undefined);
    expect(reply["status"]).toBe("error");
    expect((reply["traceback"] as string[]).join("\n")).toContain("await study.toFrame()");
    const works = await kernel.execute(
      'new DataFrame([{ load: 1.5, mode: "bond" }, { load: null, mode: "pryout" }])',
      () => undefined,
    );
    expect(works["status"]).toBe("ok");
  });

  it.each([
    ['study.compare("aci318-18");', "aci318-19"],
    ['study.compare(["aci318-19", "en1992-4"]);', "en1992-4-2018"],
    ['groups.table("statistcs");', "statistics"],
    ['study.where({ bar_material: "grfp" });', "gfrp"],
    ['study.where({ bar_materil: "gfrp" });', "bar_material"],
    ['study.by("bar_diamter_mm");', "bar_diameter_mm"],
    ['study.by("mode");', "failure_mode"],
    ['study.by("mdoe");', "failure_mode"],
    ['study.compare("aci318-19").mode("bnod");', "bond"],
    ['groups.versus("stel");', "steel"],
    ['study.compare("aci318-19", { levl: "design" });', "level"],
  ])("answers %s with %s, in one message", async (cell, meant) => {
    const reply = await kernel.execute(cell, () => undefined);
    expect(reply["ename"]).toBe("CompileError");
    const text = (reply["traceback"] as string[]).join("\n");
    expect(reply["evalue"]).toMatch(new RegExp(`Did you mean ["']${meant}["']\\?`));
    expect(text.match(/column \d+:/g)).toHaveLength(1);
  });
});
