import type { Command } from "commander";
import { afterEach, describe, expect, it } from "vitest";
import { commandLine } from "../../../kernel-lib/src/cli/command-line";
import { terminalWidth } from "../../../kernel-lib/src/cli/use/terminal-width";

const columns = process.env["COLUMNS"];
afterEach(() => {
  if (columns === undefined) delete process.env["COLUMNS"];
  else process.env["COLUMNS"] = columns;
});

const all = (command: Command): Command[] => [command, ...command.commands.flatMap(all)];
const commands = all(commandLine());
const named = (name: string): Command => commands.find((one) => one.name() === name)!;
const optionsOf = (name: string): string[] => named(name).options.map(({ long }) => long ?? "");

/** Help as printed, what stands below the options too. */
function helpOf(command: Command, width: number): string {
  process.env["COLUMNS"] = String(width);
  let text = "";
  command.configureOutput({ ...command.configureOutput(), writeOut: (part) => (text += part) });
  command.outputHelp();
  return text;
}

/** Commands that predict or compare, and read tests. */
const OF_TESTS = [
  "compare",
  "predict",
  "explain",
  "sensitivity",
  "embedment",
  "grips",
  "propose",
  "plan-tests",
  "export",
];

describe("the vocabulary of the options", () => {
  it("has one name for a code, and none of the names of before", () => {
    const used = new Set(commands.flatMap(({ options }) => options.map(({ long }) => long)));
    for (const old of ["--code", "--way", "--bounds", "--basis"]) expect(used).not.toContain(old);
    // The glossary's names.
    for (const name of [
      "--codes",
      "--capacity-of",
      "--lower-bounds",
      "--fractile",
      "--confidence",
      "--cells",
      "--scope",
      "--require",
      "--versus",
      "--criterion",
      "--leave-out",
    ])
      expect(used).toContain(name);
  });
  it.each(OF_TESTS)("%s takes rows by a condition and options of the code", (name) => {
    expect(optionsOf(name)).toEqual(expect.arrayContaining(["--where", "--option"]));
  });
  it("the design of one bar reads no tests, and takes options of the codes", () => {
    expect(optionsOf("design-compare")).toContain("--option");
    expect(optionsOf("design-compare")).not.toContain("--where");
  });
  it("says the same of an option in every command, but for lists of codes", () => {
    for (const shared of ["--where", "--option", "--level", "--data", "--fractile"])
      expect(
        new Set(
          commands.flatMap(({ options }) =>
            options.filter(({ long }) => long === shared).map(({ description }) => description),
          ),
        ).size,
        shared,
      ).toBe(1);
  });
});

describe("help", () => {
  it.each(commands.map((command) => [command.name(), command] as const))(
    "%s: every option has its default, and lines keep to the width, but for examples",
    (_name, command) => {
      for (const width of [60, 100]) {
        const help = helpOf(command, width);
        const lines = help.split("\n").filter((line) => !line.startsWith("  code-comparison "));
        expect(Math.max(...lines.map(({ length }) => length)), help).toBeLessThanOrEqual(width);
        const flat = help.replace(/\s+/g, " ");
        const places = command.options.map(({ flags }) => flat.indexOf(` ${flags} `));
        command.options.forEach(({ flags, description }, k) => {
          if (flags.includes("--version")) return;
          const own = flat.slice(places[k], places[k + 1] ?? flat.indexOf("-h, --help"));
          expect(own).toContain(description);
          expect(own.trim(), flags).toMatch(/\((default: .+|required)\)$/);
        });
      }
    },
  );
  it("prints the value that is used when an option is absent", () => {
    const flat = helpOf(named("compare"), 100).replace(/\s+/g, " ");
    expect(flat).toMatch(/--fractile <p> [^(]*\(default: 0\.05\)/);
    expect(flat).toMatch(/--by <columns> [^(]*\(default: mode,bar_material\)/);
  });
});

describe("the width of a line", () => {
  it("is that of COLUMNS where nothing tells the terminal's, 100 without, and never below 40", () => {
    const width = (value: string | undefined): number => {
      if (value === undefined) delete process.env["COLUMNS"];
      else process.env["COLUMNS"] = value;
      return terminalWidth();
    };
    expect(process.stdout.columns).toBeUndefined();
    expect([undefined, "72", "12", "wide", "0"].map(width)).toEqual([100, 72, 40, 100, 100]);
  });
});
