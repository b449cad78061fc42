import { createRequire } from "node:module";
import type ts from "typescript";
import { NotebookProblem, codeCells, sourceOf, tagsOf } from "../format";
import type { CodeCell, Notebook } from "../format";
import { resolvePackageFile } from "../kernel-client";

export type ParameterValue = number | string | boolean | number[] | string[] | boolean[];

/** A parameter as its cell declares it. */
export interface Parameter {
  readonly name: string;
  readonly type: "number" | "string" | "boolean" | "number[]" | "string[]" | "boolean[]";
  readonly value: ParameterValue;
  /** The values that a union of literals allows, when the declaration has one. */
  readonly choices?: readonly ParameterValue[];
}

/** The cell tagged `parameters`. */
export function parametersCell(notebook: Notebook): CodeCell | undefined {
  return codeCells(notebook).find(({ cell }) => tagsOf(cell).includes("parameters"))?.cell;
}

/**
 * The parameters a notebook declares: the variables of its cell tagged `parameters` whose
 * value is a number, a text, a boolean, or a list of one of these.
 *
 * @throws NotebookProblem when the notebook has no such cell.
 */
export function readParameters(notebook: Notebook, name: string): Parameter[] {
  const cell = parametersCell(notebook);
  if (!cell)
    throw new NotebookProblem(
      `${name} has no cell tagged "parameters", so nothing can be set in it`,
    );
  const compiler = loadCompiler();
  const file = compiler.createSourceFile(
    "parameters.ts",
    sourceOf(cell),
    compiler.ScriptTarget.ES2022,
    true,
  );
  const found: Parameter[] = [];
  for (const statement of file.statements) {
    if (!compiler.isVariableStatement(statement)) continue;
    for (const declaration of statement.declarationList.declarations) {
      const parameter = parameterOf(compiler, declaration);
      if (parameter) found.push(parameter);
    }
  }
  return found;
}

/** The compiler that the kernel itself uses, so that both read a cell alike. */
function loadCompiler(): typeof ts {
  const requireFromTslab = createRequire(resolvePackageFile("tslab", "package.json"));
  return requireFromTslab("@tslab/typescript-for-tslab") as typeof ts;
}

function parameterOf(
  compiler: typeof ts,
  declaration: ts.VariableDeclaration,
): Parameter | undefined {
  if (!compiler.isIdentifier(declaration.name) || !declaration.initializer) return undefined;
  const value = literalValue(compiler, declaration.initializer);
  if (value === undefined) return undefined;
  const type = parameterType(value, declaration.type?.getText());
  if (!type) return undefined;
  const choices =
    declaration.type && compiler.isUnionTypeNode(declaration.type)
      ? unionChoices(compiler, declaration.type)
      : undefined;
  return {
    name: declaration.name.text,
    type,
    value: value as ParameterValue,
    ...(choices ? { choices } : {}),
  };
}

function literalValue(compiler: typeof ts, node: ts.Node): unknown {
  if (compiler.isAsExpression(node) || compiler.isParenthesizedExpression(node))
    return literalValue(compiler, node.expression);
  if (compiler.isNumericLiteral(node)) return Number(node.text);
  if (compiler.isStringLiteralLike(node)) return node.text;
  if (node.kind === compiler.SyntaxKind.TrueKeyword) return true;
  if (node.kind === compiler.SyntaxKind.FalseKeyword) return false;
  if (compiler.isPrefixUnaryExpression(node)) {
    const inner = literalValue(compiler, node.operand);
    if (typeof inner !== "number") return undefined;
    return node.operator === compiler.SyntaxKind.MinusToken ? -inner : inner;
  }
  if (compiler.isArrayLiteralExpression(node)) {
    const items = node.elements.map((element) => literalValue(compiler, element));
    return items.includes(undefined) ? undefined : items;
  }
  return undefined;
}

/** The declared type where it is one of ours (it decides for an empty list), else the value's. */
function parameterType(
  value: unknown,
  declared: string | undefined,
): Parameter["type"] | undefined {
  if (!Array.isArray(value)) return typeof value as "number" | "string" | "boolean";
  const fromDeclaration = /^(?:readonly )?(number|string|boolean)\[\]$/.exec(declared ?? "")?.[1];
  const kinds = new Set(value.map((item) => typeof item));
  const kind = fromDeclaration ?? (kinds.size === 1 ? [...kinds][0] : undefined);
  return kind === "number" || kind === "string" || kind === "boolean" ? `${kind}[]` : undefined;
}

function unionChoices(compiler: typeof ts, union: ts.UnionTypeNode): ParameterValue[] | undefined {
  const values = union.types.map((member) =>
    compiler.isLiteralTypeNode(member) ? literalValue(compiler, member.literal) : undefined,
  );
  return values.includes(undefined) ? undefined : (values as ParameterValue[]);
}
