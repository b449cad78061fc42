import { join, relative, resolve } from "node:path";
import { rowDigests } from "../dataset";
import { writeManifest } from "../exports/manifest";
import { caution, lockFileHash, version } from "./colophon";
import type { Study } from "./study";
import { exportsFolder } from "./keep";
import type { StudyPacket, StudyPacketSettings } from "./study-packet";

/**
 * Writes what a committee receives: the packet as HTML, DOCX, PDF and zip, the hand-check workbook,
 * the single figures and tables, and a manifest with the hash of each.
 *
 * @param folder where to; `exports/packet` of the project when left out
 * @param settings the case and the edited drafts that a notebook has already; both are made when
 *   left out; or the packet itself as `made`; `more`: further files
 * @returns the names of the files
 */
export async function writeStudyPacket(
  study: Study,
  folder: string = join(exportsFolder(), "packet"),
  settings: StudyPacketSettings & {
    readonly made?: StudyPacket;
    readonly more?: readonly { readonly name: string; readonly content: Uint8Array | string }[];
  } = {},
): Promise<string[]> {
  const [{ studyPacket }, { writePacket }] = await Promise.all([
    import("./study-packet.js"),
    import("../exports/packet/index.js"),
  ]);
  const { model, workbook } = settings.made ?? studyPacket(study, settings);
  const files = await writePacket(model, folder, [
    { name: "hand-check.xlsx", content: workbook },
    ...(settings.more ?? []),
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
