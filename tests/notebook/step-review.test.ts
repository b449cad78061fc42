import { spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { join } from "node:path";
import { PassThrough } from "node:stream";
import { afterAll, describe, expect, test } from "vitest";
import { stepThrough } from "../../kernel-lib/src/cli/notebook/step-review";
import { readReviewRecord, reviewNotebook } from "../../kernel-lib/src/notebook";
import type { NotebookReview } from "../../kernel-lib/src/notebook";
import { fixtureCopy, notebookOf, scratchFolder } from "./notebook-in-scratch";
import { sharedKernel } from "./shared-kernel";

const startKernel = sharedKernel();

async function stepped(
  file: string,
  typed: string,
): Promise<{ review: NotebookReview; printed: string[] }> {
  const input = new PassThrough();
  const printed: string[] = [];
  const stepping = stepThrough({ input, print: (line) => printed.push(line), width: 80 });
  input.end(typed);
  const { afterCell, beforeCell } = stepping;
  const review = await reviewNotebook(file, { afterCell, beforeCell, startKernel });
  stepping.close();
  return { review, printed };
}

test("a reviewer steps, sees differences, looks at a variable, remarks, and quits", async () => {
  const { review, printed } = await stepped(
    fixtureCopy("changed-number"),
    "n\nd\nc\nv rows[1].ratio\nv rows[1].ratio * 2\nr Typed in by hand?\n!\nz\nh\nt 2\nt 9\nn\nq\n",
  );
  expect(review.cells).toHaveLength(3);
  expect(review.cells[1]).toMatchObject({ remark: "Typed in by hand?", opinion: "question" });
  expect(review.notes).toContain("after cell 2 the reviewer evaluated rows[1].ratio * 2");
  expect(printed).toContain(
    "  output, table, row B, column ratio: recorded 0.931, rerun 0.913, relative 1.93e-2",
  );
  for (const line of ["0.913", "1.826"]) expect(printed).toContain(line);
  for (const said of [
    /unknown command: z\b/,
    /^t 2: .*cell from 3 to 4/,
    /^t 9: .*cell from 3 to 4/,
  ])
    expect(printed.filter((line) => said.test(line))).toHaveLength(1);
  expect(printed.some((line) => line.startsWith("  // Ratios by series"))).toBe(true);
});

test("runs on to a cell, and the end of the input ends the review", async () => {
  const { review, printed } = await stepped(fixtureCopy("changed-number"), "t 3\nb\n");
  expect(review.cells).toHaveLength(3);
  expect(printed.filter((line) => line.startsWith("n next"))).toHaveLength(3);
});

test("many lines are cut with their number, and b shows them all; differing lines bear a sign", async () => {
  const file = notebookOf([
    {
      source:
        'console.log(Array.from({ length: 60 }, (_, i) => `line ${i === 50 ? "x" : i}`).join("\\n"))',
      execution_count: 1,
      outputs: [
        {
          output_type: "stream",
          name: "stdout",
          text: `${Array.from({ length: 60 }, (_, i) => `line ${i}`).join("\n")}\n`,
        },
      ],
    },
  ]);
  const { printed } = await stepped(file, "b\n");
  expect(printed).toContain("… 21 more lines");
  expect(printed.filter((line) => line.includes("≠"))).toEqual([
    "  line 50                               ≠ line x",
  ]);
});

const SCRIPT = "/usr/bin/script";
const hasTerminal = process.platform === "linux" && existsSync(SCRIPT);
if (!hasTerminal)
  console.log("skipped: stepping in a real terminal, as there is no util-linux script(1)");

describe.skipIf(!hasTerminal)("in a terminal", () => {
  const children: number[] = [];
  afterAll(() => children.forEach((pid) => existsSync(`/proc/${pid}`) && process.kill(pid)));

  /**
   * Types each answer once the screen shows what it waits for; gives the screen and the exit code.
   */
  function inTerminal(
    words: string,
    typed: readonly (readonly [waitFor: RegExp, keys: string])[],
  ): Promise<{ screen: string; code: number | null }> {
    const program = join(__dirname, "..", "..", "kernel-lib", "bin", "code-comparison.js");
    const child = spawn(
      SCRIPT,
      ["-qec", `stty cols 100; exec "${process.execPath}" "${program}" ${words}`, "/dev/null"],
      { stdio: ["pipe", "pipe", "inherit"] },
    );
    if (child.pid !== undefined) children.push(child.pid);
    let screen = "";
    let from = 0;
    const left = [...typed];
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      screen += text;
      while (left[0]?.[0].test(screen.slice(from))) {
        from = screen.length;
        const [, keys] = left.shift()!;
        // Ctrl-C a moment later, so that the cell has begun.
        setTimeout(() => child.stdin.write(keys), keys === "\u0003" ? 1000 : 0);
      }
    });
    return new Promise((done) => child.once("close", (code) => done({ screen, code })));
  }
  const asked = /h help\r\n$/;

  test(
    "steps, stops a cell with Ctrl-C, signs what was reviewed",
    { timeout: 120_000 },
    async () => {
      const out = scratchFolder();
      const file = notebookOf([
        "const mean = 1.25;",
        "let n = 0; while (n >= 0) n = (n + 1) % 1000;",
        "mean",
        "4",
      ]);
      const { screen, code } = await inTerminal(
        `review "${file}" --step --sign "A. Reviewer" --out "${out}"`,
        [
          [asked, "v mean\n"],
          [/1\.25\r\n[^]*h help\r\n$/, "r needs a unit\n"],
          [asked, "n\n"],
          // The second cell never ends by itself.
          [/running cell 2/, "\u0003"],
          [asked, "t 3\n"],
          [asked, "q\n"],
        ],
      );
      expect(screen).toContain("stopped by the user");
      expect(code).toBe(1);
      const record = await readReviewRecord(join(out, "review-record.json"));
      expect(record).toMatchObject({ reviewer: "A. Reviewer", reproduced: false });
      expect(record.notebooks[0]?.cells.map(({ remark }) => remark)).toEqual([
        "needs a unit",
        "",
        "",
      ]);
    },
  );
});
