import { expect, test } from "vitest";
import type { KernelClient } from "../../kernel-lib/src/notebook";
import { evaluateExpression } from "../../kernel-lib/src/notebook/review/evaluate-expression";

/** Answers every execution; what reaches it was not refused. */
const kernel = {
  execute: () => Promise.resolve({ status: "ok" }),
  interrupt: () => undefined,
  kill: () => Promise.resolve(),
} as unknown as KernelClient;

test.each([
  ["rows = 1", "assignments are refused"],
  ["`${rows = 1}`", "assignments are refused"],
  ["rows.length++", "assignments are refused"],
  ["rows.sort()", "use a copy"],
  ["rows . push (1)", "use a copy"],
  ["Object.assign(rows, [])", "use a copy"],
  ["`a=b`", "(nothing"],
  ['"rows.sort()"', "(nothing"],
  ["`rows.push(${rows.length})`", "(nothing"],
  ["rows.toSorted()", "(nothing"],
  ["rows.filter((row) => row.ratio >= 1).length", "(nothing"],
])("looking at %s", async (expression, said) => {
  expect((await evaluateExpression(kernel, expression)).shown).toContain(said);
});
