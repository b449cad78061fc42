import { join } from "node:path";
import ts from "typescript";
import { describe, expect, it } from "vitest";
import { filesBelow, project, source, textOf } from "./project-files";

function parse(file: string): ts.SourceFile {
  return ts.createSourceFile(file, textOf(file), ts.ScriptTarget.ES2022, true);
}

function placesOf(file: ts.SourceFile, wanted: (node: ts.Node) => boolean): string[] {
  const places: string[] = [];
  const visit = (node: ts.Node): void => {
    if (wanted(node))
      places.push(
        `${file.fileName}:${file.getLineAndCharacterOfPosition(node.getStart(file)).line + 1}`,
      );
    ts.forEachChild(node, visit);
  };
  visit(file);
  return places;
}

const isExported = (node: ts.Node): boolean =>
  ts.canHaveModifiers(node) &&
  (ts.getModifiers(node) ?? []).some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword);
const sourceFiles = filesBelow(source, /(?<!\.d)\.ts$/).map(parse);

describe("types in the source", () => {
  it("are never any", () => {
    const files = [...sourceFiles, ...filesBelow(join(project, "tests"), /\.ts$/).map(parse)];
    expect(files.length).toBeGreaterThan(200);
    expect(
      files.flatMap((file) => placesOf(file, ({ kind }) => kind === ts.SyntaxKind.AnyKeyword)),
    ).toEqual([]);
    expect(
      placesOf(
        ts.createSourceFile("x.ts", "let a: any[];", ts.ScriptTarget.ES2022, true),
        ({ kind }) => kind === ts.SyntaxKind.AnyKeyword,
      ),
    ).toEqual(["x.ts:1"]);
  });
  it("are written out where a function leaves its file", () => {
    const open = (node: ts.Node): boolean =>
      ts.isFunctionDeclaration(node) &&
      isExported(node) &&
      (node.type === undefined ||
        node.parameters.some(
          ({ type, initializer }) => type === undefined && initializer === undefined,
        ));
    expect(sourceFiles.flatMap((file) => placesOf(file, open))).toEqual([]);
  });
  it("have a docstring on every exported function", () => {
    const bare = (node: ts.Node): boolean =>
      ts.isFunctionDeclaration(node) &&
      isExported(node) &&
      ts.getJSDocCommentsAndTags(node).length === 0;
    expect(sourceFiles.flatMap((file) => placesOf(file, bare))).toEqual([]);
  });
});
