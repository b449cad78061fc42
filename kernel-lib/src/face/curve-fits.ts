import { fitBondSlip, unsettledParameters, type BondSlipLaw } from "../curves";
import { curve } from "../figures";
import { bondLawSummary, bondLawTable, type FittedRecord } from "../tables";
import {
  bondSlip,
  drawnWords,
  measured,
  MOST_DRAWN,
  SLIP,
  STRESS,
  type CurveOfTest,
} from "./curve-lines";
import { count, fileName } from "./results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "./results/result";

const LAWS: Readonly<Record<BondSlipLaw, string>> = {
  bpe: "BPE law",
  modified_bpe: "modified BPE law",
  cmr: "CMR law",
};

/**
 * A bond law fitted to records one by one.
 * @example (await study.curves()).fit("modified_bpe").table("summary")
 */
export class CurveFits extends DrawnResult<"curves", "parameters" | "summary"> {
  readonly #records: readonly (FittedRecord & { readonly of: CurveOfTest })[];

  constructor(
    protected readonly setting: Setting,
    private readonly source: string,
    private readonly law: BondSlipLaw,
    curves: readonly CurveOfTest[],
  ) {
    super();
    this.#records = curves.map((of) => ({ of, ...fitted(of, law) }));
  }

  get name(): string {
    return fileName(this.source, this.law);
  }

  get answer(): string {
    const done = this.#records.filter(({ fit }) => fit !== null);
    const open = done.filter(({ unsettled }) => unsettled !== null).length;
    if (this.#records.length === 0) return `The ${this.lawWords} has no record to fit.`;
    const settled =
      open === 0
        ? "every parameter is determined"
        : `${count(open, "record")} cannot determine every parameter`;
    return `The ${this.lawWords} was fitted to ${done.length} of ${count(this.#records.length, "record")}; ${settled}.`;
  }

  protected sentences(): readonly string[] {
    const failed = this.#records.flatMap(({ test_id, why }) =>
      why === null ? [] : [`${test_id} not fitted: ${why}.`],
    );
    return [this.answer, ...failed];
  }

  protected tableViews(): Readonly<Record<"parameters" | "summary", TableView>> {
    return {
      parameters: {
        title: `Parameters of the ${this.lawWords} by record`,
        caption: `${count(this.#records.length, "record")}.`,
        make: (text) => bondLawTable(this.#records, text),
      },
      summary: {
        title: `Parameters of the ${this.lawWords} over all records`,
        caption: `${count(this.#records.length, "record")}.`,
        make: (text) => bondLawSummary(this.#records, text),
      },
    };
  }

  protected figureViews(): Readonly<Record<"curves", FigureView>> {
    const done = this.#records.filter(({ fit }) => fit !== null);
    const drawn = done.slice(0, MOST_DRAWN / 2);
    return {
      curves: {
        title: `Bond stress against slip, measured and fitted (${this.lawWords})`,
        caption: drawnWords(drawn.length, done.length),
        make: (text) =>
          curve({
            ...text,
            xTitle: SLIP,
            yTitle: STRESS,
            curves: drawn.flatMap(({ of, fit }) => {
              const { x } = measured(of);
              const y = x.map((slip) => fit!.stressAt(slip));
              return [measured(of), { label: `${of.test_id}, fitted`, x, y }];
            }),
          }),
      },
    };
  }

  private get lawWords(): string {
    return LAWS[this.law];
  }
}

function fitted(of: CurveOfTest, law: BondSlipLaw): FittedRecord {
  const { test_id } = of;
  try {
    const bond = bondSlip(of);
    const fit = fitBondSlip(bond, law);
    return { test_id, fit, unsettled: unsettledParameters(fit, bond), why: null };
  } catch (error) {
    // A record without the branch that the law needs is an answer, not an error of the notebook.
    if (!(error instanceof RangeError)) throw error;
    return { test_id, fit: null, unsettled: null, why: error.message };
  }
}
