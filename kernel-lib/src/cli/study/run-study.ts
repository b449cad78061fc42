import { createHash } from "node:crypto";
import { mkdir, readFile, rm } from "node:fs/promises";
import { join, relative } from "node:path";
import type { Command } from "commander";
import { readDatasets, rowDigests } from "../../dataset";
import { fileHash, filesBelow, writeManifest } from "../../exports/manifest";
import { caution, version } from "../../face/colophon";
import { datasetFolders, projectRoot } from "../../face/project";
import { runNotebooks, type NotebookRun } from "../../notebook";
import { findNotebooks } from "../notebook/find-notebooks";
import { progressLine } from "../notebook/print-progress";
import { answering } from "../use/answering";
import { helpNotes } from "../use/help";
import { jobsOption, timeLimitOption } from "../use/option-declarations";
import { asNamed, positiveNumber, wholeNumber } from "../use/invalid-input";
import { say, tell } from "../use/printing";

interface StudyOptions {
  readonly jobs: string;
  readonly timeLimit: string;
}

/** `code-comparison study`: the whole study, from data to the files a committee receives. */
export function registerStudyCommand(program: Command): void {
  program
    .command("study")
    .description("run all notebooks and write figures, tables and a manifest to exports/")
    .addOption(jobsOption("2"))
    .addOption(timeLimitOption())
    .addHelpText(
      "after",
      helpNotes({
        examples: ["study"],
        notes: [
          "The recorded notebooks in notebooks/ are not changed; `code-comparison run` re-records them.",
        ],
        exit: "0 every notebook ran; 1 a notebook failed",
      }),
    )
    .action(answering(runStudy));
}

async function runStudy(options: StudyOptions): Promise<number> {
  const [jobs, timeLimitSeconds] = [
    wholeNumber("jobs", options.jobs),
    positiveNumber("time-limit", options.timeLimit),
  ];
  const started = performance.now();
  const root = asNamed(() => projectRoot());
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
    inputs: ["datasets"],
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
    madeWith: await madeWith(root),
    inputs: await inputHashes(root),
    rowDigests: rowDigests((await readDatasets(datasetFolders(root))).tests),
  });
  report(root, runs, (performance.now() - started) / 1000, await filesBelow(exportsFolder));
  return runs.some(({ status }) => status === "failed") || runs.length < files.length ? 1 : 0;
}

async function madeWith(root: string): Promise<Record<string, string>> {
  const lock = createHash("sha256")
    .update(await readFile(join(root, "package-lock.json")))
    .digest("hex");
  return {
    "kernel-lib": version,
    node: process.versions.node,
    "package-lock.json sha256": lock,
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
  for (const { file, failure, written } of runs) {
    if (failure)
      tell(
        `${relative(root, file)}, cell ${failure.number} (${failure.title}) failed: ${failure.message ?? failure.status}. Partial output: ${relative(root, written)}.`,
      );
  }
  const count = (part: string): number =>
    new Set(
      files.filter((file) => file.startsWith(part)).map((file) => file.replace(/\.[^.]+$/, "")),
    ).size;
  say(
    `\nStudy ${runs.some(({ status }) => status === "failed") ? "incomplete" : "complete"} in ${seconds.toFixed(0)} s: ${count("figures/")} figures, ${count("tables/")} tables and ${count("notebooks/")} notebooks in exports/; committee packet in exports/packet/; every file listed in exports/manifest.json.`,
  );
}
