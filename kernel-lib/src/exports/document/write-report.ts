import { writeFile } from "node:fs/promises";
import { extname } from "node:path";
import type { DocumentModel } from "./document";
import { documentLatex } from "./blocks-latex";
import { blocksMarkdown } from "./blocks-markdown";
import { blocksText } from "./blocks-text";

/** Endings of a report, each a format. */
export const REPORT_FORMATS = [".txt", ".md", ".tex", ".html", ".docx", ".pdf"] as const;

/**
 * The report as plain text, section by section, with lines of at most `width` characters where one
 * is given.
 */
export function reportText(model: DocumentModel, width?: number): string {
  return [
    `${model.title}\n${model.subtitle}\n${model.stamp}\n`,
    ...model.sections.map(
      ({ title, blocks }) => `${title.toUpperCase()}\n\n${blocksText(blocks, width)}`,
    ),
  ].join("\n");
}

/**
 * Writes a report in the format that the file's ending names.
 * @throws Error for another ending, before anything is written
 * @example await writeReport(packetOf(results), "packet.html")
 */
export async function writeReport(model: DocumentModel, file: string): Promise<void> {
  await writeFile(file, await reportIn(model, extname(file).toLowerCase(), file));
}

async function reportIn(
  model: DocumentModel,
  ending: string,
  file: string,
): Promise<string | Uint8Array> {
  switch (ending) {
    case ".txt":
      return reportText(model);
    case ".md":
      return [
        `# ${model.title}\n\n${model.subtitle}\n\n*${model.stamp}*\n`,
        ...model.sections.map(({ title, blocks }) => `## ${title}\n\n${blocksMarkdown(blocks)}`),
      ].join("\n");
    case ".tex":
      return documentLatex(model);
    case ".html":
      return (await import("./document-html.js")).documentHtml(model);
    case ".docx":
      return (await import("./document-docx.js")).documentDocx(model);
    case ".pdf":
      return (await import("./document-pdf.js")).documentPdf(model);
    default:
      throw new Error(
        `"${file}" ends in "${ending}"; expected one of ${REPORT_FORMATS.join(", ")}.`,
      );
  }
}
