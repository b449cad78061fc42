import type { DataFrame } from "danfojs-node";
import type { Invented } from "../../dataset";
import type { Figure as PlainFigure, FigureText, PrintSize } from "../../figures";
import type { Table, TableText } from "../../tables";
import { displayBundle } from "../../tables/display-bundle";
import type { JudgeOptions } from "../comparison/judge-options";
import type { StudySettings } from "../study-settings";
import { Findings } from "./findings";
import { KEEP, KeptFigure, KeptTable } from "./kept";
import { UnknownNameError, viewName } from "./names";
import { saveTable } from "./save";
import { tableFrame } from "./table-frame";

/** What the words of a table may be replaced by. */
export interface TableOptions {
  readonly title?: string;
  readonly caption?: string;
  readonly notes?: readonly string[];
  /** The columns shown, by key; all by default. */
  readonly columns?: readonly string[];
  readonly name?: string;
}

/** What the words of a figure may be replaced by. */
export interface FigureOptions {
  readonly title?: string;
  readonly subtitle?: string;
  readonly caption?: string;
  readonly size?: PrintSize;
  readonly name?: string;
  /** The variable of figures that have one, such as "ratio against". */
  readonly x?: string;
  readonly color?: string;
}

/** What every result of a study knows of it. */
export interface Setting {
  /** Whether what cells show is written to `exports/`. */
  readonly keeps: boolean;
  readonly invented: Invented;
  readonly seed: number;
  /** How groups are judged unless a cell says otherwise. */
  readonly judge?: JudgeOptions;
  /** What the study's settings file states. */
  readonly settings?: StudySettings;
}

/** The words of a table or figure as its result makes them. */
export interface Words {
  readonly title: string;
  readonly subtitle?: string;
  readonly caption?: string;
  readonly notes?: readonly string[];
}

/** A table made on demand, with the words that it gets by default. */
export interface TableView extends Words {
  readonly make: (text: TableText) => Table;
}

/** A figure made on demand, with the words that it gets by default. */
export interface FigureView extends Words {
  readonly make: (text: FigureText, options: FigureOptions) => PlainFigure;
}

/**
 * What every result gives: an answer in one sentence, findings, tables by view, data. The first
 * view is the default. No result throws for want of data: it says why it is empty. A view that it
 * does not have is an error.
 */
export abstract class Result<T extends string = never> {
  /** File name of what is kept, made from the content. */
  abstract readonly name: string;
  /** The answer in one sentence. */
  abstract readonly answer: string;

  protected abstract readonly setting: Setting;
  protected abstract tableViews(): Readonly<Record<string, TableView>>;
  protected abstract sentences(): readonly string[];

  /** Sentences, one finding each. */
  findings(): Findings {
    return new Findings(this.sentences());
  }

  /**
   * One view of the result as a table; the first view is the default.
   * @throws UnknownNameError for a view that the result does not have
   */
  table(view?: T | TableOptions, options?: TableOptions): KeptTable {
    const views = this.tableViews();
    const [name, wanted] =
      typeof view === "string" ? [view, options ?? {}] : [Object.keys(views)[0] ?? "", view ?? {}];
    const found = views[name];
    if (!found) throw new UnknownNameError("table view", name, Object.keys(views));
    const title = wanted.title ?? found.title;
    const told = wanted.caption ?? found.caption;
    // What is shown of a table is its caption: the title stands first in it.
    const caption = told === undefined || told.startsWith(title) ? told : `${title}. ${told}`;
    const made = found.make({
      id: wanted.name ?? viewName(this.name, name),
      title,
      notes: wanted.notes ?? found.notes ?? [],
      ...(caption === undefined ? {} : { caption }),
    });
    return new KeptTable(
      wanted.columns ? withColumns(made, wanted.columns) : made,
      this.setting.keeps,
    );
  }

  /** The first table as comma-separated values, in full precision. */
  toCsv(): string {
    return this.table().toCsv();
  }

  /** What `JSON.stringify` writes. */
  toJSON(): unknown {
    const { title, rows } = this.table();
    return { answer: this.answer, findings: [...this.findings()], table: { title, rows } };
  }

  /** The first view as a danfojs frame, for showing and filtering. */
  toFrame(): Promise<DataFrame> {
    return tableFrame(this.table());
  }

  /**
   * Writes the first view; the ending chooses the format: csv, xlsx, md, html, tex or docx. Returns
   * the path.
   */
  save(path: string): Promise<string> {
    return saveTable(this.table(), path);
  }

  /** What a cell shows for the result: its answer and its first table. */
  async [Symbol.for("code-comparison.display")](): Promise<Record<string, unknown>> {
    const table = this.table();
    await table[KEEP]();
    const bundle = displayBundle(table);
    return {
      ...bundle,
      "text/html": `<p>${escaped(this.answer)}</p>${bundle["text/html"]}`,
      "text/plain": `${this.answer}\n\n${bundle["text/plain"]}`,
    };
  }
}

/** A result that can also be drawn. */
export abstract class DrawnResult<F extends string, T extends string = never> extends Result<T> {
  protected abstract figureViews(): Readonly<Record<string, FigureView>>;

  /**
   * One view of the result as a figure; the first view is the default.
   * @throws UnknownNameError for a view that the result does not have
   */
  figure(view?: F | FigureOptions, options?: FigureOptions): KeptFigure {
    const views = this.figureViews();
    const [name, wanted] =
      typeof view === "string" ? [view, options ?? {}] : [Object.keys(views)[0] ?? "", view ?? {}];
    const found = views[name];
    if (!found) throw new UnknownNameError("figure view", name, Object.keys(views));
    const subtitle = wanted.subtitle ?? found.subtitle;
    const text: FigureText = {
      id: wanted.name ?? viewName(this.name, name),
      title: wanted.title ?? found.title,
      caption: wanted.caption ?? found.caption ?? "",
      invented: this.setting.invented,
      ...(subtitle === undefined ? {} : { subtitle }),
      ...(wanted.size === undefined ? {} : { size: wanted.size }),
    };
    return new KeptFigure(found.make(text, wanted), this.setting.keeps);
  }
}

function withColumns(table: Table, keys: readonly string[]): Table {
  const known = table.columns.map(({ key }) => key);
  for (const key of keys)
    if (!known.includes(key)) throw new UnknownNameError("column", key, known);
  const shown = new Set([...table.rowKey, ...keys]);
  const rows = table.rows.map((row) =>
    Object.fromEntries(Object.entries(row).filter(([key]) => shown.has(key))),
  );
  return new (table.constructor as new (content: object) => Table)({
    ...table,
    columns: table.columns.filter(({ key }) => shown.has(key)),
    rows,
  });
}

function escaped(text: string): string {
  return text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;");
}
