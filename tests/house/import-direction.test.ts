import { posix } from "node:path";
import ts from "typescript";
import { describe, expect, it } from "vitest";
import { filesBelow, source, textOf } from "./project-files";

/** From the ground up; a room may import from the layers below its own. */
const layers = [
  ["units"],
  ["formula"],
  ["statistics"],
  ["regression"],
  ["dataset"],
  ["curves"],
  ["demonstration", "provisions"],
  ["comparison"],
  ["proposals"],
  ["figures", "tables"],
  ["exports"],
  ["face"],
  ["cli", "index.ts"],
];
const alsoAllowed = ["cli -> notebook", "face -> notebook", "index.ts -> notebook"];

/** Says whether code in one room may import from another. */
function mayImport(from: string, to: string): boolean {
  const layerOf = (room: string): number => layers.findIndex((layer) => layer.includes(room));
  if (from === to || alsoAllowed.includes(`${from} -> ${to}`)) return true;
  return from !== "notebook" && to !== "notebook" && layerOf(to) < layerOf(from);
}

interface Import {
  from: string;
  to: string;
  file: string;
  /** The path imported from the project's folder, without its ending. */
  path: string;
}

const prefix = "kernel-lib/src/";
function importsOf(file: string): Import[] {
  return ts
    .preProcessFile(textOf(file), true, true)
    .importedFiles.filter(({ fileName }) => fileName.startsWith("."))
    .map(({ fileName }) => posix.join(posix.dirname(file), fileName.replace(/\.js$/, "")))
    .map((path) => ({
      file,
      path,
      from: file.slice(prefix.length).split("/")[0]!,
      to: path.slice(prefix.length).split("/")[0] ?? "",
    }));
}

/** The first circle met on the way along imports, its first member named again at the end. */
function circleIn(imports: ReadonlyMap<string, readonly string[]>): readonly string[] | null {
  const done = new Set<string>();
  const search = (at: string, way: readonly string[]): readonly string[] | null => {
    if (way.includes(at)) return [...way.slice(way.indexOf(at)), at];
    if (done.has(at)) return null;
    for (const next of imports.get(at) ?? []) {
      const found = search(next, [...way, at]);
      if (found !== null) return found;
    }
    done.add(at);
    return null;
  };
  for (const from of imports.keys()) {
    const found = search(from, []);
    if (found !== null) return found;
  }
  return null;
}

describe("imports between rooms", () => {
  const files = filesBelow(source, /\.ts$/);
  const crossing = files.flatMap(importsOf).filter(({ from, to }) => from !== to);

  it("run downward only", () => {
    expect(crossing.length).toBeGreaterThan(50);
    expect(
      crossing
        .filter(({ from, to }) => !mayImport(from, to))
        .map(({ file, to }) => `${file} imports from ${to}`),
    ).toEqual([]);
  });
  it("run in no circle, types included", () => {
    const known = new Set(files);
    const imports = new Map(
      files.map((file) => [
        file,
        importsOf(file).map(
          ({ path }) => [`${path}.ts`, `${path}/index.ts`].find((one) => known.has(one)) ?? path,
        ),
      ]),
    );
    const unknown = [...imports.values()].flat().filter((file) => !known.has(file));
    expect(unknown.filter((file) => !file.endsWith(".json"))).toEqual([]);
    expect(circleIn(imports)).toBeNull();
  });
  it("stay inside the library", () => {
    expect(
      files.filter((file) => importsOf(file).some(({ to }) => to === "" || to === "..")),
    ).toEqual([]);
  });
  it("know every room by its place", () => {
    const known = [...layers.flat(), "notebook"];
    expect(
      [...new Set(files.map((file) => file.slice(prefix.length).split("/")[0]!))].filter(
        (room) => !known.includes(room),
      ),
    ).toEqual([]);
  });
  it("go to rooms above in the table of DEVELOPERS.md, which names every room", () => {
    const table = [...textOf("DEVELOPERS.md").matchAll(/^\| `([a-z-]+)` \|.*\| `([^`]+)` \|$/gm)];
    const rooms = table.map(([, room]) => room ?? "");
    const folders = files
      .map((file) => file.slice(prefix.length).split("/"))
      .filter(({ length }) => length > 1);
    expect([...rooms].sort()).toEqual([...new Set(folders.map(([room]) => room))].sort());
    const within = crossing.filter(({ from, to }) => from !== "index.ts" && to !== "index.ts");
    const upward = within.filter(({ from, to }) => rooms.indexOf(to) >= rooms.indexOf(from));
    expect(upward.map(({ file, to }) => `${file} imports from ${to}`)).toEqual([]);
    expect(table.filter(([, room, start]) => !(start ?? "").startsWith(`${room ?? ""}/`))).toEqual(
      [],
    );
  });
  it("are distinguished by this test", () => {
    expect(mayImport("statistics", "regression")).toBe(false);
    expect(mayImport("regression", "statistics")).toBe(true);
    expect(mayImport("dataset", "regression")).toBe(true);
    expect(mayImport("dataset", "curves")).toBe(false);
    expect(mayImport("statistics", "dataset")).toBe(false);
    expect(mayImport("notebook", "units")).toBe(false);
    expect(mayImport("figures", "exports")).toBe(false);
    expect(mayImport("figures", "tables")).toBe(false);
    expect(mayImport("exports", "notebook")).toBe(false);
    expect(mayImport("cli", "notebook")).toBe(true);
    expect(mayImport("provisions", "demonstration")).toBe(false);
    const chain: [string, string[]][] = [
      ["a", ["b", "c"]],
      ["b", ["c"]],
      ["c", ["d"]],
    ];
    expect(circleIn(new Map(chain))).toBeNull();
    expect(circleIn(new Map([...chain, ["d", ["b"]]]))).toEqual(["b", "c", "d", "b"]);
  });
});
