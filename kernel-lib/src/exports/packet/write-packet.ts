import { mkdir, rename, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { zipArchive, type ArchiveFile } from "../../tables";
import { renderPdf, renderSvg, svgToPng } from "../images";
import { checkDocument, type DocumentModel } from "../document/document";
import { documentDocx } from "../document/document-docx";
import { documentHtml } from "../document/document-html";
import { documentPdf } from "../document/document-pdf";
import { packetNotices } from "./notices";
import { PACKET_FILES } from "./packet-files";

/** Licenses of the parts of others in the packet. */
export const NOTICES_FILE = "NOTICES.txt";

/**
 * Writes the packet into a folder: `packet.html`, `packet.docx` and `packet.pdf` from one model,
 * every figure and table as a file of its own below `figures/` and `tables/`, the license of the
 * embedded font in `NOTICES.txt`, and all of them together in `packet.zip`. The same model gives
 * the same bytes.
 *
 * @param more further files to lie in the folder and in the archive, such as the hand-check
 *   workbook
 * @returns the names of the files written, in the order of the archive
 * @throws Error for a model that contradicts itself, before anything is written
 * @example await writePacket(packetOf(results), "exports/packet")
 */
export async function writePacket(
  model: DocumentModel,
  folder: string,
  more: readonly ArchiveFile[] = [],
): Promise<string[]> {
  checkDocument(model);
  const files: ArchiveFile[] = [
    { name: PACKET_FILES.html, content: await documentHtml(model) },
    { name: PACKET_FILES.docx, content: await documentDocx(model) },
    { name: PACKET_FILES.pdf, content: await documentPdf(model) },
    ...more,
    { name: NOTICES_FILE, content: await packetNotices() },
    ...(await singleFiles(model)),
  ];
  const all = [...files, { name: PACKET_FILES.zip, content: zipArchive(files) }];
  for (const { name, content } of all) {
    const file = join(folder, name);
    await mkdir(join(file, ".."), { recursive: true });
    // A half-written file never stands under its final name.
    await writeFile(`${file}.${process.pid}.part`, content);
    await rename(`${file}.${process.pid}.part`, file);
  }
  return all.map(({ name }) => name);
}

async function singleFiles(model: DocumentModel): Promise<ArchiveFile[]> {
  const files = new Map<string, string | Uint8Array>();
  for (const block of model.sections.flatMap(({ blocks }) => blocks)) {
    if (block.kind === "figure") {
      const svg = await renderSvg(block.figure);
      const name = `figures/${block.figure.id}`;
      files
        .set(`${name}.svg`, svg)
        .set(`${name}.png`, await svgToPng(svg, { dpi: 300 }))
        .set(`${name}.pdf`, await renderPdf(block.figure));
    } else if (block.kind === "table") {
      const name = `tables/${block.table.id}`;
      files
        .set(`${name}.csv`, block.table.toCsv())
        .set(`${name}.xlsx`, block.table.toXlsx())
        .set(`${name}.tex`, block.table.toLatex());
    }
  }
  return [...files].map(([name, content]) => ({ name, content }));
}
