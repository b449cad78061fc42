import { likelyDuplicates, missingness, provenance } from "../dataset";
import { betweenStudiesWords, type ReadRows } from "../tables";
import { auditFigures, auditTables, type AuditFigure, type AuditTable } from "./audit-views";
import { Audited, BLANK_ALLOWED, type AuditedData } from "./audited";
import { count } from "./results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "./results/result";

/**
 * What the data of a study are: whether every row is accounted for, where the rows come from, what
 * is blank and what that withholds, what checking found, and how much studies differ.
 * @example study.audit().table("missing inputs")
 */
export class Audit extends DrawnResult<AuditFigure, AuditTable> {
  private readonly audited: Audited;

  constructor(
    protected readonly setting: Setting,
    given: AuditedData,
  ) {
    super();
    this.audited = new Audited(given);
  }

  get name(): string {
    return "audit";
  }

  get answer(): string {
    const { rows, needs, codeWords } = this.audited;
    const n = (status: ReadRows["status"]): number =>
      rows.reduce((sum, one) => sum + (one.status === status ? one.n : 0), 0);
    const told = (status: ReadRows["status"]): string => n(status).toLocaleString("en-US");
    const total = rows.reduce((sum, one) => sum + one.n, 0);
    const outside =
      n("outside the condition of the study") === 0
        ? ""
        : `${told("outside the condition of the study")} outside the condition of the study, `;
    const withheld = needs.filter(({ effect }) => effect === "withheld");
    const short = new Set(withheld.flatMap((one) => one.rows)).size;
    const missing =
      short === 0
        ? "no input is missing"
        : `missing inputs prevent a capacity in ${count(short, "row")}`;
    return `Every row is accounted for: ${count(total, "row")} read, ${told("used")} used, ${told("excluded")} excluded with a reason, ${outside}${told("rejected on reading")} rejected on reading; ${missing} (${codeWords}).`;
  }

  protected sentences(): readonly string[] {
    const { data, chosen, needs, bondStress } = this.audited;
    const lines = provenance(data).map(({ file, rows, rejected, firstRow, lastRow }) =>
      firstRow === null
        ? `${file}: no row used, ${rejected} rejected.`
        : `${file}, lines ${firstRow} to ${lastRow ?? firstRow}: ${count(rows, "row")} read, ${rejected} rejected.`,
    );
    const empty = missingness(chosen, [...BLANK_ALLOWED]).filter(({ filled }) => filled === 0);
    const twins = likelyDuplicates(chosen).length;
    const [most] = [...needs]
      .filter(({ effect }) => effect === "withheld")
      .sort((a, b) => b.rows.length - a.rows.length);
    const severe = (severity: string): number =>
      data.diagnostics.filter((one) => one.severity === severity).length;
    return [
      this.answer,
      ...lines,
      `The checks found ${count(severe("error"), "error")} and ${count(severe("warning"), "warning")}.`,
      ...(most === undefined
        ? []
        : [
            `Most frequent missing input: ${most.columns.join(", ")}, for ${most.provision.title} (${most.code.id}), in ${most.rows.length} of ${most.concerned} rows concerned.`,
          ]),
      ...(empty.length === 0
        ? []
        : [`No row fills ${empty.map(({ column }) => column).join(", ")}.`]),
      twins === 0
        ? "No specimen appears in two studies."
        : `${count(twins, "group")} of tests of different studies may be the same specimens.`,
      ...betweenStudiesWords(bondStress),
    ];
  }

  protected tableViews(): Readonly<Record<AuditTable, TableView>> {
    return auditTables(this.audited);
  }

  protected figureViews(): Readonly<Record<AuditFigure, FigureView>> {
    return auditFigures(this.audited);
  }
}
