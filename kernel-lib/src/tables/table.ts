import { checkColumns, checkRow } from "./check-table";
import { type CellValue, type TableColumn, type TableRow } from "./column";
import { type DisplayBundle, displayBundle } from "./display-bundle";
import type { TableContent } from "./table-content";
import { toCsv } from "./to-csv";
import { toHtml } from "./to-html";
import { toLatex } from "./to-latex";
import { toMarkdown } from "./to-markdown";
import { toText } from "./to-text";
import { toDocx } from "./to-docx";
import { toXlsx } from "./to-xlsx";

/**
 * A table of results that cannot change after it is made. It carries full numbers; the writers
 * round for reading, and never so that a verdict would look different.
 *
 * @throws where columns, row key and rows contradict each other, or two rows have the same key
 * @example
 * new Table({ id: "ratios", title: "Ratios", rowKey: ["group"], rows: [{ group: "GFRP, 13 mm", mean: 1.2345 }],
 *   columns: [{ key: "group", title: "Group", kind: "text" }, { key: "mean", title: "Mean ratio", kind: "number" }] })
 */
export class Table implements TableContent {
  readonly id: string;
  readonly title: string;
  readonly columns: readonly TableColumn[];
  readonly rows: readonly TableRow[];
  readonly rowKey: readonly string[];
  readonly notes: readonly string[];
  readonly caption: string;

  constructor(content: TableContent) {
    checkColumns(content.id, content.columns, content.rowKey);
    content.rows.forEach((row, i) => checkRow(content.id, content.columns, row, i + 1));
    this.id = content.id;
    this.title = content.title;
    this.columns = Object.freeze(content.columns.map((column) => Object.freeze({ ...column })));
    this.rowKey = Object.freeze([...content.rowKey]);
    this.rows = Object.freeze(content.rows.map((row) => Object.freeze(this.complete(row))));
    this.notes = Object.freeze([...(content.notes ?? [])]);
    this.caption = content.caption ?? content.title;
    this.checkKeys();
    Object.freeze(this);
  }

  /**
   * One text that tells a row from all others: its key values, percent-encoded and joined with "/".
   */
  rowKeyOf(row: TableRow): string {
    return this.rowKey
      .map((key) => encodeURIComponent(wellFormed(String(row[key] ?? ""))))
      .join("/");
  }

  /** All values of a column, in the order of the rows. */
  column(key: string): CellValue[] {
    if (!this.columns.some((column) => column.key === key)) {
      throw new Error(
        `Table "${this.id}" has no column "${key}". Expected one of ${this.columns.map((c) => c.key).join(", ")}.`,
      );
    }
    return this.rows.map((row) => row[key] ?? null);
  }

  /** Comma-separated values (RFC 4180) in full precision. */
  toCsv(): string {
    return toCsv(this);
  }

  /** A Markdown table. */
  toMarkdown(): string {
    return toMarkdown(this);
  }

  /** An HTML table. */
  toHtml(): string {
    return toHtml(this);
  }

  /** A LaTeX table with booktabs rules. */
  toLatex(): string {
    return toLatex(this);
  }

  /** A workbook: numbers in full precision, units in the heading, notes on a second sheet. */
  toXlsx(): Uint8Array {
    return toXlsx(this);
  }

  /** A document with a native table. */
  toDocx(): Promise<Uint8Array> {
    return toDocx(this);
  }

  /** Aligned plain text, no wider than `width` characters where one is given. */
  toText(width?: number): string {
    return toText(this, width);
  }

  /** What a notebook shows for this table. */
  [Symbol.for("code-comparison.display")](): DisplayBundle {
    return displayBundle(this);
  }

  private complete(row: TableRow): Record<string, CellValue> {
    return Object.fromEntries(this.columns.map(({ key }) => [key, row[key] ?? null]));
  }

  private checkKeys(): void {
    const seen = new Map<string, number>();
    this.rows.forEach((row, i) => {
      const key = this.rowKeyOf(row);
      const first = seen.get(key);
      if (first !== undefined) {
        throw new Error(
          `Rows ${first} and ${i + 1} of table "${this.id}" have the same key "${key}". Expected ${this.rowKey.join(" + ")} to tell rows apart.`,
        );
      }
      seen.set(key, i + 1);
    });
  }
}

/** Half a surrogate pair cannot be percent-encoded; it becomes the replacement character. */
function wellFormed(text: string): string {
  return text.replace(
    /[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g,
    "\ufffd",
  );
}
