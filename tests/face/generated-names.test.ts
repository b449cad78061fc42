import { readFileSync, writeFileSync } from "node:fs";
import { expect, it } from "vitest";
import { GENERATED_NAMES, generatedNames } from "./generated-names";

it("the literal names of codes, provisions, options and modes are those of the definitions", async () => {
  const now = await generatedNames();
  if (process.env["WRITE_DERIVED"] === "1") writeFileSync(GENERATED_NAMES, now);
  expect(readFileSync(GENERATED_NAMES, "utf8"), "npm run derived").toBe(now);
  expect(now).toContain('| "aci318-19/17.7.3"');
});
