import { PassThrough } from "node:stream";
import { expect, test } from "vitest";
import { stepThrough } from "../../kernel-lib/src/cli/notebook/step-review";
import { reviewNotebook } from "../../kernel-lib/src/notebook";
import { fixtureCopy } from "./notebook-in-scratch";

test("a reviewer steps, sees differences, looks at a variable, remarks, and quits", async () => {
  const input = new PassThrough();
  const printed: string[] = [];
  const stepping = stepThrough({ input, print: (line) => printed.push(line), width: 80 });
  input.end("n\nd\nv rows[1].ratio\nv process.exit()\nr Typed in by hand?\nn\nq\n");
  const { afterCell, beforeCell } = stepping;
  const review = await reviewNotebook(fixtureCopy("changed-number"), { afterCell, beforeCell });
  stepping.close();
  expect(review.cells).toHaveLength(3);
  expect(review.cells[1]?.remark).toBe("Typed in by hand?");
  expect(printed).toContain("  output, table, row B, column ratio: recorded 0.931, rerun 0.913, relative 1.93e-2");
  expect(printed).toContain("0.913");
  expect(printed.some((line) => line.startsWith("give a name"))).toBe(true);
});
