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
}

const prefix = "kernel-lib/src/";
function importsOf(file: string): Import[] {
  return ts
    .preProcessFile(textOf(file), true, true)
    .importedFiles.filter(({ fileName }) => fileName.startsWith("."))
    .map(({ fileName }) => ({
      file,
      from: file.slice(prefix.length).split("/")[0]!,
      to: posix.join(posix.dirname(file), fileName).slice(prefix.length).split("/")[0] ?? "",
    }));
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
  it("are told apart by this test", () => {
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
  });
});
