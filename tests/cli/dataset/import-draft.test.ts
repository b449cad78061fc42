import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { registerImportCommand } from "../../../kernel-lib/src/cli/dataset/import";
import { runCommand } from "../run-command";

const importing = (...words: string[]) => runCommand([registerImportCommand], ["import", ...words]);

const folder = mkdtempSync(join(tmpdir(), "draft-"));
afterAll(() => rmSync(folder, { recursive: true }));
const table = join(folder, "wall.csv");
writeFileSync(
  table,
  "Specimen,Rebar,db (mm),f'c (psi),hef (in),Installation,Setup,Pu (kip),Failure,Strength basis,action\nW-1,glass,16,4500,6.3,drilled,confined,15.2,pull-out,cylinder,tension\n",
);

it("drafts a recipe from a table, with which the table is then imported", async () => {
  const recipe = join(folder, "wall.json");
  const drafted = await importing(table, "--draft", recipe);
  expect(drafted.code, drafted.err).toBe(0);
  expect(drafted.out).toContain("concrete_strength_MPa");
  expect(JSON.parse(readFileSync(recipe, "utf8"))).toMatchObject({ name: "wall" });
  const imported = await importing(recipe, table, "--folder", folder);
  expect(imported.code, imported.err).toBe(0);
  expect(imported.out).toContain("1 of 1 rows imported");
});

it("leaves a recipe file that exists, and asks for a table", async () => {
  const again = await importing(table, "--draft", table);
  expect(again.code).toBe(2);
  expect(again.err).toContain("exists");
  const none = await importing(join(folder, "wall.json"));
  expect(none.code).toBe(2);
  expect(none.err).toContain("--draft");
});
