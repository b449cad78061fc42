import { existsSync } from "node:fs";
import { join, resolve } from "node:path";
import { setFlagsFromString } from "node:v8";
import { Option, type Command } from "commander";
import { verifyManifest } from "../../exports/manifest";
import { PACKET_FILES } from "../../exports/packet";
import { caution } from "../../face/colophon";
import { openStudy } from "../../face/open-study";
import { writeStudyPacket } from "../../face/write-study-packet";
import { withOptions } from "../../provisions/model/with-options";
import { answering } from "../use/answering";
import { askedWords } from "../use/asked-words";
import { dataFolders, dataOption, rowsWhere, whereOption } from "../use/chosen-rows";
import { enterStudy, fromStart } from "../study/enter-study";
import { absent, helpNotes } from "../use/help";
import { codeNamed, codeSettingOption, optionsFor } from "../use/option-declarations";
import { InvalidInput, seedNumber } from "../use/invalid-input";
import { say } from "../use/printing";

interface ExportOptions {
  readonly data?: readonly string[];
  readonly out?: string;
  readonly where?: string;
  readonly option: readonly string[];
  readonly seed: string;
  readonly verify?: string;
}

/** Codes of other families under which the same groups are shown. */
const OTHER_CODES = ["en1992-4-2018"] as const;

/**
 * `code-comparison export`: the packet a committee receives, with the hand-check workbook, and its
 * verification.
 */
export function registerExportCommand(program: Command): void {
  program
    .command("export")
    .description(
      "write the committee packet for ACI 318-19 (HTML, DOCX, PDF, zip), workbook, figures and tables",
    )
    .argument("[folder]", "the study's folder; default: the study around the working folder")
    .addOption(
      absent(new Option("--out <folder>", "folder to write"), "exports/packet of the study"),
    )
    .addOption(dataOption())
    .addOption(whereOption())
    .addOption(codeSettingOption())
    .option("--seed <n>", "seed of the resampling", "2026")
    .addOption(
      absent(
        new Option(
          "--verify <folder>",
          "write nothing; recompute the hashes of a folder's manifest.json and list what differs",
        ),
        "write a packet",
      ),
    )
    .addHelpText(
      "after",
      helpNotes({
        examples: [
          "export",
          "export my-study",
          "export --where \"provenance != 'demo'\" --out exports/published-only",
          "export --verify exports/packet",
        ],
        exit: "0 packet written, or every file as listed; 1 a file differs from the manifest",
      }),
    )
    .action(
      answering((place: string | undefined, options: ExportOptions) =>
        options.verify === undefined ? runExport(place, options) : runVerify(options.verify),
      ),
    );
}

async function runExport(place: string | undefined, options: ExportOptions): Promise<number> {
  const out = options.out === undefined ? undefined : resolve(options.out);
  const data = options.data && dataFolders(options.data).map((one) => resolve(one));
  const seed = seedNumber("seed", options.seed);
  const code = codeNamed("aci318-19");
  const present = withOptions(code, optionsFor([code], options.option)[0] ?? {});
  // Drawing leaves much garbage behind: collecting it sooner takes a third of a second and saves
  // 160 MB at the peak.
  setFlagsFromString("--heap-growing-percent=30");
  const root = enterStudy(place);
  const folder = out ?? join(root, "exports", "packet");
  say(`${caution}\n`);
  const study = await openStudy({ seed, ...(data === undefined ? {} : { data }) });
  const files = await writeStudyPacket(study, folder, {
    present,
    asked: askedWords(options),
    otherCodes: OTHER_CODES.map(codeNamed),
    ...(options.where === undefined
      ? {}
      : { tests: rowsWhere(study.data, options.where).chosen.table }),
  });
  const shown = fromStart(folder);
  say(
    `${files.length} files in ${shown}: ${Object.values(PACKET_FILES).join(", ")}, hand-check.xlsx, figures and tables, listed in manifest.json.`,
  );
  say(`To check them later: code-comparison export --verify ${shown}`);
  return 0;
}

async function runVerify(folder: string): Promise<number> {
  if (!existsSync(join(folder, "manifest.json")))
    throw new InvalidInput(
      `${folder} holds no manifest.json. Enter a folder written by code-comparison export or study.`,
    );
  const differences = await verifyManifest(folder);
  for (const difference of differences) say(difference);
  say(
    differences.length === 0
      ? `${folder}: every file is as listed.`
      : `${folder}: ${differences.length} ${differences.length === 1 ? "file differs" : "files differ"} from the manifest.`,
  );
  return differences.length === 0 ? 0 : 1;
}
