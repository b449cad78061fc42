import { mkdir, readdir, writeFile } from "node:fs/promises";
import { basename, join, resolve } from "node:path";
import type { Command } from "commander";
import { emptyDataset } from "../../dataset";
import { answering } from "../use/answering";
import { WrongUse } from "../use/wrong-use";

/** `code-comparison new <folder>`: lay down an empty, documented data set. */
export function registerNewCommand(program: Command): void {
  program
    .command("new")
    .description(
      "lay down an empty data set to fill in: tests.csv, studies.csv, a card and a descriptor",
    )
    .argument("<folder>", "new folder, e.g. datasets/own/my-campaign")
    .addHelpText(
      "after",
      "\nExample:\n  code-comparison new datasets/own/my-campaign\n\nFill in tests.csv, then run: code-comparison check datasets/own/my-campaign\n\nExit code: 0 laid down, 2 wrong use (nothing is ever overwritten).",
    )
    .action(answering(layDown));
}

async function layDown(folder: string): Promise<number> {
  const present: string[] | null = await readdir(folder).catch((error: NodeJS.ErrnoException) =>
    error.code === "ENOENT" ? ([] as string[]) : null,
  );
  if (present === null)
    throw new WrongUse(`${folder} is not a folder that can be used, expected a new folder`);
  const files = emptyDataset(basename(resolve(folder)));
  const clash = Object.keys(files).filter((name) => present.includes(name));
  if (clash.length > 0)
    throw new WrongUse(
      `${folder} already holds ${clash.join(", ")}, expected a new folder; nothing was written`,
    );
  await mkdir(folder, { recursive: true });
  for (const [name, content] of Object.entries(files))
    await writeFile(join(folder, name), content, { flag: "wx" });
  console.log(
    `${folder}: ${Object.keys(files).join(", ")} written. Fill in tests.csv, then run: code-comparison check ${folder}`,
  );
  return 0;
}
