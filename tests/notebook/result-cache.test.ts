import { readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";
import {
  codeCells,
  readNotebook,
  reviewNotebook,
  runNotebook,
  writeNotebook,
} from "../../kernel-lib/src/notebook";
import type { NumberedCell } from "../../kernel-lib/src/notebook";
import { cellKeys } from "../../kernel-lib/src/notebook/cache";
import { notebookOf } from "./notebook-in-scratch";

async function statuses(file: string, inputs: string[] = []): Promise<string> {
  return (await runNotebook(file, { cache: true, inputs })).cells
    .map(({ status }) => status)
    .join(" ");
}

test(
  "results come from the cache until code or data change; prose and tags do not matter",
  { timeout: 120_000 },
  async () => {
    const file = notebookOf([
      { cell_type: "markdown", source: "prose" },
      `const unique = "${Math.random()}";\nunique`,
      "unique.length",
    ]);
    const data = join(dirname(file), "data.csv");
    writeFileSync(data, "a\n1\n");
    expect(await statuses(file)).toBe("ok ok");
    const recorded = readFileSync(file, "utf8");
    expect(await statuses(file)).toBe("cached cached");
    expect(readFileSync(file, "utf8")).toBe(recorded);
    const notebook = await readNotebook(file);
    Object.assign(notebook.cells[0] ?? {}, { source: "other prose" });
    Object.assign(codeCells(notebook)[0]?.cell.metadata ?? {}, { tags: ["seen"] });
    await writeNotebook(file, notebook);
    expect(await statuses(file)).toBe("cached cached");
    writeFileSync(data, "a\n2\n");
    expect(await statuses(file)).toBe("ok ok");
    Object.assign(codeCells(notebook)[1]?.cell ?? {}, { source: "unique.length + 1" });
    await writeNotebook(file, notebook);
    expect(await statuses(file)).toBe("ok ok");
    expect((await runNotebook(file)).cells.map(({ status }) => status)).toEqual(["ok", "ok"]);
    Object.assign(codeCells(notebook)[1]?.cell.metadata ?? {}, { tags: ["no-cache"] });
    await writeNotebook(file, notebook);
    expect(await statuses(file)).toBe("ok ok");
  },
);

const RESTS_ON = {
  node: "20.20.2",
  tslab: "1.0.22",
  library: "aa",
  lock_file: "bb",
  inputs: { "datasets/a.csv": "cc" },
  folder: "notebooks",
};

function keysOf(
  sources: readonly string[],
  restsOn: object = RESTS_ON,
  metadata: object = {},
): string[] {
  const cells = sources.map((source, index): NumberedCell => ({
    number: index + 1,
    title: "",
    cell: {
      cell_type: "code",
      id: `c${index}`,
      metadata: { ...metadata },
      source,
      outputs: [],
      execution_count: null,
    },
  }));
  return cellKeys(cells, restsOn);
}

test("each thing a result rests on is in the keys of all cells", () => {
  const sources = ["const a = 1;", "a + 1", "a + 2"];
  const keys = keysOf(sources);
  expect(keysOf(sources)).toEqual(keys);
  expect(new Set(keys).size).toBe(3);
  const changes = {
    node: "22.0.0",
    tslab: "1.0.23",
    library: "xx",
    lock_file: "xx",
    inputs: { "datasets/a.csv": "xx" },
    folder: "elsewhere",
  };
  for (const [name, value] of Object.entries(changes)) {
    const changed = keysOf(sources, { ...RESTS_ON, [name]: value });
    expect(
      changed.filter((key) => keys.includes(key)),
      name,
    ).toEqual([]);
  }
  expect(
    keysOf(sources, { ...RESTS_ON, inputs: { ...RESTS_ON.inputs, "datasets/new.csv": "dd" } })[0],
    "one file more",
  ).not.toBe(keys[0]);
});

test("a cell's code is in its own key and in those below it; tags and outputs are in none", () => {
  const keys = keysOf(["const a = 1;", "a + 1", "a + 2"]);
  const changed = keysOf(["const a = 1;", "a + 5", "a + 2"]);
  expect(changed[0]).toBe(keys[0]);
  expect(changed[1]).not.toBe(keys[1]);
  expect(changed[2]).not.toBe(keys[2]);
  expect(
    keysOf(["const a = 1;", "a + 1", "a + 2"], RESTS_ON, { tags: ["parameters"], collapsed: true }),
  ).toEqual(keys);
  // Cells moved or joined are other cells, though all their text is the same.
  expect(keysOf(["a + 1", "const a = 1;"])[1]).not.toBe(keys[1]);
  expect(keysOf(["const a = 1;\na + 1"])[0]).not.toBe(keys[1]);
});

test("a review runs every cell, whatever the cache holds", { timeout: 120_000 }, async () => {
  const file = notebookOf(["const drawn = Math.random();\ndrawn", "'fixed'"]);
  expect(await statuses(file)).toBe("ok ok");
  expect(await statuses(file)).toBe("cached cached");
  const review = await reviewNotebook(file, { inputs: [] });
  expect(review.cells.map(({ verdict }) => verdict)).toEqual(["changed", "same"]);
});
