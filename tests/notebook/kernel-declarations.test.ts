import { createRequire } from "node:module";
import { beforeAll, expect, test } from "vitest";
import type * as TypeScript from "typescript";

const require = createRequire(import.meta.url);
const ts = createRequire(require.resolve("tslab/package.json"))(
  "@tslab/typescript-for-tslab",
) as typeof TypeScript;
type ReadFile = (file: string) => string | undefined;
const { readNodeTypesLighter } = require("../../kernel-lib/kernel/node-types.cjs") as {
  readNodeTypesLighter: (read: ReadFile) => ReadFile;
};
const { readLibraryAsOne } = require("../../kernel-lib/kernel/standard-library.cjs") as {
  readLibraryAsOne: (ts: typeof TypeScript, root: string, read: ReadFile) => ReadFile;
};

const SOURCE = `
  import { readFileSync } from "fs";
  import { Worker } from "node:worker_threads";
  import * as http from "http";
  export const bytes: string = readFileSync("a");
  export const copy: { a: string } = structuredClone({ a: 1 });
  export const worker = new Worker(1);
  export const server: number = http.createServer().listen(8000);
  export const answer: number = await (await fetch("a")).json();
  export const headers: Headers = new Headers();
`;

interface Seen {
  readonly modules: readonly string[];
  readonly globals: readonly string[];
  readonly errors: readonly string[];
  readonly files: number;
}

/** What a program of the source above knows of, when its declarations are read in a given way. */
function seenThrough(change: (read: ReadFile) => ReadFile): Seen {
  const options: TypeScript.CompilerOptions = {
    target: ts.ScriptTarget.ES2022,
    module: ts.ModuleKind.ESNext,
    moduleResolution: ts.ModuleResolutionKind.NodeJs,
    lib: ["lib.es2022.d.ts"],
    types: ["node"],
    strict: true,
    skipLibCheck: true,
    esModuleInterop: true,
  };
  const host = ts.createCompilerHost(options);
  const cell = "cell.ts";
  const read = change(host.readFile.bind(host));
  host.readFile = (file) => (file === cell ? SOURCE : read(file));
  host.fileExists = (
    (exists) => (file) =>
      file === cell || exists(file)
  )(host.fileExists.bind(host));
  host.getSourceFile = (file, version) => {
    const text = host.readFile(file);
    return text === undefined ? undefined : ts.createSourceFile(file, text, version);
  };
  const program = ts.createProgram({ rootNames: [cell], options, host });
  const checker = program.getTypeChecker();
  const source = program.getSourceFile(cell);
  if (!source) throw new Error("the source is not part of its program");
  const globals = checker.getSymbolsInScope(
    source.endOfFileToken,
    ts.SymbolFlags.Value | ts.SymbolFlags.Type | ts.SymbolFlags.Namespace,
  );
  return {
    modules: checker
      .getAmbientModules()
      .map(({ name }) => name)
      .sort(),
    globals: [...new Set(globals.map(({ name }) => name))].sort(),
    errors: program
      .getSemanticDiagnostics(source)
      .map(
        ({ messageText }) =>
          ts.flattenDiagnosticMessageText(messageText, "\n").split("\n")[0] ?? "",
      ),
    files: program.getSourceFiles().length,
  };
}

let plain: Seen;
let lighter: Seen;
beforeAll(() => {
  plain = seenThrough((read) => read);
  lighter = seenThrough((read) =>
    readLibraryAsOne(ts, "lib.es2022.d.ts", readNodeTypesLighter(read)),
  );
}, 60_000);

test("the kernel's lighter declarations know every module and every global name that Node's own do", () => {
  expect(plain.modules).toContain('"node:http2"');
  expect(lighter.modules).toEqual(plain.modules);
  expect(plain.globals).toEqual(
    expect.arrayContaining([
      "structuredClone",
      "fetch",
      "Headers",
      "Buffer",
      "NodeJS",
      "AbortSignal",
    ]),
  );
  expect(lighter.globals).toEqual(plain.globals);
});

test("what they leave of any type is the network; all else is checked as before", () => {
  const ofNetwork = /Server|Promise<unknown>|unknown/;
  expect(plain.errors).toHaveLength(5);
  expect(lighter.errors).toEqual(plain.errors.filter((error) => !ofNetwork.test(error)));
  expect(lighter.errors).toHaveLength(3);
});

test("they are less than a tenth of the files", () => {
  expect(lighter.files).toBeLessThan(plain.files / 10);
});
