"use strict";
// Where in a cell the cursor stands: inside quotes, inside a call, among the names of an import.
const { dirname } = require("node:path");

let compiler;

/** The compiler that tslab uses. */
function typescript() {
  compiler ??= require(
    require.resolve("@tslab/typescript-for-tslab", {
      paths: [dirname(require.resolve("tslab/package.json"))],
    }),
  );
  return compiler;
}

function syntaxOf(source) {
  const ts = typescript();
  return ts.createSourceFile("cell.ts", source, ts.ScriptTarget.ES2022, true, ts.ScriptKind.TS);
}

/** The innermost node that `suits` and holds the position. */
function innermost(source, position, suits) {
  const ts = typescript();
  const file = syntaxOf(source);
  let found;
  const visit = (node) => {
    if (node.pos > position || node.end < position) return;
    if (suits(node, file)) found = node;
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found && { node: found, file };
}

/** Start and end of the text inside the quotes around the position; undefined elsewhere. */
function quotedAt(source, position) {
  const ts = typescript();
  const found = innermost(
    source,
    position,
    (node, file) =>
      ts.isStringLiteralLike(node) &&
      node.getStart(file) < position &&
      (position < node.end || (node.isUnterminated && position <= node.end)),
  );
  if (!found) return undefined;
  const { node, file } = found;
  const start = node.getStart(file) + 1;
  // Without its closing quote a text runs on to the end of the line: only what was typed counts.
  return { start, end: node.isUnterminated ? position : node.end - 1, node };
}

/**
 * The place of the name of the function whose arguments hold the position, and which of them does,
 * from 1; undefined elsewhere.
 */
function calleeAt(source, position) {
  const ts = typescript();
  // A call without its closing bracket ends with its last word, not where the next is typed.
  const found =
    callAround(source, position) ?? callAround(source, source.slice(0, position).trimEnd().length);
  if (!found) return undefined;
  const { expression, arguments: given } = found.node;
  const start = ts.isPropertyAccessExpression(expression)
    ? expression.name.getStart(found.file)
    : expression.getStart(found.file);
  const before = given.filter(({ end }) => source.slice(end, position).includes(","));
  return { start, argument: before.length + 1 };
}

function callAround(source, position) {
  const ts = typescript();
  return innermost(
    source,
    position,
    (node) =>
      ts.isCallExpression(node) &&
      node.expression.end < position &&
      (position < node.end || source[node.end - 1] !== ")"),
  );
}

const IMPORTED = /\bimport\s+(?:type\s+)?\{([^}"';]*)$/;

/** The module and the typed beginning where the position is among the names of an import. */
function importAt(source, position) {
  const match = IMPORTED.exec(source.slice(0, position));
  if (!match) return undefined;
  const typed = /[\w$]*$/.exec(match[1])[0];
  const rest = source.slice(position);
  const [, module = "kernel-lib"] = /^[^}]*\}\s*from\s*["']([^"']+)["']/.exec(rest) ?? [];
  const end = position + /^[\w$]*/.exec(rest)[0].length;
  return { module, typed, start: position - typed.length, end };
}

/** Whether quotes hold a condition on columns: the argument of `where`, or a key of that name. */
function holdsCondition({ parent }) {
  const ts = typescript();
  return ts.isCallExpression(parent)
    ? /\bwhere$/.test(parent.expression.getText())
    : ts.isPropertyAssignment(parent) && parent.name.getText() === "where";
}

/** Whether quotes hold the name of a module. */
function namesModule(node) {
  const ts = typescript();
  const { parent } = node;
  return (
    ts.isImportDeclaration(parent) ||
    ts.isExternalModuleReference(parent) ||
    (ts.isCallExpression(parent) && /^(import|require)$/.test(parent.expression.getText()))
  );
}

/**
 * The protocol counts characters; a text here is counted in units of UTF-16, of which a character
 * such as 𝜎 takes two.
 */
function unitsBefore(code, characters) {
  return [...code].slice(0, Math.max(0, characters ?? 0)).join("").length;
}

function charactersBefore(code, units) {
  return [...code.slice(0, units)].length;
}

module.exports = {
  calleeAt,
  charactersBefore,
  holdsCondition,
  importAt,
  namesModule,
  quotedAt,
  syntaxOf,
  typescript,
  unitsBefore,
};
