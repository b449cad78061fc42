import { existsSync, readdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, it } from "vitest";
import { project, textOf } from "./project-files";

const GUIDES = [
  "DEVELOPERS.md",
  "README.md",
  "kernel-lib/kernel/README.md",
  "kernel-lib/docs/NOTICES.md",
  "kernel-lib/docs/methods.md",
  "tests/bench/README.md",
];

/** Folders that a name in a guide may start from, beside the guide's own. */
const STARTS = [
  ".",
  "kernel-lib/src",
  "kernel-lib",
  "tests",
  "tests/provisions",
  "tests/provisions/recomputed",
];
const SOURCE_FILE = /^[\w.-]+\.(?:md|ts|mts|cjs|mjs|js|json|py|ipynb|cff)$/;
/** Written by a run, a user's own folder, a file of every data set, or a name for any. */
const NOT_OURS =
  /^(?:exports\/|datasets\/own\/.|\.\.\/my-study|data\/|(?:manifest|datapackage|study|results)\.json$|name\.)/;
/** A clause id such as aci318-19/17.6.2, a package such as @scope/name, an address. */
const NO_PATH = /^(?:(?:aci318-19|code|text)\/[\w.-]+$|@|[a-z]+:)/;
const PATH = /^[\w@.*-]+(?:\/[\w@.*-]+)+\/?$/;
/** A path inside a command. */
const ARGUMENT = /^(?:datasets|kernel-lib|notebooks|tests)\/[\w./-]+$/;

const groups = (text: string, pattern: RegExp): string[] =>
  [...text.matchAll(pattern)].map(([, found]) => found ?? "");

/** The paths that a text names: links, code that looks like a path or file, arguments. */
function pathsIn(text: string): string[] {
  const links = groups(text, /\]\(([^)#\s]+)[^)]*\)/g);
  const inCode = (code: string): string[] =>
    PATH.test(code) || SOURCE_FILE.test(code)
      ? [code]
      : code.split(/\s+/).filter((word) => ARGUMENT.test(word));
  const codes = groups(text, /`([^`\n]+)`/g).flatMap(inCode);
  const blocks = groups(text, /^```[a-z]*\n([\s\S]*?)^```/gm).flatMap((block) =>
    block.split(/[\s,"'()]+/).filter((word) => ARGUMENT.test(word)),
  );
  const named = [...links, ...codes, ...blocks];
  return named.filter((path) => !NOT_OURS.test(path) && !NO_PATH.test(path));
}

const namesIn = (folder: string): string[] => (existsSync(folder) ? readdirSync(folder) : []);

/** Whether a path exists from one of the folders; `*` stands for any name in one folder. */
function existsFrom(starts: readonly string[], path: string): boolean {
  return starts.some((start) => {
    let found = [join(project, start)];
    for (const part of path.replace(/\/$/, "").split("/")) {
      const named = new RegExp(`^${part.replace(/[.+]/g, "\\$&").replaceAll("*", ".*")}$`);
      const matching = (folder: string): string[] =>
        namesIn(folder)
          .filter((name) => named.test(name))
          .map((name) => join(folder, name));
      found = part.includes("*")
        ? found.flatMap(matching)
        : found.map((folder) => join(folder, part)).filter((place) => existsSync(place));
    }
    return found.length > 0;
  });
}

describe("guides", () => {
  it.each(GUIDES)("%s names only paths that exist", (guide) => {
    const named = pathsIn(textOf(guide));
    expect(named.length).toBeGreaterThan(1);
    expect(named.filter((path) => !existsFrom([dirname(guide), ...STARTS], path))).toEqual([]);
  });
  it("would miss a file that is not there", () => {
    const text =
      "see [a](docs/none.md), `units/factors.ts`, `units/none.ts`, `none.cjs`, " +
      "`npm run x -- tests/none`, `aci318-19/17.6.2`, `@a/b`";
    const named = ["docs/none.md", "units/factors.ts", "units/none.ts", "none.cjs", "tests/none"];
    expect(pathsIn(text)).toEqual(named);
    expect(pathsIn(text).filter((path) => existsFrom(STARTS, path))).toEqual(["units/factors.ts"]);
    expect(existsFrom(["."], "datasets/*/tests.csv")).toBe(true);
    expect(existsFrom(["."], "datasets/*/none.csv")).toBe(false);
  });
  it("DEVELOPERS.md stays below 200 lines", () => {
    expect(textOf("DEVELOPERS.md").trimEnd().split("\n").length).toBeLessThan(200);
  });
  it("lead from a CSV to a ratio through at most eight files", () => {
    const walk = /read these eight files[\s\S]*?\n\n((?:\d\. .*\n)+)/.exec(textOf("DEVELOPERS.md"));
    const steps = (walk?.[1] ?? "").trimEnd().split("\n");
    expect(steps.length).toBe(8);
    expect(steps.filter((step, k) => !step.startsWith(`${k + 1}. \``))).toEqual([]);
  });
});

interface Package {
  readonly version: string;
  readonly license: string;
  readonly dependencies: Readonly<Record<string, string>>;
}

describe("citation and license", () => {
  const cff = textOf("kernel-lib/docs/CITATION.cff");
  const value = (key: string): string | undefined =>
    new RegExp(`^${key}: *"?([^"\\n]+)"?$`, "m").exec(cff)?.[1];
  const library = JSON.parse(textOf("kernel-lib/package.json")) as Package;

  // Required by the Citation File Format 1.2.0: authors, cff-version, message, title (from memory).
  it("has the keys that its format requires, and the library's version and license", () => {
    expect(value("cff-version")).toBe("1.2.0");
    expect(value("message")).toBeTruthy();
    expect(value("title")).toBeTruthy();
    expect(cff).toMatch(/^authors:\n {2}- name: the contributors of the project$/m);
    expect(value("version")).toBe(library.version);
    expect(value("license")).toBe(library.license);
    expect(value("date-released")).toMatch(/^\d{4}-\d{2}-\d{2}$/);
  });
  it("is quoted by the README with its title, version and year", () => {
    const quote = /^> the contributors of the project: \*(.+)\*, version (\S+) \((\d{4})\)/m;
    const year = value("date-released")?.slice(0, 4);
    const quoted = quote.exec(textOf("README.md"))?.slice(1);
    expect(quoted).toEqual([value("title"), library.version, year]);
  });
  it("has the text of the license that the package states", () => {
    const license = textOf("kernel-lib/LICENSE");
    expect(license.split("\n")[0]).toBe(`${library.license} License`);
    expect(license).toMatch(/^Copyright \(c\) \d{4} the contributors of the project$/m);
    // The words of plotly.js's own license file, which is the same license.
    const body = (text: string): string =>
      text.slice(text.indexOf("Permission is hereby")).replace(/\s+/g, " ").trim();
    expect(body(license)).toBe(body(textOf("node_modules/plotly.js/LICENSE")));
  });
  it("names every package that the library runs on in the notices", () => {
    const names = Object.keys(library.dependencies);
    const notices = textOf("kernel-lib/docs/NOTICES.md");
    expect(names.length).toBeGreaterThan(10);
    expect(names.filter((name) => !notices.includes(name))).toEqual([]);
  });
});
