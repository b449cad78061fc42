import { join, relative, resolve } from "node:path";
import { rowDigests } from "../dataset";
import { coverOf } from "../exports/packet/cover";
import { resultsFile, RESULTS_FILE } from "../exports/packet/results-file";
import { rowTable, ROW_FILES } from "../exports/packet/row-table";
import { writeManifest } from "../exports/manifest";
import { caution, lockFileHash, version, type StudyData } from "./colophon";
import { exportsFolder } from "./keep";
import type { StudyPacket, StudyPacketSettings } from "./study-packet";

/**
 * Writes what a committee receives: the packet as HTML, DOCX, PDF and zip, the hand-check workbook,
 * the single figures and tables, and a manifest with the hash of each.
 *
 * @param folder where to; `exports/packet` of the project when left out
 * @param settings the case and the edited drafts that a notebook has already; both are made when
 *   left out; or the packet itself as `made`
 * @returns the names of the files
 */
export async function writeStudyPacket(
  study: StudyData,
  folder: string = join(exportsFolder(), "packet"),
  settings: StudyPacketSettings & {
    readonly made?: StudyPacket;
  } = {},
): Promise<string[]> {
  const [{ studyPacket }, { writePacket }] = await Promise.all([
    import("./study-packet.js"),
    import("../exports/packet/index.js"),
  ]);
  const { model, results, workbook, ballot } = settings.made ?? studyPacket(study, settings);
  const rows = rowTable(results.comparison);
  const sheets =
    ballot.sheets.length === 0
      ? []
      : [
          { name: "ballot.html", content: await ballot.toHtml(coverOf(results)) },
          { name: "ballot.docx", content: await ballot.toDocx() },
        ];
  const files = await writePacket(model, folder, [
    { name: "hand-check.xlsx", content: workbook },
    ...sheets,
    { name: RESULTS_FILE, content: resultsFile(results) },
    { name: ROW_FILES.csv, content: rows.toCsv() },
    { name: ROW_FILES.xlsx, content: rows.toXlsx() },
  ]);
  const inputs = Object.fromEntries(
    Object.entries(study.data.hashes).map(([file, hash]) => [
      relative(study.root, resolve(study.root, file)).replaceAll("\\", "/"),
      String(hash),
    ]),
  );
  await writeManifest(folder, {
    caution,
    madeWith: {
      "kernel-lib": version,
      node: process.versions.node,
      "package-lock.json sha256": lockFileHash(study.root),
      seed: String(study.seed),
    },
    inputs,
    rowDigests: rowDigests(study.data.tests),
  });
  return files;
}
