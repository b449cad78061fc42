import { readFile } from "node:fs/promises";
import { afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import { answering, invalidInputMessage } from "../../../kernel-lib/src/cli/use/answering";
import {
  asNamed,
  names,
  oneOf,
  positiveNumber,
  seedNumber,
  share,
  wholeNumber,
  InvalidInput,
} from "../../../kernel-lib/src/cli/use/invalid-input";
import { DatasetError } from "../../../kernel-lib/src/dataset";
import { NotebookProblem } from "../../../kernel-lib/src/notebook";
import { answerOf, answersOf, built, type Answer } from "../one-process";

afterEach(() => {
  vi.restoreAllMocks();
  process.exitCode = 0;
});

describe("the answer of a command", () => {
  it("is its exit code; invalid input is one message and 2; an error of our own is thrown on, never reported as invalid input", async () => {
    const err = vi.spyOn(console, "error").mockImplementation(() => undefined);
    await answering(() => 1)();
    expect(process.exitCode).toBe(1);
    for (const error of [
      new InvalidInput("--x"),
      new DatasetError("d"),
      new NotebookProblem("n"),
    ]) {
      await answering(() => Promise.reject(error))();
      expect(process.exitCode).toBe(2);
      expect(err.mock.lastCall).toEqual([error.message]);
    }
    await expect(
      answering(() => Promise.reject(new TypeError("x is not a function")))(),
    ).rejects.toThrow(TypeError);
  });
  it("says a file that cannot be used in the system's words", async () => {
    const error: unknown = await readFile("/no/such/file").catch((one: unknown) => one);
    expect(invalidInputMessage(error)).toContain("no such file or directory, open '/no/such/file'");
    expect(invalidInputMessage(new RangeError("index"))).toBeNull();
  });
});

describe("options", () => {
  it.each([
    [() => oneOf("level", "x", ["a", "b"]), /--level "x".* a or b\./],
    [() => positiveNumber("to", "-1"), /--to "-1".* a number above 0\./],
    [() => share("fractile", "1"), /--fractile "1".* between 0 and 1\./],
    [() => wholeNumber("jobs", "1.5"), /--jobs "1\.5".* whole number of at least 1\./],
    [() => seedNumber("seed", ""), /--seed "".* whole number such as 2026\./],
    [() => names("by", " , "), /--by " , ".* names separated by commas\./],
    [
      () =>
        asNamed(() => {
          throw new Error("No code x");
        }),
      /^No code x$/,
    ],
  ])("are refused with the value given and what to use (%#)", (make, message) => {
    expect(make).toThrow(InvalidInput);
    expect(make).toThrow(message);
  });
});

describe.skipIf(!built)(
  `every command (${built ? "built" : "kernel-lib/dist is absent, skipped: run npm ci"})`,
  () => {
    const listed = built
      ? [...answerOf("--help").stdout.matchAll(/^ {2}([a-z-]+) (?:\[|<|you)?/gm)]
          .map(([, name]) => name!)
          .filter((name) => !["help", "kernel"].includes(name))
      : [];
    it("is listed", () => {
      expect(listed).toEqual(
        expect.arrayContaining([
          "study",
          "run",
          "review",
          "check",
          "predict",
          "explain",
          "sensitivity",
          "embedment",
          "provisions",
          "compare",
          "propose",
          "plan-tests",
          "export",
          "import",
          "new",
          "curves",
          "demo",
        ]),
      );
    });
    const commands = [
      ...[...new Set(listed)].map((name) => [name]),
      ...["install", "remove", "status"].map((name) => ["kernel", name]),
    ];
    let answers: Answer[];
    beforeAll(() => {
      answers = answersOf(
        commands.flatMap((words) => [
          [...words, "--help"],
          [...words, "--no-such-option"],
        ]),
      );
    });
    it.each(commands.map((words, i) => [words.join(" "), i] as const))(
      "%s: --help has a description in lower case, an example and its exit codes; an unknown option ends with 2",
      (_name, i) => {
        const [help, wrong] = [answers[2 * i]!, answers[2 * i + 1]!];
        expect(help.status).toBe(0);
        expect(help.stdout).toMatch(/\n\n[a-z][^\n]+/);
        expect(help.stdout).toMatch(/Examples?:\n {2}code-comparison /);
        expect(help.stdout).toContain("Exit code: 0 ");
        expect(wrong.status).toBe(2);
        expect(wrong.stderr).toMatch(/\(.*--help .*\)/);
        expect(wrong.stderr).not.toMatch(/^\s+at .+:\d+:\d+/m);
      },
    );
  },
);
