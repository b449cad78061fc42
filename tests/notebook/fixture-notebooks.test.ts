import { readdirSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { FIXTURE_MAKERS } from "./fixture-notebooks";
import { FIXTURES } from "./notebook-in-scratch";

const names = Object.keys(FIXTURE_MAKERS);

test("every kind of verdict has its fixture, and every fixture its maker", () => {
  expect(readdirSync(FIXTURES).sort()).toEqual([...names].sort());
  for (const kind of [
    "same",
    "tolerance",
    "changed-number",
    "changed-figure",
    "fails",
    "hangs",
    "exits",
    "floods",
    "late-rejection",
    "hostile-html",
    "not-recorded",
  ]) {
    expect(
      names.filter((name) => name.endsWith(`-${kind}.ipynb`)),
      kind,
    ).toHaveLength(1);
  }
});

// Made anew by: npx vitest run --config tests/vitest.config.mts tests/notebook/fixture-notebooks -u
test.each(names)("%s is what its maker makes", async (name) => {
  await expect(await FIXTURE_MAKERS[name]?.()).toMatchFileSnapshot(join(FIXTURES, name));
});
