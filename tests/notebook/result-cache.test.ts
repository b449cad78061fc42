import { readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";
import { codeCells, readNotebook, runNotebook, writeNotebook } from "../../kernel-lib/src/notebook";
import { notebookOf } from "./notebook-in-scratch";

async function statuses(file: string, inputs: string[] = []): Promise<string> {
  return (await runNotebook(file, { cache: true, inputs })).cells.map(({ status }) => status).join(" ");
}

test("results come from the cache until code or data change; prose and tags do not matter", { timeout: 120_000 }, async () => {
  const file = notebookOf([{ cell_type: "markdown", source: "prose" }, `const unique = "${Math.random()}";\nunique`, "unique.length"]);
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
});
