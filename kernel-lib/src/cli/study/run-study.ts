import { mkdir, rm } from "node:fs/promises";
import { join, relative, resolve } from "node:path";
import type { Command } from "commander";
import { rowDigests } from "../../dataset";
import { fileHash, filesBelow, writeManifest } from "../../exports/manifest";
import { caution, lockFileHash, version } from "../../face/colophon";
import { datasetFolders, studyInputs } from "../../face/project";
import { askSettings } from "../../face/study-settings";
import { runNotebooks, type NotebookRun } from "../../notebook";
import { findNotebooks } from "../notebook/find-notebooks";
import { progressLine } from "../notebook/print-progress";
import { enterStudy, fromStart } from "./enter-study";
import { answering } from "../use/answering";
import { dataFolders, dataOption, readRows, whereOption } from "../use/chosen-rows";
import { helpNotes } from "../use/help";
import { jobsOption, timeLimitOption } from "../use/option-declarations";
import { positiveNumber, wholeNumber } from "../use/invalid-input";
import { say, tell } from "../use/printing";

interface StudyOptions {
  readonly data?: readonly string[];
  readonly where?: string;
  readonly jobs: string;
  readonly timeLimit: string;
}

/** `code-comparison study`: the whole study, from data to the files a committee receives. */
export function registerStudyCommand(program: Command): void {
  program
    .command("study")
    .description("run all notebooks and write figures, tables and a manifest to exports/")
    .argument("[folder]", "the study's folder; default: the study around the working folder")
    .addOption(dataOption())
    .addOption(whereOption())
    .addOption(jobsOption("2"))
    .addOption(timeLimitOption())
    .addHelpText(
      "after",
      helpNotes({
        examples: ["study", "study my-study", 'study my-study --where "bar_diameter_mm <= 16"'],
        notes: [
          "The recorded notebooks in notebooks/ are not changed; `code-comparison run` re-records them.",
        ],
        exit: "0 every notebook ran; 1 a notebook failed",
      }),
    )
    .action(answering(runStudy));
}

async function runStudy(place: string | undefined, options: StudyOptions): Promise<number> {
  const [jobs, timeLimitSeconds] = [
    wholeNumber("jobs", options.jobs),
    positiveNumber("time-limit", options.timeLimit),
  ];
  const started = performance.now();
  const data = options.data && dataFolders(options.data).map((folder) => resolve(folder));
  const root = enterStudy(place);
  askSettings({
    ...(data === undefined ? {} : { data: data.map((folder) => relative(root, folder)) }),
    ...(options.where === undefined ? {} : { where: options.where }),
  });
  // Data and condition are tried first: no notebook is started for what cannot be read.
  const read = await readRows(datasetFolders(root), options.where);
  const exportsFolder = join(root, "exports");
  // What an earlier study left must not be mistaken for results of this one.
  for (const part of ["figures", "tables", "notebooks", "packet", "manifest.json"])
    await rm(join(exportsFolder, part), { recursive: true, force: true });
  await mkdir(exportsFolder, { recursive: true });
  say(`${caution}\n`);
  const stop = new AbortController();
  const onInterrupt = (): void => stop.abort();
  process.once("SIGINT", onInterrupt);
  const files = findNotebooks([join(root, "notebooks")]);
  const runs = await runNotebooks(files, {
    jobs,
    timeLimitSeconds,
    inputs: studyInputs(root),
    out: join(exportsFolder, "notebooks"),
    signal: stop.signal,
    onProgress: (progress) => {
      const line = progressLine(progress);
      if (line !== undefined) say(line);
    },
  });
  process.removeListener("SIGINT", onInterrupt);
  await writeManifest(exportsFolder, {
    caution,
    madeWith: madeWith(root),
    inputs: await inputHashes(root),
    rowDigests: rowDigests(read.data.tests),
  });
  report(root, runs, (performance.now() - started) / 1000, await filesBelow(exportsFolder));
  return runs.some(({ status }) => status === "failed") || runs.length < files.length ? 1 : 0;
}

function madeWith(root: string): Record<string, string> {
  return {
    "kernel-lib": version,
    node: process.versions.node,
    "package-lock.json sha256": lockFileHash(root),
    command: "code-comparison study",
  };
}

async function inputHashes(root: string): Promise<Record<string, string>> {
  const hashes: Record<string, string> = {};
  for (const folder of datasetFolders(root)) {
    for (const file of await filesBelow(folder))
      hashes[relative(root, join(folder, file)).replaceAll("\\", "/")] = await fileHash(
        join(folder, file),
      );
  }
  return hashes;
}

function report(
  root: string,
  runs: readonly NotebookRun[],
  seconds: number,
  files: readonly string[],
): void {
  const failed = runs.flatMap(({ file, failure, written }) =>
    failure ? [{ file, failure, written }] : [],
  );
  for (const { file, failure, written } of failed)
    tell(
      `${relative(root, file)}, cell ${failure.number} (${failure.title}) failed: ${failure.message ?? failure.status}. Partial output: ${relative(root, written)}.`,
    );
  const count = (part: string): number =>
    new Set(
      files.filter((file) => file.startsWith(part)).map((file) => file.replace(/\.[^.]+$/, "")),
    ).size;
  const out = fromStart(join(root, "exports"));
  say(
    `\nStudy ${failed.length > 0 ? "incomplete" : "complete"} in ${seconds.toFixed(0)} s: ${count("figures/")} figures, ${count("tables/")} tables and ${count("notebooks/")} notebooks in ${out}/; every file listed in ${out}/manifest.json.`,
  );
  const packet = files.some((file) => file.startsWith("packet/"));
  if (packet) say(`Committee packet: ${out}/packet/packet.html.`);
  // The last line says what went wrong, where something did.
  if (failed.length > 0)
    tell(`Failed: ${failed.map(({ file }) => relative(root, file)).join(", ")}.`);
}
