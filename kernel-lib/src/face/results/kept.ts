import { createHash } from "node:crypto";
import type { Figure as PlainFigure } from "../../figures";
import { Table, type DisplayBundle, type TableContent } from "../../tables";
import { displayBundle } from "../../tables/display-bundle";
import { keep } from "../keep";
import { saveFigure, saveTable } from "./save";

/** What a notebook keeps when a cell shows it. */
export const KEEP = Symbol.for("code-comparison.keep");

/** A table of a result: shown in a cell, it is also written to `exports/tables`. */
export class KeptTable extends Table {
  constructor(content: TableContent, keeps: boolean) {
    super(content);
    if (keeps) keeping.add(this);
  }

  /** Name of the file that is kept. */
  get name(): string {
    return this.id;
  }

  get length(): number {
    return this.rows.length;
  }

  /**
   * Writes one file; the ending chooses the format: csv, xlsx, md, html, tex or docx. Returns the
   * path.
   */
  save(path: string): Promise<string> {
    return saveTable(this, path);
  }

  // The kernel asks a table that is the last value of a cell here.
  [Symbol.for("code-comparison.display")](): Promise<DisplayBundle> {
    return this[KEEP]().then(() => displayBundle(this));
  }

  async [KEEP](): Promise<void> {
    if (keeping.has(this))
      await keep(new Table({ ...this, id: ownName("table", this.id, this.toCsv()) }));
  }
}

/**
 * A figure of a result: plain plotly data with its words; shown in a cell, it is also written to
 * `exports/figures`.
 */
export class KeptFigure implements PlainFigure {
  readonly id: string;
  readonly title: string;
  readonly caption: string;
  readonly alt: string;
  readonly data: PlainFigure["data"];
  readonly layout: PlainFigure["layout"];
  readonly invented?: NonNullable<PlainFigure["invented"]>;

  constructor(
    figure: PlainFigure,
    private readonly keeps: boolean,
  ) {
    ({
      id: this.id,
      title: this.title,
      caption: this.caption,
      alt: this.alt,
      data: this.data,
      layout: this.layout,
    } = figure);
    if (figure.invented !== undefined) this.invented = figure.invented;
  }

  /** Name of the file that is kept. */
  get name(): string {
    return this.id;
  }

  /**
   * Writes one file; the ending chooses the format: svg, png, pdf, html or json. Returns the path.
   */
  save(path: string): Promise<string> {
    return saveFigure(this, path);
  }

  async [KEEP](): Promise<void> {
    if (this.keeps)
      await keep({ ...plain(this), id: ownName("figure", this.id, JSON.stringify(this.data)) });
  }
}

/** The figure without what only keeping needs. */
export function plain({
  id,
  title,
  caption,
  alt,
  data,
  layout,
  invented,
}: PlainFigure): PlainFigure {
  return { id, title, caption, alt, data, layout, ...(invented === undefined ? {} : { invented }) };
}

/** Tables are frozen: which of them are kept stands beside them. */
const keeping = new WeakSet<KeptTable>();

const taken = new Map<string, string>();

/**
 * A name that no other content of this kind has in this notebook: a second one of the same name
 * gets -2. Tables and figures have folders of their own.
 */
function ownName(kind: "table" | "figure", id: string, content: string): string {
  const digest = createHash("sha256").update(content).digest("hex");
  for (let k = 1; ; k += 1) {
    const name = k === 1 ? id : `${id}-${k}`;
    const known = taken.get(`${kind} ${name}`);
    if (known !== undefined && known !== digest) continue;
    taken.set(`${kind} ${name}`, digest);
    return name;
  }
}
