import type * as Docx from "docx";
import type { DocumentModel } from "./document";

/**
 * Titles that lead to their sections, with the page as a field. The titles are written out, so that
 * contents stand there in programs that fill no fields, and no program has to ask its reader
 * whether it may.
 */
export function contents(docx: typeof Docx, { sections }: DocumentModel): Docx.Paragraph[] {
  const { InternalHyperlink, PageReference, Paragraph, Tab, TextRun } = docx;
  const tabStops = [{ type: docx.TabStopType.RIGHT, position: 9600, leader: docx.LeaderType.DOT }];
  return sections.map(
    ({ id, title }, n) =>
      new Paragraph({
        spacing: { after: 20 },
        indent: { left: 300 },
        tabStops,
        children: [
          new InternalHyperlink({ anchor: id, children: [new TextRun(`${n + 1}  ${title}`)] }),
          new TextRun({ children: [new Tab(), new PageReference(id)] }),
        ],
      }),
  );
}

/**
 * A title that contents can lead to. The mark gets a number of ours: the library's own counts on
 * from one document to the next.
 */
export function markedTitle(
  docx: typeof Docx,
  id: string,
  n: number,
  title: string,
): Docx.ParagraphChild[] {
  const mark = [
    new docx.BookmarkStart(id, n + 1),
    new docx.TextRun(title),
    new docx.BookmarkEnd(n + 1),
  ];
  // The library writes these marks in any paragraph but its type of children leaves them out.
  return mark as unknown as Docx.ParagraphChild[];
}
