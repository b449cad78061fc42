import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { commandLine } from "../../../kernel-lib/src/cli/command-line";
import { codesNamed } from "../../../kernel-lib/src/cli/use/option-declarations";
import { parseRowCondition } from "../../../kernel-lib/src/formula";

const root = new URL("../../../", import.meta.url).pathname;
const GUIDES = [
  "README.md",
  "DEVELOPERS.md",
  "datasets/own/README.md",
  "datasets/recipes/README.md",
];

const program = commandLine();

/** Words of a command line; quotes hold words together. */
const wordsOf = (line: string): string[] =>
  [...line.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain ?? "");

const written = (text: string): string[] =>
  [...text.matchAll(/npx code-comparison ([a-z][^\n`]*)/g)].map(([, line]) => line!.trim());

/** What of a command line no command takes. */
function faultsOf(line: string): string[] {
  const [name = "", second = "", ...others] = wordsOf(line);
  const group = program.commands.find((one) => one.name() === name);
  const inner = group?.commands.find((one) => one.name() === second);
  const command = inner ?? group;
  if (command === undefined) return [`no command ${name}`];
  const words = inner === undefined ? [second, ...others] : others;
  const values = (option: string): string[] =>
    words.filter((_, k) => k > 0 && words[k - 1] === option);
  return [
    ...words
      .filter((word) => word.startsWith("--"))
      .filter((word) => !command.options.some(({ long }) => long === word)),
    ...values("--codes").flatMap((ids) => {
      try {
        return ids === "none" || codesNamed(ids).length > 0 ? [] : [ids];
      } catch {
        return [ids];
      }
    }),
    ...values("--where").filter((condition) => parseRowCondition(condition).columns.length === 0),
  ];
}

describe("commands as written", () => {
  it.each(GUIDES)("in %s are commands with options that there are", (guide) => {
    const lines = written(readFileSync(join(root, guide), "utf8"));
    expect(lines.length).toBeGreaterThan(0);
    expect(lines.flatMap((line) => faultsOf(line).map((fault) => `${line}: ${fault}`))).toEqual([]);
  });
  it("in the README start from tests that the demonstration holds", () => {
    const tests = readFileSync(join(root, "datasets/demo/tests.csv"), "utf8");
    const ids = written(readFileSync(join(root, "README.md"), "utf8"))
      .filter((line) => /^(explain|sensitivity|embedment) /.test(line))
      .map((line) => wordsOf(line)[1]!);
    expect(ids.length).toBeGreaterThan(3);
    expect(ids.filter((id) => !tests.includes(`\n${id},`))).toEqual([]);
  });
  it("would be found out", () => {
    expect(faultsOf("compare datasets/demo --code aci318-19")).toEqual(["--code"]);
    expect(faultsOf("explain A --codes aci318-08")).toEqual(["aci318-08"]);
    expect(faultsOf("kernel status --format json")).toEqual([]);
    expect(faultsOf("nothing")).toEqual(["no command nothing"]);
  });
});
