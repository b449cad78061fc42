import { describe, expect, test } from "vitest";
import {
  LIMITS,
  parseNotebook,
  parseSetting,
  readParameters,
  selectCells,
} from "../../kernel-lib/src/notebook";
import { OutputCollector } from "../../kernel-lib/src/notebook/run/collect-outputs";
import { compareEnvironments } from "../../kernel-lib/src/notebook/review/compare-environments";

describe("a choice of cells", () => {
  test.each([
    ["3-7", [3, 4, 5, 6, 7]],
    ["4", [4]],
    ["2, 5-6", [2, 5, 6]],
    ["8-", [8, 9]],
  ])("%s", (choice, expected) => {
    expect([...selectCells(choice, 9)]).toEqual(expected);
  });

  test.each(["", "0", "7-3", "10", "a", "3-12", "1--2"])("%s is refused", (choice) => {
    expect(() => selectCells(choice, 9)).toThrow("--only");
  });
});

describe("settings", () => {
  test("are split at the first equals sign", () => {
    expect(parseSetting("code=a=b")).toEqual(["code", "a=b"]);
    expect(() => parseSetting("seed")).toThrow("expected name=value");
    expect(() => parseSetting("1x=2")).toThrow("expected name=value");
  });

  test("the parameters cell is read as the compiler reads it", () => {
    const source =
      'const seed: number = -7; // a comment = 3\nlet folder = "../datasets";\nconst by: string[] = [];\nconst on = true, level = 0.95;\nconst computed = seed * 2;\nfunction f() { const inner = 1; }';
    const notebook = parseNotebook(
      JSON.stringify({
        nbformat: 4,
        cells: [{ cell_type: "code", metadata: { tags: ["parameters"] }, source }],
      }),
      "x",
    );
    expect(
      readParameters(notebook, "x").map(({ name, type, value }) => [name, type, value]),
    ).toEqual([
      ["seed", "number", -7],
      ["folder", "string", "../datasets"],
      ["by", "string[]", []],
      ["on", "boolean", true],
      ["level", "number", 0.95],
    ]);
  });
});

describe("outputs", () => {
  test("beyond the limit they are cut, the cut is said once, and an error still comes through", () => {
    const collector = new OutputCollector();
    const text = "x".repeat(LIMITS.outputCharacters / 2);
    for (let time = 0; time < 4; time++)
      collector.add({ type: "stream", content: { name: "stdout", text } });
    collector.add({ type: "error", content: { ename: "E", evalue: "v", traceback: [] } });
    expect(collector.outputs.map(({ output_type }) => output_type)).toEqual([
      "stream",
      "stream",
      "error",
    ]);
    expect(collector.outputs[1]).toMatchObject({
      name: "stderr",
      text: expect.stringContaining("output cut") as string,
    });
  });

  test("a display is replaced by its update", () => {
    const collector = new OutputCollector();
    const shown = (type: string, value: string): void =>
      collector.add({
        type,
        content: { data: { "text/plain": value }, metadata: {}, transient: { display_id: "d" } },
      });
    shown("display_data", "old");
    shown("update_display_data", "new");
    expect(collector.outputs).toEqual([
      { output_type: "display_data", data: { "text/plain": "new" }, metadata: {} },
    ]);
  });
});

describe("why results may differ", () => {
  const recorded = {
    node: "20.0.0",
    tslab: "1",
    library: "a",
    lock_file: "b",
    inputs: { "datasets/a.csv": "1", "datasets/b.csv": "2" },
  };
  test("names what has changed, and nothing else", () => {
    expect(compareEnvironments(recorded, recorded)).toEqual([]);
    expect(compareEnvironments(undefined, recorded)).toHaveLength(1);
    const now = {
      ...recorded,
      node: "22.0.0",
      library: "c",
      inputs: { "datasets/a.csv": "9", "datasets/c.csv": "3" },
    };
    expect(compareEnvironments(recorded, now)).toEqual([
      "Node was 20.0.0 and is 22.0.0",
      "the library build is another one",
      "data file datasets/a.csv has changed",
      "data file datasets/b.csv is gone",
      "data file datasets/c.csv is new",
    ]);
  });
});
