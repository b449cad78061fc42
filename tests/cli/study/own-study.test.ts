import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { registerCompareCommand } from "../../../kernel-lib/src/cli/comparison/compare";
import { registerCheckCommand } from "../../../kernel-lib/src/cli/dataset/check";
import { registerNewCommand } from "../../../kernel-lib/src/cli/dataset/new";
import { registerPredictCommand } from "../../../kernel-lib/src/cli/provisions/predict";
import { studyInputs, datasetFolders } from "../../../kernel-lib/src/face/project";
import { openStudy } from "../../../kernel-lib/src/index";
import { SMALL_STUDIES, writeDemoRows, writeSmallStudy } from "../../face/small-studies";
import { runCommand } from "../run-command";

const before = process.cwd();
const place = mkdtempSync(join(tmpdir(), "own-study-"));
const study = join(place, "mine");
const run = (...words: string[]): ReturnType<typeof runCommand> =>
  runCommand(
    [registerNewCommand, registerCheckCommand, registerCompareCommand, registerPredictCommand],
    words,
  );

describe("a study in a folder of its own", () => {
  beforeAll(async () => {
    expect((await run("new", study)).code).toBe(0);
    const rows = SMALL_STUDIES.find(({ name }) => name === "one mode")!;
    cpSync(join(study, "data/README.md"), join(study, "smallest.md"));
    cpSync(join(writeSmallStudy(join(place, "rows"), rows), "data"), join(study, "data"), {
      recursive: true,
    });
  });
  afterAll(() => {
    process.chdir(before);
    rmSync(place, { recursive: true, force: true });
  });

  it("holds settings, data and the notebooks without outputs", () => {
    const notebook = JSON.parse(
      readFileSync(join(study, "notebooks/06-proposed-factors.ipynb"), "utf8"),
    ) as { cells: { outputs?: unknown[] }[]; metadata: object };
    expect(notebook.cells.flatMap(({ outputs }) => outputs ?? [])).toEqual([]);
    expect(notebook.metadata).not.toHaveProperty("code_comparison");
    expect(JSON.stringify(notebook)).not.toContain("breakwater");
    expect(datasetFolders(study)).toEqual([join(study, "data")]);
    expect(studyInputs(study)).toEqual(["study.json", "data"]);
  });
  it("is what commands and notebooks read, and nothing else", async () => {
    for (const words of [["check"], ["compare"], ["predict"]])
      expect(await run(...words, study)).toMatchObject({ code: 0 });
    process.chdir(join(study, "notebooks"));
    const opened = await openStudy();
    expect(opened.length).toBe(90);
    expect(opened.invented).toBe(false);
    expect(opened.title).toBe("mine");
    process.chdir(before);
  });
  it("has a card whose smallest row gets a capacity by the code that is judged", async () => {
    const card = readFileSync(join(study, "smallest.md"), "utf8");
    const [, list = ""] = /## The smallest usable row[^\n]*\n\n([\s\S]*?)\n\n/.exec(card) ?? [];
    const cells = [...list.matchAll(/^- `(\w+)`: ([^ (\n]+)/gm)].map(([, name, value]) => [
      name,
      value,
    ]);
    const row = { ...Object.fromEntries(cells), study_id: "mine" } as Record<string, string>;
    const folder = join(place, "smallest");
    const write = (without?: string): void => {
      const names = Object.keys(row).filter((name) => name !== without);
      writeDemoRows(folder, names, [row]);
    };
    write();
    const { out, err } = await run("predict", folder, "--all");
    expect(err).toBe("");
    expect(out).toMatch(/governs {2}aci318-19/);
    expect((await run("check", folder)).out).not.toContain("no-capacity");
    write("cracked");
    expect(out.match(/: [\d.]+ kN/g)?.length).toBeGreaterThan(
      (await run("predict", folder, "--all")).out.match(/: [\d.]+ kN/g)?.length ?? 0,
    );
  });
  it("is not created twice", async () => {
    const text = readFileSync(join(study, "study.json"), "utf8");
    expect(await run("new", study)).toMatchObject({ code: 2 });
    expect(readFileSync(join(study, "study.json"), "utf8")).toBe(text);
    expect(existsSync(join(study, "tests.csv"))).toBe(false);
  });
  it.each([
    ['{"codes": ["aci318-91"]}', /study\.json.*"codes" is \["aci318-91"\]; expected/],
    ['{"confidence": 90}', /"confidence" is 90; expected a number between 0 and 1/],
    ['{"confidense": 0.9}', /"confidense".*did you mean confidence/],
    ['{"data": ["."]}', /"data" is \["\."\]; expected/],
    ["{", /study\.json is not JSON/],
  ])("refuses the settings %s and says what was expected", async (settings, says) => {
    writeFileSync(join(place, "study.json"), settings);
    await expect(openStudy({ folder: place })).rejects.toThrow(says);
    rmSync(join(place, "study.json"));
  });
  it("looks at the rows, level and groups that its settings state", async () => {
    const stated = { codes: ["en1992-4-2018"], level: "design", where: "bar_material == 'gfrp'" };
    const folder = writeSmallStudy(join(place, "stated"), {
      ...SMALL_STUDIES.find(({ name }) => name === "one mode")!,
      settings: { ...stated, by: ["mode"], confidence: 0.75 },
    });
    const opened = await openStudy({ folder });
    expect(new Set(opened.column("bar_material"))).toEqual(new Set(["gfrp"]));
    const ratios = opened.compare(opened.code);
    expect(new Set(ratios.column("level"))).toEqual(new Set(["design"]));
    const groups = ratios.by(...opened.grouping);
    const same = ratios.by("mode").judge({ confidence: 0.75 });
    expect(groups.toCsv()).toBe(same.toCsv());
    expect(groups.toCsv()).not.toBe(ratios.by("mode").judge({ confidence: 0.9 }).toCsv());
  });
});
