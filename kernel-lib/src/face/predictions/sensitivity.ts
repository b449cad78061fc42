import { sensitivity, sensitivityOf } from "../../figures";
import { clauseOf, elasticities, variableWords, type RowElasticities } from "../../provisions";
import { elasticityTable, Table } from "../../tables";
import { shortTitle } from "../comparison/comparison-tables";
import { fileName } from "../results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "../results/result";
import type { AskedCode } from "./asked-code";
import { NO_ROW, rowWords, type AskedRow } from "./asked-row";

/**
 * How the capacities of one row depend on each number: % of capacity for 1 % of the number, with
 * changes of mode, branch or limit nearby.
 * @example study.where({ test_id: "IH-075-1" }).sensitivity("aci318-19").figure("bars")
 */
export class Sensitivity extends DrawnResult<"bars", "elasticities"> {
  #all: RowElasticities | null = null;

  constructor(
    protected readonly setting: Setting,
    private readonly asked: AskedRow | null,
    private readonly by: AskedCode,
  ) {
    super();
  }

  get name(): string {
    return fileName("sensitivity", this.asked?.id ?? "", this.by.code.id);
  }

  get answer(): string {
    const all = this.all();
    if (this.asked === null || all === null) return NO_ROW;
    const of = `${rowWords(this.asked)} by ${this.#basis()}`;
    const one = all.governing;
    if (one === null) return `${of}: no capacity applies, so nothing has a sensitivity.`;
    const strongest = one.by
      .filter(({ elasticity }) => Number.isFinite(elasticity) && elasticity !== 0)
      .sort((a, b) => Math.abs(b.elasticity) - Math.abs(a.elasticity))
      .slice(0, 3)
      .map(
        ({ variable, elasticity }) =>
          `${signed(elasticity)} % with ${variableWords(variable.name)}`,
      );
    return `${of}: ${modeWords(one)} governs; its capacity changes, for 1 % more of each number, by ${strongest.join(", ")}.`;
  }

  protected sentences(): readonly string[] {
    const one = this.all()?.governing;
    const near = (one?.by ?? []).flatMap(({ variable, switches }) =>
      switches.map(
        ({ at, relative, because }) =>
          `At ${variableWords(variable.name)} ${Number(at.toPrecision(4))} ${variable.unit} (${signed(100 * relative)} %): ${because}.`,
      ),
    );
    return [this.answer, ...near];
  }

  protected tableViews(): Readonly<Record<"elasticities", TableView>> {
    return {
      elasticities: {
        title: `Sensitivity of the capacities of ${this.asked?.id ?? "no row"}, ${this.#basis()}`,
        caption: this.answer,
        make: (text) => {
          const all = this.all();
          if (all !== null) return elasticityTable(all, text);
          const columns = [{ key: "variable", title: "input of the row", kind: "text" as const }];
          return new Table({ ...text, rowKey: ["variable"], columns, rows: [] });
        },
      },
    };
  }

  protected figureViews(): Readonly<Record<"bars", FigureView>> {
    const one = this.all()?.governing;
    return {
      bars: {
        title: `Sensitivity of the governing capacity of ${this.asked?.id ?? "no row"}`,
        subtitle: this.#basis(),
        caption: this.answer,
        make: (text) =>
          sensitivity({ ...text, ...(one ? sensitivityOf(one) : { elasticities: [] }) }),
      },
    };
  }

  private all(): RowElasticities | null {
    if (this.asked === null) return null;
    this.#all ??= elasticities(this.by.code, this.asked.table, 0, this.by.settings);
    return this.#all;
  }

  #basis(): string {
    return `${shortTitle(this.by.code)}, ${this.by.settings.level} level`;
  }
}

const signed = (value: number): string =>
  `${value < 0 ? "−" : "+"}${Number(Math.abs(value).toPrecision(3))}`;

const modeWords = ({ provision }: NonNullable<RowElasticities["governing"]>): string =>
  `${provision.modes[0].replaceAll("_", " ")} (${clauseOf(provision.id)})`;
