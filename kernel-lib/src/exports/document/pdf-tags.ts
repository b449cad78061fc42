/** Kinds of structure that the packet uses, by their names in ISO 32000-1, 14.8.4. */
export type PdfTag =
  | "Document"
  | "H1"
  | "H2"
  | "H3"
  | "P"
  | "L"
  | "LI"
  | "LBody"
  | "TOC"
  | "TOCI"
  | "Link"
  | "Table"
  | "TR"
  | "TH"
  | "TD"
  | "Caption"
  | "Note"
  | "Figure"
  | "Formula";

/**
 * Writes the structure that a screen reader follows: which text is a heading, a cell, a note, and
 * what is mere decoration. Only the innermost structure may hold drawing; decoration must stand
 * outside of it.
 *
 * @example
 * tags.inside("Table", () => tags.inside("TR", () => tags.leaf("TD", () => document.text("1.2"))));
 */
export interface PdfTags {
  /** A structure that holds other structures. */
  inside<Result>(tag: PdfTag, draw: () => Result): Result;
  /**
   * A structure that holds what `draw` draws; `alt` says it in words, `scope` is what a heading
   * cell heads.
   */
  leaf(
    tag: PdfTag,
    draw: () => void,
    options?: { readonly alt?: string; readonly scope?: "Row" | "Column" },
  ): void;
  /** Rules, frames, page numbers and repeated headings: not read aloud. */
  decoration(draw: () => void): void;
}

/** Starts the structure of a document that was opened with `tagged: true`. */
export function pdfTags(document: PDFKit.PDFDocument): PdfTags {
  const root = document.struct("Document");
  document.addStructure(root);
  let parent = root;
  return {
    inside(tag, draw) {
      const outer = parent;
      const element = document.struct(tag);
      outer.add(element);
      parent = element;
      try {
        return draw();
      } finally {
        parent = outer;
        element.end();
      }
    },
    leaf(tag, draw, options = {}) {
      const element = document.struct(tag, options);
      parent.add(element);
      element.add(draw);
      element.end();
    },
    decoration(draw) {
      document.markContent("Artifact", { type: "Pagination" });
      draw();
      document.endMarkedContent();
    },
  };
}
