import type { Command, Option } from "commander";
import { brokenLine } from "../../formula";
import { say, tell } from "./printing";
import { terminalWidth } from "./terminal-width";

/** Help as wide as the terminal, and every option with its default. Commands added later inherit. */
export function withHelpStyle(program: Command): Command {
  return program
    .configureOutput({
      getOutHelpWidth: terminalWidth,
      getErrHelpWidth: terminalWidth,
      // Messages quote the words of the command line.
      writeOut: (text) => say(text.replace(/\n$/, "")),
      writeErr: (text) => tell(text.replace(/\n$/, "")),
    })
    .configureHelp({ optionDescription, minWidthToWrap: 20 });
}

/** What an option does, and its default in brackets. */
function optionDescription(option: Option): string {
  if (option.long === "--help" || option.long === "--version") return option.description;
  return `${option.description} (${option.mandatory ? "required" : `default: ${defaultOf(option)}`})`;
}

function defaultOf({ defaultValue, defaultValueDescription, ...option }: Option): string {
  if (defaultValueDescription !== undefined) return defaultValueDescription;
  const value: unknown = defaultValue;
  if (Array.isArray(value) && value.length > 0) return value.map(String).join(" ");
  // A long list breaks at its commas.
  if (typeof value === "string") return value.length > 30 ? value.replace(/,\s*/g, ", ") : value;
  if (typeof value === "number") return String(value);
  return option.required || option.optional ? "none" : "off";
}

/** What stands below the options of a command. */
export interface HelpNotes {
  /** Command lines without the program's name. */
  readonly examples: readonly string[];
  /** Paragraphs. */
  readonly notes?: readonly string[];
  /** Meaning of exit codes 0 and 1, such as "0 done; 1 errors found". */
  readonly exit: string;
}

/** Examples, notes and exit codes of a command, at the width of the terminal. */
export function helpNotes({ examples, notes = [], exit }: HelpNotes): () => string {
  return () =>
    [
      `\n${examples.length === 1 ? "Example" : "Examples"}:`,
      ...examples.map((one) => `  code-comparison ${one}`),
      ...[...notes, `Exit code: ${exit}; 2 invalid option or input.`].map(
        (one) => `\n${brokenLine(one, terminalWidth(), 0)}`,
      ),
    ].join("\n");
}

/** An option without a value of its own: what happens when it is absent is said by words. */
export function absent(option: Option, meaning: string): Option {
  return option.default(undefined, meaning);
}
