import { fontFaces, fontFile } from "../../kernel-lib/src/exports/images/fonts";
import type { PacketResults } from "../../kernel-lib/src/exports/packet";
import { ratioStrip, stripGroupsOf, type Figure } from "../../kernel-lib/src/figures";
import { beforeAfterTable, ratioGroupTable } from "../../kernel-lib/src/tables";
import { data, found, groups } from "./example-study";

export const strips = async (): Promise<Figure> =>
  ratioStrip({
    id: "strips",
    title: "Ratios",
    caption: "Invented.",
    groups: stripGroupsOf(await groups()),
  });

/** An empty page that takes text. */
export async function pdf(): Promise<PDFKit.PDFDocument> {
  const { default: PdfDocument } = await import("pdfkit");
  const document = new PdfDocument({ tagged: true, pdfVersion: "1.7" });
  for (const face of fontFaces) document.registerFont(face, fontFile(face));
  return document;
}

/** What a packet is made from. */
export async function results(): Promise<PacketResults> {
  const {
    comparison: compared,
    groups: judged,
    factors,
    proposals,
    change,
    question,
  } = await found();
  const table = ratioGroupTable(judged, { id: "ratios", title: "Ratios" });
  return {
    title: "Factors for FRP bars",
    caution: "Research use only.",
    studies: (await data()).studies,
    comparison: compared,
    groups: judged,
    everyMode: judged,
    byStudy: [],
    sheets: [],
    factors,
    proposals,
    change,
    question,
    figures: [],
    tables: [table],
    beforeAfter: {
      table: beforeAfterTable(change, { id: "change", title: "Before and after" }),
      figure: await strips(),
    },
    excluded: table,
    colophon: table,
  };
}
