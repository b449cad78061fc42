import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import ts from "typescript";
import { describe, expect, it } from "vitest";
import { textOf } from "./project-files";

interface Declared {
  readonly name: string;
  readonly node: ts.Node;
  /** False for `export type`. */
  readonly value: boolean;
}

const parse = (file: string): ts.SourceFile =>
  ts.createSourceFile(file, textOf(file), ts.ScriptTarget.ES2022, true);

const moduleOf = (from: string, path: ts.Expression): string => {
  const at = join(dirname(from), (path as ts.StringLiteral).text).replaceAll("\\", "/");
  return existsSync(`${at}.ts`) ? `${at}.ts` : `${at}/index.ts`;
};

/** Where a name that a module exports is declared, through all that re-export it. */
function declarationOf(name: string, file: string): ts.Node | undefined {
  for (const statement of parse(file).statements) {
    if (ts.isVariableStatement(statement)) {
      if (statement.declarationList.declarations.some((one) => one.name.getText() === name))
        return statement;
    } else if (ts.isExportDeclaration(statement) && statement.moduleSpecifier) {
      const from = moduleOf(file, statement.moduleSpecifier);
      const { exportClause } = statement;
      const own =
        exportClause === undefined
          ? name
          : ts.isNamedExports(exportClause)
            ? nameBehind(exportClause, name)
            : undefined;
      const found = own === undefined ? undefined : declarationOf(own, from);
      if (found) return found;
    } else if ((statement as { name?: ts.Node } & ts.Node).name?.getText() === name)
      return statement;
  }
  return undefined;
}

const nameBehind = ({ elements }: ts.NamedExports, name: string): string | undefined => {
  const one = elements.find((element) => element.name.text === name);
  return one && (one.propertyName ?? one.name).text;
};

/** All that the face exports, with its declaration. */
function faceExports(): Declared[] {
  const file = "kernel-lib/src/index.ts";
  return parse(file).statements.flatMap((statement) => {
    if (!ts.isExportDeclaration(statement)) return [];
    const { exportClause, isTypeOnly } = statement;
    if (!exportClause || !ts.isNamedExports(exportClause)) return [];
    return exportClause.elements.map((element): Declared => {
      const node = declarationOf(element.name.text, file);
      if (!node) throw new Error(`${element.name.text} is exported and declared nowhere`);
      return { name: element.name.text, node, value: !isTypeOnly && !element.isTypeOnly };
    });
  });
}

const documented = (node: ts.Node): boolean =>
  ts.getJSDocCommentsAndTags(node).some(ts.isJSDoc) ||
  // An overload or a redefinition takes the words of what it stands for.
  (ts.canHaveModifiers(node) &&
    (ts.getModifiers(node) ?? []).some(({ kind }) => kind === ts.SyntaxKind.OverrideKeyword));

function isPublic(member: ts.ClassElement): boolean {
  return (
    !ts.isPrivateIdentifier(member.name ?? member) &&
    !(ts.canHaveModifiers(member) ? (ts.getModifiers(member) ?? []) : []).some(
      ({ kind }) =>
        kind === ts.SyntaxKind.PrivateKeyword || kind === ts.SyntaxKind.ProtectedKeyword,
    )
  );
}

const exported = faceExports();

describe("what the library's face exports", () => {
  it("has a docstring", () => {
    expect(exported.length).toBeGreaterThan(60);
    expect(exported.filter(({ node }) => !documented(node)).map(({ name }) => name)).toEqual([]);
  });
  it("has one on every public method of its classes", () => {
    const classes = exported.filter(({ node }) => ts.isClassDeclaration(node));
    expect(classes.length).toBeGreaterThan(20);
    const bare = classes.flatMap(({ name, node }) => {
      const methods = (node as ts.ClassDeclaration).members.filter(
        // Those named by a symbol are called by the language or the kernel.
        (member) =>
          ts.isMethodDeclaration(member) &&
          !ts.isComputedPropertyName(member.name) &&
          isPublic(member),
      );
      // The words of an overloaded method may stand at its first form.
      const told = new Set(methods.filter(documented).map((one) => one.name!.getText()));
      return methods
        .map((one) => one.name!.getText())
        .filter((method) => !told.has(method))
        .map((method) => `${name}.${method}`);
    });
    expect([...new Set(bare)]).toEqual([]);
  });
  it("has an example where it is a value", () => {
    const bare = exported
      .filter(({ value }) => value)
      .filter(
        ({ node }) => !ts.getJSDocTags(node).some(({ tagName }) => tagName.text === "example"),
      )
      .map(({ name }) => name);
    expect(bare).toEqual([]);
  });
});
