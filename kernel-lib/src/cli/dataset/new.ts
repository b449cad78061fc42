import { mkdir, readdir, writeFile } from "node:fs/promises";
import { basename, join, resolve } from "node:path";
import type { Command } from "commander";
import { emptyDataset } from "../../dataset";
import { answering } from "../use/answering";
import { helpNotes } from "../use/help";
import { InvalidInput } from "../use/invalid-input";
import { say } from "../use/printing";

/** `code-comparison new <folder>`: creates an empty, documented data set. */
export function registerNewCommand(program: Command): void {
  program
    .command("new")
    .description("create an empty data set: tests.csv, studies.csv, a card and a descriptor")
    .argument("<folder>", "new folder, e.g. datasets/own/my-campaign")
    .addHelpText(
      "after",
      helpNotes({
        examples: ["new datasets/own/my-campaign"],
        notes: [
          "Fill in tests.csv, then run: code-comparison check datasets/own/my-campaign. Nothing is ever overwritten.",
        ],
        exit: "0 created",
      }),
    )
    .action(answering(createDataset));
}

async function createDataset(folder: string): Promise<number> {
  const present: string[] | null = await readdir(folder).catch((error: NodeJS.ErrnoException) =>
    error.code === "ENOENT" ? ([] as string[]) : null,
  );
  if (present === null) throw new InvalidInput(`${folder} is not a folder. Enter a new folder.`);
  const files = emptyDataset(basename(resolve(folder)));
  const clash = Object.keys(files).filter((name) => present.includes(name));
  if (clash.length > 0)
    throw new InvalidInput(
      `${folder} already holds ${clash.join(", ")}; nothing was written. Enter a new folder.`,
    );
  await mkdir(folder, { recursive: true });
  for (const [name, content] of Object.entries(files))
    await writeFile(join(folder, name), content, { flag: "wx" });
  say(
    `${folder}: ${Object.keys(files).join(", ")} written. Fill in tests.csv, then run: code-comparison check ${folder}`,
  );
  return 0;
}
