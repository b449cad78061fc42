import { symbolText, toText } from "../../formula";
import { fontFaces, fontFile, faceOf, type FontFace } from "../images/fonts";
import { renderSvg } from "../images";
import { CHANGE_WORDS, numbering, type Block, type PacketModel } from "./document";
import { drawTable } from "./pdf-table";

/** A4 with margins, in points. */
const PAGE = { width: 595.28, height: 841.89, left: 56, right: 56, top: 60, bottom: 60 } as const;
const WIDTH = PAGE.width - PAGE.left - PAGE.right;
/** A fixed date, so that the same packet gives the same bytes on every day. */
const FIXED_DATE = new Date(Date.UTC(2000, 0, 1));
const POINTS_PER_PIXEL = 0.75;

/** The packet as one PDF: bookmarks, contents that lead to their pages, page numbers, text that can be searched, fonts embedded. */
export async function packetPdf(model: PacketModel): Promise<Uint8Array> {
  const [{ default: PdfDocument }, { default: svgToPdf }] = await Promise.all([import("pdfkit"), import("svg-to-pdfkit")]);
  const info = { Title: model.title, Subject: model.caution, Creator: "kernel-lib", CreationDate: FIXED_DATE, ModDate: FIXED_DATE };
  const margins = { left: PAGE.left, right: PAGE.right, top: PAGE.top, bottom: PAGE.bottom };
  const document = new PdfDocument({ size: "A4", margins, info, lang: "en", displayTitle: true, bufferPages: true });
  const chunks: Buffer[] = [];
  const written = new Promise<Uint8Array>((resolve, reject) => {
    document.on("data", (chunk: Buffer) => chunks.push(chunk));
    document.on("end", () => resolve(new Uint8Array(Buffer.concat(chunks))));
    document.on("error", reject);
  });
  for (const face of fontFaces) document.registerFont(face, fontFile(face));
  const dash = document.dash.bind(document);
  document.dash = (length, options): typeof document => (([] as number[]).concat(length as number | number[]).every((part) => part === 0) ? document.undash() : dash(length, options));
  const say = (text: string, face: FontFace, size: number, options: PDFKit.Mixins.TextOptions = {}): void => {
    document.font(face).fontSize(size).fillColor("#1a1a1a").text(plain(text), { width: WIDTH, ...options });
  };
  const boxed = (text: string): void => {
    document.font("bold").fontSize(9.5);
    const height = document.heightOfString(plain(text), { width: WIDTH - 20 });
    makeRoom(height + 24);
    const top = document.y + 4;
    document.rect(PAGE.left, top, WIDTH, height + 14).lineWidth(1.2).stroke("#1a1a1a");
    document.fillColor("#1a1a1a").text(plain(text), PAGE.left + 10, top + 7, { width: WIDTH - 20 });
    document.x = PAGE.left;
    document.y = top + height + 24;
  };
  const makeRoom = (height: number): void => {
    if (document.y + height > PAGE.height - PAGE.bottom) document.addPage();
  };
  const numbers = numbering(model);
  say(model.title, "bold", 19);
  document.moveDown(0.3);
  say(model.subtitle, "regular", 10.5);
  say(model.stamp, "oblique", 9.5);
  boxed(model.caution);
  say("Contents", "bold", 13);
  document.moveDown(0.3);
  model.sections.forEach(({ id, title }, n) => say(`${n + 1}  ${title}`, "regular", 10, { goTo: id, lineGap: 2 }));
  document.addPage();
  for (const [n, { id, title, blocks }] of model.sections.entries()) {
    makeRoom(110);
    if (n > 0 && document.y > PAGE.top + 5) document.moveDown(1.2);
    document.outline.addItem(`${n + 1}  ${plain(title)}`);
    say(`${n + 1}  ${title}`, "bold", 13, { destination: id });
    document.moveDown(0.5);
    for (const block of blocks) await draw(block);
  }
  const { start, count } = document.bufferedPageRange();
  for (let page = start; page < start + count; page++) {
    document.switchToPage(page);
    // Text below the margin would start a page of its own.
    document.page.margins.bottom = 0;
    document.font("regular").fontSize(7.5).fillColor("#404040");
    document.text(plain(model.stamp), PAGE.left, 30, { width: WIDTH, lineBreak: false });
    document.text(`Page ${page - start + 1} of ${count}`, PAGE.left, PAGE.height - 40, { width: WIDTH, align: "right", lineBreak: false });
  }
  document.end();
  return written;

  async function draw(block: Block): Promise<void> {
    switch (block.kind) {
      case "paragraph":
        say(block.text, "regular", 9.5, { lineGap: 1.5 });
        document.moveDown(0.6);
        break;
      case "caution":
        boxed(block.text);
        break;
      case "list":
        for (const item of block.items) {
          makeRoom(24);
          const top = document.y;
          document.font("regular").fontSize(9.5).fillColor("#1a1a1a").text("•", PAGE.left + 4, top);
          document.text(plain(item), PAGE.left + 16, top, { width: WIDTH - 16, lineGap: 1.5 });
          document.x = PAGE.left;
          document.moveDown(0.25);
        }
        document.moveDown(0.4);
        break;
      case "provision":
        makeRoom(70);
        if (block.title !== "") {
          say(block.title, "bold", 10.5);
          document.moveDown(0.2);
        }
        block.pieces.forEach(({ text, change }, n) => say(text, change === "inserted" ? "bold" : "regular", 9.5, { continued: n < block.pieces.length - 1, underline: change === "inserted", strike: change === "deleted", lineGap: 1.5 }));
        document.moveDown(0.6);
        break;
      case "formula":
        makeRoom(30);
        document.font("oblique").fontSize(9.5).fillColor("#1a1a1a").text(`${block.change ? CHANGE_WORDS[block.change] : ""}${symbolText(block.symbol)} = ${toText(block.expression)}`, PAGE.left + 16, document.y, { width: WIDTH - 16, lineGap: 1.5, underline: block.change === "inserted", strike: block.change === "deleted" });
        document.x = PAGE.left;
        document.moveDown(0.6);
        break;
      case "table":
        drawTable(document, block.table, numbers.get(block) ?? 0, { left: PAGE.left, width: WIDTH, bottom: PAGE.height - PAGE.bottom });
        break;
      case "figure": {
        const { width, height } = block.figure.layout;
        const scale = Math.min(1, WIDTH / (width * POINTS_PER_PIXEL), (PAGE.height - PAGE.top - PAGE.bottom - 60) / (height * POINTS_PER_PIXEL));
        const h = height * POINTS_PER_PIXEL * scale;
        makeRoom(h + 50);
        const top = document.y;
        const faults: string[] = [];
        const svg = await renderSvg(block.figure);
        document.save();
        document.translate(PAGE.left, top).scale(scale);
        svgToPdf(document, svg, 0, 0, { width: width * POINTS_PER_PIXEL, height: height * POINTS_PER_PIXEL, fontCallback: (_family, bold, italic) => faceOf(bold, italic), warningCallback: (message) => faults.push(message) });
        if (faults.length > 0) throw new Error(`The figure "${block.figure.id}" cannot be drawn in PDF: ${faults[0]}. Expected an SVG of shapes and text only.`);
        document.restore();
        document.undash().fillOpacity(1).strokeOpacity(1);
        document.x = PAGE.left;
        document.y = top + h + 6;
        document.font("bold").fontSize(8.5).fillColor("#1a1a1a").text(`Figure ${numbers.get(block) ?? 0}. `, { width: WIDTH, continued: true });
        document.font("regular").text(plain(`${block.figure.invented ? "Invented demonstration data. " : ""}${block.figure.caption}`), { width: WIDTH });
        document.moveDown(0.9);
      }
    }
  }
}

function plain(text: string): string {
  return text.replace(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/g, " ");
}
