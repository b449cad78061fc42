import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { makeAcceptanceProject } from "../face/acceptance-project";
import type { Proposal } from "../../kernel-lib/src/proposals";
import { proposal } from "./example-study";
import { given } from "./example-world";
import { project, source } from "./project-files";
import { writeManifest } from "../../kernel-lib/src/exports/manifest";
import { sourceExamples, type SourceExample } from "./source-examples";
import { contradiction, statesValue } from "./stated-value";

const examples = sourceExamples();

/** Runs an example; the comments that its values contradict. */
async function contradictions(example: SourceExample): Promise<string[]> {
  const own = (await import(join(source, `${example.module}.ts`))) as Record<string, unknown>;
  const names = example.names.filter((name) => name in own || !Object.hasOwn(globalThis, name));
  const values = await Promise.all(
    names.map((name) => (name in own ? own[name] : given(name, example.module))),
  );
  const found: string[] = [];
  const at = (statement: number, value: unknown): void => {
    const why = contradiction(example.stated[statement] ?? "", value);
    if (why !== undefined) found.push(why);
  };
  // Examples are text of this repository.
  // eslint-disable-next-line @typescript-eslint/no-implied-eval
  const run = Function(...names, "at", example.body) as (...given: unknown[]) => Promise<void>;
  await run(...values, at);
  return found;
}

/** A proposal as a file holds it: without what its derivation says of it. */
const fileOf = (found: Proposal): string =>
  JSON.stringify(found, (key, value: unknown) =>
    key === "criterion" || key === "supported" ? undefined : value,
  );

describe("a value that a comment states", () => {
  it("is found wrong where a digit, a text or a member differs", () => {
    const right: [string, unknown][] = [
      ["2.463...", 2.46337],
      ["−1.6448…", -1.64485],
      ["0.80", 0.8],
      ["44,553.8: clause 17.8", 44553.79],
      ['"1 test"', "1 test"],
      ['"Notices …"', "Notices for"],
      ["{ n: 3, mean: 46, ... }", { n: 3, sd: 1, mean: 46 }],
      ["tests, not pairs", 12],
      ["true: 1.2 is not above 1.2", true],
    ];
    const wrong: [string, unknown][] = [
      ["2.464...", 2.46337],
      ["2.464", 2.46337],
      ["0.80", 0.81],
      ['"1 test"', "1 tests"],
      ['"Notices …"', "Note"],
      ["{ n: 3, mean: 46 }", { n: 46, mean: 3 }],
      ["[1, 2]", [2, 1]],
      ["6", undefined],
      ["true", false],
    ];
    for (const [comment, value] of right) expect(contradiction(comment, value)).toBeUndefined();
    for (const [comment, value] of wrong)
      expect(contradiction(comment, value), comment).toBeDefined();
  });
});

describe("examples in docstrings", () => {
  const before = process.cwd();
  let folder = "";
  beforeAll(async () => {
    mkdirSync(join(project, ".cache"), { recursive: true });
    folder = mkdtempSync(join(project, ".cache", "examples-"));
    makeAcceptanceProject(folder);
    // A notebook without cells: what an example opens, not what it finds there.
    cpSync(join(folder, "notebooks/one.ipynb"), join(folder, "notebooks/01-data-audit.ipynb"));
    process.chdir(folder);
    writeFileSync("proposal.json", fileOf(await proposal()));
    // A packet of one file, as somebody received it.
    mkdirSync("exports/received", { recursive: true });
    writeFileSync("exports/received/note.txt", "invented");
    await writeManifest("exports/received", { caution: "Invented.", madeWith: {}, inputs: {} });
  });
  afterAll(() => {
    process.chdir(before);
    rmSync(folder, { recursive: true, force: true });
  });

  it("are many, and many state a value", () => {
    expect(examples.length).toBeGreaterThan(300);
    expect(examples.filter(({ stated }) => stated.some(statesValue)).length).toBeGreaterThan(80);
  });
  it.each(examples.map((example, i) => [`${example.module} ${example.of}`, i] as const))(
    "%s",
    async (_, i) => {
      const found = await contradictions(examples[i]!);
      expect(found, found.join("; ")).toEqual([]);
    },
  );
});
