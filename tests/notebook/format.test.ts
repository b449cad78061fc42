import { spawnSync } from "node:child_process";
import { createRequire } from "node:module";
import {
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import {
  codeCells,
  notebookText,
  parseNotebook,
  readNotebook,
  writeNotebook,
} from "../../kernel-lib/src/notebook";
import { FIXTURES, scratchFolder } from "./notebook-in-scratch";

const PYTHON = "/usr/bin/python3";
const hasNbformat = existsSync(PYTHON) && spawnSync(PYTHON, ["-c", "import nbformat"]).status === 0;
if (!hasNbformat)
  console.log(
    "skipped: comparison with Jupyter's own writer, as python3-nbformat is not installed",
  );

describe("notebook files", () => {
  test("everything we write keeps to the published schema of nbformat 4.5", () => {
    const { schema, validate } = nbformatSchema();
    expect(schema["description"]).toContain("v4.5");
    for (const name of readdirSync(FIXTURES)) {
      const text = notebookText(parseNotebook(readFileSync(join(FIXTURES, name), "utf8"), name));
      expect(validate(JSON.parse(text)), name).toBe("");
    }
    expect(
      validate({
        nbformat: 4,
        nbformat_minor: 5,
        metadata: {},
        cells: [{ cell_type: "code", metadata: {}, source: "" }],
      }),
    ).not.toBe("");
  });

  test("older minor versions get cell ids, the same ones each time", () => {
    const old = JSON.stringify({
      nbformat: 4,
      nbformat_minor: 2,
      metadata: {},
      cells: ["1", "1"].map((source) => ({
        cell_type: "code",
        metadata: {},
        source,
        outputs: [],
        execution_count: null,
      })),
    });
    const ids = (): string[] => parseNotebook(old, "old").cells.map(({ id }) => id);
    expect(ids()).toEqual(ids());
    expect(new Set(ids()).size).toBe(2);
  });

  test.each([
    ["no JSON", "{", "no valid JSON"],
    ["no notebook", "[]", "not a notebook of nbformat 4"],
    ["nbformat 3", '{"nbformat":3,"worksheets":[]}', "nbformat 4 (found: 3)"],
    [
      "an unknown cell type",
      '{"nbformat":4,"cells":[{"cell_type":"heading","source":"x"}]}',
      'cell 1 from the top has the unknown type "heading"',
    ],
    ["no source", '{"nbformat":4,"cells":[{"cell_type":"code"}]}', "has no source text"],
    [
      "an unknown output",
      '{"nbformat":4,"cells":[{"cell_type":"code","source":"","outputs":[{"output_type":"pyout"}]}]}',
      "an output that nbformat 4 does not know",
    ],
    [
      "too many cells",
      JSON.stringify({ nbformat: 4, cells: Array.from({ length: 2001 }, () => ({})) }),
      "has 2001 cells; at most 2000",
    ],
  ])("refuses %s in plain words", (_name, text, message) => {
    expect(() => parseNotebook(text, "x.ipynb")).toThrow(message);
  });

  test("a key named __proto__ stays an ordinary key", () => {
    const notebook = parseNotebook(
      '{"nbformat":4,"nbformat_minor":5,"metadata":{"__proto__":{"polluted":1}},"cells":[]}',
      "x",
    );
    expect(notebookText(notebook)).toContain('"__proto__"');
    expect(({} as { polluted?: number }).polluted).toBeUndefined();
  });

  test("a write that fails leaves the old file", async () => {
    const folder = scratchFolder();
    const file = join(folder, "x.ipynb");
    await writeNotebook(file, parseNotebook('{"nbformat":4,"cells":[]}', "x"));
    const before = readFileSync(file, "utf8");
    const cyclic = await readNotebook(file);
    cyclic.metadata["self"] = 1n;
    await expect(writeNotebook(file, cyclic)).rejects.toThrow();
    expect(readFileSync(file, "utf8")).toBe(before);
    mkdirSync(join(folder, "taken.ipynb"));
    await expect(
      writeNotebook(join(folder, "taken.ipynb"), await readNotebook(file)),
    ).rejects.toThrow();
    expect(readdirSync(folder).sort()).toEqual(["taken.ipynb", "x.ipynb"]);
  });

  test("a write removes what killed writes of the same file left beside it, and nothing else", async () => {
    const folder = scratchFolder();
    const longAgo = new Date(Date.now() - 6 * 60_000);
    const file = join(folder, "a.ipynb");
    const left = [".a.ipynb.0123abcd", ".a.ipynb.ffffffff"];
    const others = [
      ".a.ipynb.0123abcde",
      ".a.ipynb.0123abcg",
      ".b.ipynb.0123abcd",
      "a.ipynb.0123abcd",
      ".aXipynb.0123abcd",
    ];
    for (const name of [...left, ...others]) {
      writeFileSync(join(folder, name), "half");
      utimesSync(join(folder, name), longAgo, longAgo);
    }
    // May still be being written by another process.
    writeFileSync(join(folder, ".a.ipynb.89abcdef"), "half");
    mkdirSync(join(folder, ".a.ipynb.00000000"));
    utimesSync(join(folder, ".a.ipynb.00000000"), longAgo, longAgo);
    await writeNotebook(file, await readNotebook(join(FIXTURES, "study-same.ipynb")));
    expect(readdirSync(folder).sort()).toEqual(
      ["a.ipynb", ".a.ipynb.89abcdef", ".a.ipynb.00000000", ...others].sort(),
    );
  });

  test("cells are titled by their comment, the heading above, or their first line", () => {
    const notebook = parseNotebook(
      JSON.stringify({
        nbformat: 4,
        cells: [
          { cell_type: "code", source: "a()" },
          { cell_type: "markdown", source: "# One\ntext\n## Two" },
          { cell_type: "code", source: "b()" },
          { cell_type: "code", source: "\n// Three\nc()" },
        ],
      }),
      "x",
    );
    expect(codeCells(notebook).map(({ title }) => title)).toEqual(["a()", "Two", "Three"]);
  });

  test.skipIf(!hasNbformat)("Jupyter's own writer writes the same bytes", () => {
    const folder = scratchFolder();
    for (const name of readdirSync(FIXTURES)) {
      const ours = notebookText(parseNotebook(readFileSync(join(FIXTURES, name), "utf8"), name));
      writeFileSync(join(folder, name), ours);
      // nbformat.write(nbformat.read(file, 4), file)
      const script =
        "import sys, nbformat; f = sys.argv[1]; nb = nbformat.read(f, as_version=4); nbformat.validate(nb); nbformat.write(nb, f)";
      const done = spawnSync(PYTHON, ["-c", script, join(folder, name)], { encoding: "utf8" });
      expect(done.status, done.stderr).toBe(0);
      // Python writes 1.0 where JavaScript writes 1; no fixture holds such a number.
      expect(readFileSync(join(folder, name), "utf8")).toBe(ours);
    }
  });
});

interface Validator {
  compile(schema: object): ((value: unknown) => boolean) & { errors?: unknown };
  errorsText(errors: unknown): string;
}

/**
 * The published schema is of draft 4; what it uses of it means the same in draft 7 but for `id`.
 */
function nbformatSchema(): {
  schema: Record<string, unknown>;
  validate: (value: unknown) => string;
} {
  // The library's own ajv; a resolver beside the tests finds another version.
  const requireFromLibrary = createRequire(
    join(__dirname, "..", "..", "kernel-lib", "package.json"),
  );
  const Ajv = requireFromLibrary("ajv") as new (options: object) => Validator;
  const schema = JSON.parse(
    readFileSync(join(__dirname, "nbformat.v4.5.schema.json"), "utf8"),
  ) as Record<string, unknown>;
  delete schema["$schema"];
  const ajv = new Ajv({ strict: false });
  const check = ajv.compile(schema);
  return { schema, validate: (value) => (check(value) ? "" : ajv.errorsText(check.errors)) };
}
