import { mkdir, writeFile } from "node:fs/promises";
import { dirname, extname } from "node:path";
import type { BallotCover, BallotDocument, BallotPage } from "../../exports/ballot";
import { changedProvisions, className, proposedWords, type BallotSheet } from "../../proposals";
import { ballotTable } from "../../tables";
import { count, fileName } from "../results/names";
import { Findings } from "../results/findings";
import { Result, type Setting, type TableView } from "../results/result";

/** What a ballot is told. */
export interface BallotTold {
  readonly setting: Setting;
  readonly name: string;
  /** Title at the head of each sheet, such as "Proposed changes of ACI 318-19 Chapter 17". */
  readonly title: string;
  readonly caution: string;
  readonly pages: readonly BallotPage[];
  /** Why there is no sheet, where there is none. */
  readonly nothing: string;
}

/**
 * The ballot of a proposal: one printed page for each changed provision, with the text, the
 * evidence by class, safety and price, and what speaks against it.
 * @example await proposal.ballot().save("exports/ballot.html")
 */
export class Ballot extends Result<"classes"> {
  constructor(private readonly told: BallotTold) {
    super();
  }

  get name(): string {
    return fileName(this.told.name, "ballot");
  }

  get sheets(): readonly BallotSheet[] {
    return this.told.pages.map(({ sheet }) => sheet);
  }

  /** Whether every change is supported by its own evidence; false without a change. */
  get supported(): boolean {
    return this.sheets.length > 0 && this.sheets.every(({ status }) => status === "supported");
  }

  get answer(): string {
    const { sheets } = this;
    if (sheets.length === 0) return this.told.nothing;
    const of = (status: BallotSheet["status"]): number =>
      sheets.filter((one) => one.status === status).length;
    return `${count(sheets.length, "ballot sheet")}: ${of("supported")} supported by its own evidence, ${of("stands by statement")} by a statement, ${of("not supported")} not supported.`;
  }

  /**
   * Whether the text says what was evaluated: each constant factor of the text against the factors
   * on the capacities of the tests, and the status with what decides it.
   */
  check(): Findings {
    return new Findings(
      this.sheets.length === 0
        ? [this.told.nothing]
        : this.sheets.flatMap((sheet) => [textAgainstEvaluation(sheet), statusOf(sheet)]),
    );
  }

  /**
   * Writes the sheets; the ending chooses the format: html (one printed page a sheet) or docx; csv,
   * xlsx, md or tex give the table by class. Returns the path.
   */
  override async save(path: string): Promise<string> {
    const ending = extname(path).toLowerCase();
    if (ending !== ".html" && ending !== ".docx") return super.save(path);
    await mkdir(dirname(path), { recursive: true });
    await writeFile(path, ending === ".html" ? await this.toHtml() : await this.toDocx());
    return path;
  }

  /** The sheets as one page of HTML with a style for print; a packet puts its cover before them. */
  async toHtml(cover?: BallotCover | null): Promise<string> {
    const { ballotHtml } = await import("../../exports/ballot/index.js");
    return ballotHtml({ ...this.document, ...(cover ? { cover } : {}) });
  }

  /** The sheets as a document for a word processor, one page a sheet. */
  async toDocx(): Promise<Uint8Array> {
    return (await import("../../exports/ballot/index.js")).ballotDocx(this.document);
  }

  protected get setting(): Setting {
    return this.told.setting;
  }

  protected sentences(): readonly string[] {
    return this.sheets.length === 0 ? [this.told.nothing] : this.sheets.map(statusOf);
  }

  protected tableViews(): Readonly<Record<string, TableView>> {
    return {
      classes: {
        title: `${this.told.title}: ballot sheets by class`,
        caption: this.answer,
        make: (text) => ballotTable(this.sheets, text),
      },
    };
  }

  private get document(): BallotDocument {
    const { title, pages, caution, setting } = this.told;
    return {
      title,
      caution,
      stamp:
        setting.invented === false
          ? "Research use; not for design."
          : "Contains invented demonstration data: proves nothing, not for design.",
      pages,
    };
  }
}

function statusOf({ provision, status, doubts }: BallotSheet): string {
  return `${provision.id}: ${status}${doubts.length === 0 ? "" : `: ${doubts.join("; ")}`}.`;
}

function textAgainstEvaluation({ provision, changes, classes }: BallotSheet): string {
  const stated = changes.flatMap((one) => ("factor" in one ? [one.factor] : []));
  const ids = [...new Set(changes.map((one) => changedProvisions(one)[0]))].join(", ");
  const applied = classes.filter((one) => !one.steel && one.applied !== null);
  const constants = stated.map(Number);
  const numbers = constants.every(Number.isFinite);
  const wrong = numbers ? applied.filter(({ applied: found }) => !isOneOf(found!, constants)) : [];
  const evaluated = applied.map((one) => `${className(one)} ${proposedWords(one)}`).join(", ");
  return wrong.length > 0
    ? `${provision.id}: the text says ${stated.join(", ")}, and ${evaluated} was evaluated.`
    : `${ids}: what the text says (${stated.join(", ") || "no factor"}) is what was evaluated${evaluated === "" ? "" : ` (${evaluated})`}.`;
}

function isOneOf(
  { least, most }: { readonly least: number; readonly most: number },
  constants: readonly number[],
): boolean {
  const near = (value: number): boolean =>
    constants.some((one) => Math.abs(value / one - 1) < 1e-9);
  return near(least) && near(most);
}
