import { describe, expect, test } from "vitest";
import { printable, printableLine } from "../../../kernel-lib/src/formula";
import { reviewLine, reviewSummary } from "../../../kernel-lib/src/cli/notebook/print-review";
import { textOf, trackedFiles } from "../../house/project-files";

const ESCAPE = "\u001b";

describe("what is printed commands no terminal", () => {
  // ECMA-48: ESC [ begins a control sequence, ESC ] an operating system command (window title),
  // 9B is ESC [ in one character; Unicode Standard Annex 9: the marks of direction.
  test.each([
    ["a line erased", `${ESCAPE}[1A${ESCAPE}[2K`, "\\u001b[1A\\u001b[2K"],
    ["a window's title", `${ESCAPE}]0;safe\u0007`, "\\u001b]0;safe\\u0007"],
    ["control sequence in one character", "\u009b2K", "\\u009b2K"],
    ["a line written over", "FAILED\rsame", "FAILED\\u000dsame"],
    ["letters turned around", "\u202e05.1", "\\u202e05.1"],
    ["letters taken back", "1.5\b\b\b0.9", "1.5\\u0008\\u0008\\u00080.9"],
    ["line ends and tabs stay", "a\tb\r\nc\n", "a\tb\r\nc\n"],
    ["units, signs and letters stay", "τ ≥ 1.5 N/mm² − 3 × 10⁻⁵ é", "τ ≥ 1.5 N/mm² − 3 × 10⁻⁵ é"],
  ])("%s", (_name, text, printed) => {
    expect(printable(text)).toBe(printed);
  });

  test("a text of many lines does not pass for lines of ours", () => {
    expect(printableLine("failed\n  [12/12] All cells  same\r\n")).toBe(
      "failed [12/12] All cells  same ",
    );
    const cell = {
      number: 1,
      id: "a",
      title: `Ratios${ESCAPE}[2K`,
      source: "",
      verdict: "failed" as const,
      explanation: "Error: x\nstudy.ipynb: reproduced, 12 same",
      differences: [],
      rules: [],
      tolerance: 1e-9,
      seconds: 0,
      recorded: [],
      rerun: [],
    };
    const review = {
      name: "a\n.ipynb",
      hash: "",
      cells: [cell],
      reproduced: false,
      cellCount: 1,
      reasons: ["one\ntwo"],
      notes: [],
      seconds: 0,
    };
    const lines = [reviewLine(cell, 1), ...reviewSummary(review)];
    // eslint-disable-next-line no-control-regex
    expect(lines.filter((line) => /[\u0000-\u001f]/.test(line))).toEqual([]);
    expect(lines[0]).toContain("FAILED: Error: x study.ipynb: reproduced, 12 same");
  });
});

const tracked = trackedFiles();
test.skipIf(tracked === null)("commands print through one function only", () => {
  const raw = /\bconsole\s*\.|\bprocess\.std(?:out|err)\.(?:write|end)\b/;
  const printing = (tracked ?? [])
    .filter((file) => file.startsWith("kernel-lib/src/") && file.endsWith(".ts"))
    .filter((file) =>
      textOf(file)
        .split("\n")
        .some((line) => !/^\s*(?:\*|\/\/|\/\*)/.test(line) && raw.test(line)),
    );
  // The second is what a script shows outside a notebook; it calls the same function.
  expect(printing).toEqual(["kernel-lib/src/cli/use/printing.ts", "kernel-lib/src/face/show.ts"]);
  expect(textOf("kernel-lib/src/face/show.ts")).toContain("process.stdout.write(`${printable(");
});
