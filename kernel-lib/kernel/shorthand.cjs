"use strict";
// tslab rewrites names of earlier cells where they are used, but forgets the shorthand of object
// literals: `{ seed }` would fail with "seed is not defined". Written out, `{ seed: seed }` works.
const { typescript } = require("./cell-places.cjs");

/**
 * The cell with every `{ name }` in an object literal written as `{ name: name }`; lines stay where
 * they are.
 */
function writeOutShorthand(source) {
  if (!source.includes("{")) return source;
  const ts = typescript();
  const file = ts.createSourceFile(
    "cell.ts",
    source,
    ts.ScriptTarget.ES2022,
    false,
    ts.ScriptKind.TS,
  );
  const places = [];
  const visit = (node) => {
    // With a default, as in `({ a = 1 } = b)`, it is a pattern and not a literal.
    if (ts.isShorthandPropertyAssignment(node) && !node.objectAssignmentInitializer)
      places.push({ end: node.name.end, name: node.name.text });
    ts.forEachChild(node, visit);
  };
  visit(file);
  return places.reduceRight(
    (text, { end, name }) => `${text.slice(0, end)}: ${name}${text.slice(end)}`,
    source,
  );
}

module.exports = { writeOutShorthand };
