import { existsSync } from "node:fs";
import { mkdir, stat, writeFile } from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import type { Command } from "commander";
import { emptyDataset } from "../../dataset";
import { newStudy } from "../study/study-layout";
import { answering } from "../use/answering";
import { helpNotes } from "../use/help";
import { InvalidInput } from "../use/invalid-input";
import { say } from "../use/printing";

/** `code-comparison new <folder>`: creates a study of one's own, or an empty data set. */
export function registerNewCommand(program: Command): void {
  program
    .command("new")
    .description("create a study of your own: settings, an empty data set and the notebooks")
    .argument("<folder>", "new folder, anywhere on the disk, e.g. my-study")
    .option(
      "--data-only",
      "only the data set: tests.csv, studies.csv, a card and a descriptor, e.g. for datasets/own",
    )
    .addHelpText(
      "after",
      helpNotes({
        examples: ["new my-study", "new datasets/own/my-campaign --data-only"],
        notes: [
          "Fill in data/tests.csv, then run: code-comparison check my-study. The settings in study.json are title, data (folders), where, codes (the first is judged), level, by, fractile, confidence and criterion. Nothing is ever overwritten.",
        ],
        exit: "0 created",
      }),
    )
    .action(answering(create));
}

async function create(folder: string, options: { readonly dataOnly?: boolean }): Promise<number> {
  const present = await stat(folder).catch(() => null);
  if (present !== null && !present.isDirectory())
    throw new InvalidInput(`${folder} is not a folder. Enter a new folder.`);
  const name = basename(resolve(folder));
  const files = options.dataOnly ? emptyDataset(name) : newStudy(name);
  const clash = Object.keys(files).filter((file) => existsSync(join(folder, file)));
  if (clash.length > 0)
    throw new InvalidInput(
      `${folder} already holds ${clash.join(", ")}; nothing was written. Enter a new folder.`,
    );
  for (const [file, content] of Object.entries(files)) {
    await mkdir(dirname(join(folder, file)), { recursive: true });
    await writeFile(join(folder, file), content, { flag: "wx" });
  }
  const written = Object.keys(files).filter((file) => !/^notebooks\/|^\.gitignore/.test(file));
  const notebooks = Object.keys(files).filter((file) => file.startsWith("notebooks/")).length;
  say(
    `${folder}: ${written.join(", ")}${notebooks > 0 ? ` and ${notebooks} notebooks` : ""} written. Fill in ${written.find((file) => file.endsWith("tests.csv")) ?? "tests.csv"}, then run: code-comparison check ${folder}`,
  );
  return 0;
}
