import { readFileSync } from "node:fs";
import { join } from "node:path";
import ts from "typescript";
import { filesBelow, project } from "./project-files";

/** An example of a docstring. */
export interface SourceExample {
  /** Relative to the library's sources, without ending: "statistics/sample/quantiles". */
  readonly module: string;
  /** The declaration that it stands at: "Study.audit". */
  readonly of: string;
  /** As JavaScript: the body of an async function that reports the value of each statement. */
  readonly body: string;
  /** Names that the example uses and does not declare, those of members left out. */
  readonly names: readonly string[];
  /** The comment behind each statement, in order; blank where there is none. */
  readonly stated: readonly string[];
}

/** All examples in docstrings of the library. */
export function sourceExamples(): SourceExample[] {
  return filesBelow(join(project, "kernel-lib", "src"), /(?<!\.d)\.ts$/).flatMap(examplesOf);
}

function examplesOf(file: string): SourceExample[] {
  const text = readFileSync(join(project, file), "utf8");
  if (!text.includes("@example")) return [];
  const found: SourceExample[] = [];
  const visit = (node: ts.Node, outer: string): void => {
    const name = [outer, nameOf(node)].filter((part) => part !== "").join(".");
    for (const comment of (node as ts.JSDocContainer & { jsDoc?: ts.JSDoc[] }).jsDoc ?? [])
      for (const tag of comment.tags ?? [])
        if (tag.tagName.text === "example")
          found.push({
            module: file.replace(/^kernel-lib\/src\//, "").replace(/\.ts$/, ""),
            of: name,
            ...prepared(ts.getTextOfJSDocComment(tag.comment) ?? ""),
          });
    if (ts.isClassDeclaration(node) || ts.isInterfaceDeclaration(node))
      for (const member of node.members) visit(member, name);
  };
  for (const statement of parsed(text).statements) visit(statement, "");
  return found;
}

const parsed = (text: string): ts.SourceFile =>
  ts.createSourceFile("example.ts", text, ts.ScriptTarget.ES2022, true);

function nameOf(node: ts.Node): string {
  if (ts.isVariableStatement(node)) return node.declarationList.declarations[0]!.name.getText();
  const { name } = node as { name?: ts.Node };
  return name?.getText() ?? "";
}

function prepared(code: string): Pick<SourceExample, "body" | "names" | "stated"> {
  const file = parsed(code);
  const stated: string[] = [];
  let body = "";
  for (const statement of file.statements) {
    // What an example imports is what it may use anyway.
    if (ts.isImportDeclaration(statement)) continue;
    if (ts.isExpressionStatement(statement)) {
      body += `at(${String(stated.length)}, await (${statement.expression.getText()}));\n`;
      stated.push(commentBehind(code, statement.getEnd()));
    } else body += `${statement.getText()}\n`;
  }
  const names = namesUsed(file);
  const { outputText, diagnostics } = ts.transpileModule(`(async () => {${body}})()`, {
    reportDiagnostics: true,
    compilerOptions: { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.CommonJS },
  });
  const problem = diagnostics?.[0];
  return {
    body: problem
      ? `throw new SyntaxError(${JSON.stringify(ts.flattenDiagnosticMessageText(problem.messageText, " "))})`
      : `return ${outputText.replace(/^"use strict";\s*/, "")}`,
    names,
    stated,
  };
}

/** The comment on the line of a statement's end, or that begins the next line. */
function commentBehind(code: string, end: number): string {
  return /^;?\s*\/\/ ?([^\n]*)/.exec(code.slice(end))?.[1]?.trim() ?? "";
}

function namesUsed(file: ts.SourceFile): string[] {
  const used = new Set<string>();
  const declared = new Set<string>();
  const visit = (node: ts.Node): void => {
    if (ts.isTypeNode(node)) return;
    if (ts.isIdentifier(node)) {
      const { parent } = node;
      const member =
        (ts.isPropertyAccessExpression(parent) && parent.name === node) ||
        (ts.isPropertyAssignment(parent) && parent.name === node) ||
        (ts.isBindingElement(parent) && parent.propertyName === node);
      const declares =
        (ts.isVariableDeclaration(parent) ||
          ts.isParameter(parent) ||
          ts.isBindingElement(parent)) &&
        parent.name === node;
      if (declares) declared.add(node.text);
      else if (!member) used.add(node.text);
    }
    ts.forEachChild(node, visit);
  };
  for (const statement of file.statements) if (!ts.isImportDeclaration(statement)) visit(statement);
  return [...used].filter((name) => !declared.has(name));
}
