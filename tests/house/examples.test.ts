import { cpSync, mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { makeAcceptanceProject } from "../face/acceptance-project";
import { given } from "./example-world";
import { project, source } from "./project-files";
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
  await (Function(...names, "at", example.body)(...values, at) as Promise<void>);
  return found;
}

describe("examples in docstrings", () => {
  const before = process.cwd();
  let folder = "";
  beforeAll(() => {
    mkdirSync(join(project, ".cache"), { recursive: true });
    folder = mkdtempSync(join(project, ".cache", "examples-"));
    makeAcceptanceProject(folder);
    // A notebook without cells: what an example opens, not what it finds there.
    cpSync(join(folder, "notebooks/one.ipynb"), join(folder, "notebooks/01-data-audit.ipynb"));
    process.chdir(folder);
  });
  afterAll(() => {
    process.chdir(before);
    rmSync(folder, { recursive: true, force: true });
  });

  it.each(examples.map((example, i) => [`${example.module} ${example.of}`, i] as const))(
    "%s",
    async (_, i) => {
      const found = await contradictions(examples[i]!);
      expect(found, found.join("; ")).toEqual([]);
    },
  );
});
