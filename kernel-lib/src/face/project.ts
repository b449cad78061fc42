import { existsSync, readdirSync } from "node:fs";
import { dirname, isAbsolute, join, relative, resolve, sep } from "node:path";
import { readStudySettings, STUDY_FILE } from "./study-settings";

/** Whether a place is the folder of a study with settings of its own. */
export function isStudy(place: string): boolean {
  return existsSync(join(place, STUDY_FILE));
}

/**
 * The study's folder: the nearest one upward that holds `study.json`, or `datasets` and
 * `package.json`.
 * @throws Error when there is none
 */
export function projectRoot(from: string = process.cwd()): string {
  for (let folder = resolve(from); ; folder = dirname(folder)) {
    if (
      existsSync(join(folder, STUDY_FILE)) ||
      (existsSync(join(folder, "datasets")) && existsSync(join(folder, "package.json")))
    )
      return folder;
    if (dirname(folder) === folder)
      throw new Error(
        `No study found at or above ${from}; expected a folder with ${STUDY_FILE}, or with datasets/ and package.json.`,
      );
  }
}

/**
 * The data folders of a study: those of its settings, else the dataset folders of a project that
 * hold tests: published, demo, own, and every imported one.
 * @throws StudySettingsError for settings that cannot be used
 */
export function datasetFolders(root: string): string[] {
  const { data } = readStudySettings(root);
  if (data !== undefined) return data.map((folder) => resolve(homeOf(root, folder), folder));
  const at = (...parts: string[]): string => join(root, "datasets", ...parts);
  const imported = existsSync(at("imported"))
    ? readdirSync(at("imported"))
        .sort()
        .map((name) => at("imported", name))
    : [];
  const own = existsSync(at("own"))
    ? readdirSync(at("own"))
        .sort()
        .map((name) => at("own", name))
    : [];
  return [at("published"), at("demo"), at("own"), ...own, ...imported].filter((folder) =>
    existsSync(join(folder, "tests.csv")),
  );
}

/** Where the study lies whose scratch copy a review runs. */
const HOME = "CODE_COMPARISON_STUDY";

/** A review runs in a copy of the study; data that lie outside of it are read where they are. */
function homeOf(root: string, folder: string): string {
  return isOutside(root, folder) ? (process.env[HOME] ?? root) : root;
}

function isOutside(root: string, folder: string): boolean {
  const within = relative(root, resolve(root, folder));
  return within === ".." || within.startsWith(`..${sep}`) || isAbsolute(within);
}

/**
 * The files and folders that the results of a study rest on, from its folder: what a run records
 * and a review copies. Data outside of the study are read where they are.
 */
export function studyInputs(root: string): string[] {
  const { data } = readStudySettings(root);
  if (data === undefined)
    return ["datasets", ...[STUDY_FILE].filter((file) => existsSync(join(root, file)))];
  return [STUDY_FILE, ...new Set(data.filter((folder) => !isOutside(root, folder)))];
}
