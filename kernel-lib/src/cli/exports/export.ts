import { existsSync } from "node:fs";
import { join, relative, resolve } from "node:path";
import { setFlagsFromString } from "node:v8";
import type { Command } from "commander";
import { verifyManifest } from "../../exports/manifest";
import { PACKET_FILES } from "../../exports/packet";
import { caution } from "../../face/colophon";
import { openStudy } from "../../face/open-study";
import { projectRoot } from "../../face/project";
import { writeStudyPacket } from "../../face/write-study-packet";
import { answering } from "../use/answering";
import { asNamed, seedNumber, WrongUse } from "../use/wrong-use";

interface ExportOptions {
  readonly out?: string;
  readonly seed: string;
  readonly verify?: string;
}

/**
 * `code-comparison export`: the packet a committee receives, with the hand-check workbook, and its
 * verification.
 */
export function registerExportCommand(program: Command): void {
  program
    .command("export")
    .description(
      "write the committee's packet (HTML, DOCX, PDF, zip), the hand-check workbook and the single figures and tables",
    )
    .option("--out <folder>", "where to write; default exports/packet of the project")
    .option("--seed <n>", "seed of the resampling", "2026")
    .option(
      "--verify <folder>",
      "write nothing; recompute the hashes of a folder's manifest.json and say what differs",
    )
    .addHelpText(
      "after",
      "\nExamples:\n  code-comparison export\n  code-comparison export --verify exports/packet\n\nExit code: 0 done or everything as listed, 1 something differs from the manifest, 2 wrong use.",
    )
    .action(
      answering((options: ExportOptions) =>
        options.verify === undefined ? runExport(options) : runVerify(options.verify),
      ),
    );
}

async function runExport({ out, seed }: ExportOptions): Promise<number> {
  const given = seedNumber("seed", seed);
  // Drawing leaves much garbage behind: collecting it sooner takes a third of a second and saves
  // 160 MB at the peak.
  setFlagsFromString("--heap-growing-percent=30");
  const root = asNamed(() => projectRoot());
  const folder = out === undefined ? join(root, "exports", "packet") : resolve(out);
  console.log(`${caution}\n`);
  const study = await openStudy({ seed: given });
  const files = await writeStudyPacket(study, folder);
  const shown = relative(process.cwd(), folder) || ".";
  console.log(
    `${files.length} files in ${shown}: ${Object.values(PACKET_FILES).join(", ")}, hand-check.xlsx, single figures and tables, listed in manifest.json.`,
  );
  console.log(`Check them later with: code-comparison export --verify ${shown}`);
  return 0;
}

async function runVerify(folder: string): Promise<number> {
  if (!existsSync(join(folder, "manifest.json")))
    throw new WrongUse(
      `${folder} holds no manifest.json, expected a folder written by code-comparison export or study`,
    );
  const faults = await verifyManifest(folder);
  for (const fault of faults) console.log(fault);
  console.log(
    faults.length === 0
      ? `${folder}: every file is as listed.`
      : `${folder}: ${faults.length} ${faults.length === 1 ? "file differs" : "files differ"} from the manifest.`,
  );
  return faults.length === 0 ? 0 : 1;
}
