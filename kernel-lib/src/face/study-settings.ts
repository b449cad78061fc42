import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { didYouMean, TEST_COLUMNS } from "../dataset";
import { CODES, type Level } from "../provisions";
import type { CodeId } from "./results/generated-names";

/** The file of a study's folder that holds its settings. */
export const STUDY_FILE = "study.json";

/** What a study's settings file may state. */
export interface StudySettings {
  readonly title?: string;
  /** Data folders, from the study's folder. */
  readonly data?: readonly string[];
  /** Rows looked at, in the language of `where`. */
  readonly where?: string;
  /** Codes: the first is judged, the others stand beside it. */
  readonly codes?: readonly [CodeId, ...CodeId[]];
  readonly level?: Level;
  /** Columns of the groups that get a verdict. */
  readonly by?: readonly [string, ...string[]];
  readonly fractile?: number;
  readonly confidence?: number;
  readonly criterion?: "fractile" | "as steel" | "reliability";
}

/** The settings of a study that states none. */
export const USUAL_SETTINGS = {
  codes: ["aci318-19", "en1992-4-2018", "aci440.1r-15"],
  by: ["mode", "bar_material"],
} as const satisfies StudySettings;

/** A settings file that cannot be used: the file, the setting, its value and what was expected. */
export class StudySettingsError extends Error {
  constructor(message: string) {
    super(message);
    this.name = "StudySettingsError";
  }
}

type Rule = { readonly expected: string; readonly holds: (value: unknown) => boolean };

const text: Rule = { expected: "a text", holds: (value) => typeof value === "string" };
const oneOf = (...words: readonly string[]): Rule => ({
  expected: words.map((word) => `"${word}"`).join(" or "),
  holds: (value) => words.some((word) => word === value),
});
const share: Rule = {
  expected: "a number between 0 and 1",
  holds: (value) => typeof value === "number" && value > 0 && value < 1,
};
const listOf = (expected: string, known?: readonly string[]): Rule => ({
  expected: `a list of ${expected}`,
  holds: (value) =>
    Array.isArray(value) &&
    value.length > 0 &&
    value.every((one) => typeof one === "string" && (known?.includes(one) ?? one !== "")),
});

const GROUPED = [
  ...TEST_COLUMNS.map(({ name }) => name),
  ...["mode", "failure_mode", "provision", "layout", "bar_class", "code"],
];

const RULES: Readonly<Record<keyof StudySettings, Rule>> = {
  title: text,
  data: {
    expected: 'a list of folders such as "data", none of them the folder of the study itself',
    holds: (value) =>
      listOf("").holds(value) && !(value as string[]).some((one) => /^(\.\/?)+$/.test(one)),
  },
  where: text,
  codes: listOf(
    "codes such as aci318-19 (`code-comparison provisions` lists them)",
    CODES.map(({ id }) => id),
  ),
  level: oneOf("expected", "nominal", "design"),
  by: listOf("columns such as mode or bar_material", GROUPED),
  fractile: share,
  confidence: share,
  criterion: oneOf("fractile", "as steel", "reliability"),
};

/** Where a command puts settings that go before those of the file: `study --data`, `--where`. */
const ASKED = "CODE_COMPARISON_SETTINGS";

/** Settings that go before those of every file, also in the kernels that this process starts. */
export function askSettings(asked: StudySettings): void {
  process.env[ASKED] = JSON.stringify(asked);
}

/**
 * The settings of a study's folder; none where it has no settings file.
 * @throws StudySettingsError naming the file, the setting, its value and what was expected
 */
export function readStudySettings(root: string): StudySettings {
  const asked = JSON.parse(process.env[ASKED] ?? "{}") as StudySettings;
  return { ...settingsOfFile(join(root, STUDY_FILE)), ...asked };
}

function settingsOfFile(file: string): StudySettings {
  if (!existsSync(file)) return {};
  let read: unknown;
  try {
    read = JSON.parse(readFileSync(file, "utf8").replace(/^\uFEFF/, ""));
  } catch (error) {
    throw new StudySettingsError(`${file} is not JSON: ${(error as Error).message}.`);
  }
  if (typeof read !== "object" || read === null || Array.isArray(read))
    throw new StudySettingsError(`${file} holds no object; expected { "title": ..., ... }.`);
  const known = Object.keys(RULES);
  for (const [name, value] of Object.entries(read)) {
    const rule = (RULES as Readonly<Record<string, Rule | undefined>>)[name];
    if (rule === undefined)
      throw new StudySettingsError(
        `${file} states "${name}", which is no setting${didYouMean(name, known)}. Expected ${known.join(", ")}.`,
      );
    if (!rule.holds(value))
      throw new StudySettingsError(
        `${file}: "${name}" is ${JSON.stringify(value)}; expected ${rule.expected}.`,
      );
  }
  return read;
}
