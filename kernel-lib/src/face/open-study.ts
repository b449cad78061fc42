import { resolve } from "node:path";
import { inventedAmong, readDatasets } from "../dataset";
import type { JudgeOptions } from "./comparison/judge-options";
import "./about-name";
import "./condition-names";
import { datasetFolders, projectRoot } from "./project";
import { printRowsNotUsed } from "./rows-not-used";
import { Study } from "./study";
import { readStudySettings, type StudySettings } from "./study-settings";
import type { Condition } from "./tests/condition";
import type { TestRow } from "./tests/study-row";

/** How a study is opened. */
export interface StudyOptions {
  /**
   * Data folders; default: those of the settings, else those of the project (`datasets/published`,
   * `demo`, `own`, `imported`).
   */
  readonly data?: string | readonly string[];
  /** A folder within the study; default: the working folder. */
  readonly folder?: string;
  /** The tests looked at, as in `where`; the others stay in the account of rows of the audit. */
  readonly where?: Condition<TestRow>;
  /** How groups are judged unless a cell says otherwise. */
  readonly judge?: JudgeOptions;
  /** Seed of every simulation; default 1. */
  readonly seed?: number;
  /** Whether shown tables and figures are written to `exports/`; default "shown". */
  readonly keep?: "shown" | "none";
}

/**
 * Reads and checks the data of a study. The settings are those of `study.json`, the nearest one
 * upward; an option stated here goes before them. In a notebook it prints one line when rows were
 * rejected or are excluded: how many, the first with file, line and reason, and where all of them
 * are listed.
 * @throws DatasetError for a folder without tests; StudySettingsError for settings that cannot be
 *   used
 * @example
 * const study = await openStudy({ data: "datasets/demo", where: "bar_diameter_mm <= 25", seed: 2026 })
 */
export async function openStudy(
  options: StudyOptions & { readonly folders?: readonly string[] } = {},
): Promise<Study> {
  const root = projectRoot(options.folder);
  const settings = readStudySettings(root);
  const given = options.data ?? options.folders ?? datasetFolders(root);
  const folders = (typeof given === "string" ? [given] : given).map((folder) =>
    resolve(root, folder),
  );
  const data = await readDatasets(folders);
  printRowsNotUsed(data);
  const setting = {
    keeps: options.keep !== "none",
    invented: inventedAmong(data.studies),
    seed: options.seed ?? 1,
    judge: { ...judged(settings), ...options.judge },
    settings,
  };
  return new Study(setting, root, data, folders, options.where ?? settings.where);
}

/** What the settings say of how groups are judged. */
function judged({ fractile, confidence }: StudySettings): JudgeOptions {
  return {
    ...(fractile === undefined ? {} : { fractile }),
    ...(confidence === undefined ? {} : { confidence }),
  };
}
