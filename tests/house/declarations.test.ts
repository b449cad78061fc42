import { existsSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import type tsNow from "typescript";
import { describe, expect, it } from "vitest";
import { project } from "./project-files";

const dist = join(project, "kernel-lib", "dist");
const built = existsSync(join(dist, "index.d.ts"));
if (!built)
  console.log(
    "skipped: declarations under the kernel's TypeScript, because kernel-lib is not built",
  );

/** The compiler that checks notebook cells: older than the one that builds the library. */
const kernelCompiler = (): typeof tsNow =>
  createRequire(join(project, "kernel-lib", "package.json"))(
    "@tslab/typescript-for-tslab",
  ) as typeof tsNow;

describe("declarations of the built library", () => {
  it.skipIf(!built)("are read without complaint by the kernel's own TypeScript", () => {
    const ts = kernelCompiler();
    expect(ts.version).toMatch(/^5\.0\./);
    const program = ts.createProgram([join(dist, "index.d.ts")], {
      target: ts.ScriptTarget.ES2022,
      lib: ["lib.es2022.d.ts"],
      module: ts.ModuleKind.CommonJS,
      moduleResolution: ts.ModuleResolutionKind.Node10,
      types: ["node"],
      typeRoots: [join(project, "node_modules", "@types")],
      strict: true,
      noEmit: true,
      skipLibCheck: false,
    });
    // What a notebook can reach from the library's face; a folder of old builds may hold more.
    const ours = program
      .getSourceFiles()
      .filter(({ fileName }) => fileName.includes("/kernel-lib/dist/"));
    expect(ours.length).toBeGreaterThan(100);
    // Only our own files: what other packages declare is their affair.
    const problems = ours
      .flatMap((file) => [
        ...program.getSyntacticDiagnostics(file),
        ...program.getSemanticDiagnostics(file),
      ])
      .map(
        ({ file, start, messageText }) =>
          `${file?.fileName.slice(dist.length) ?? ""}:${start ?? 0} ${ts.flattenDiagnosticMessageText(messageText, " ")}`,
      );
    expect(problems).toEqual([]);
  });
});
