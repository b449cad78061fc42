import {
  bondSlipCurve,
  fitBondSlip,
  unsettledParameters,
  type BondSlipLaw,
  type ReducedTest,
} from "../curves";
import type { Diagnostic } from "../dataset";
import { curve } from "../figures";
import { bondLawTable, reducedCurveTable, type FittedRecord } from "../tables";
import { count, fileName, knownName } from "./results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "./results/result";
import { readyCondition, type Condition } from "./tests/condition";
import type { Column, TestRow } from "./tests/study-row";

/** More curves than this cannot be told by eye in one figure. */
const MOST_DRAWN = 6;

/** A reduced record with its test. */
export interface CurveOfTest extends ReducedTest {
  readonly row: TestRow;
}

/** The records of a study, and how they were chosen. */
export interface ChosenCurves {
  readonly curves: readonly CurveOfTest[];
  readonly findings: readonly Diagnostic[];
  readonly conditions: readonly string[];
  readonly columnNames: readonly string[];
}

/**
 * Load-displacement records of the tests, reduced to peak, slip, stiffness, loss of adhesion,
 * residual load and energy; the raw records stay as they are.
 * @example (await study.curves({ freeLength_mm: 30 })).where({ bar_material: "gfrp" }).fit("cmr")
 */
export class Curves extends DrawnResult<"load-displacement" | "bond-slip", "curves"> {
  constructor(
    protected readonly setting: Setting,
    private readonly chosen: ChosenCurves,
  ) {
    super();
  }

  get name(): string {
    return fileName("curves", ...this.chosen.conditions);
  }

  get length(): number {
    return this.chosen.curves.length;
  }

  get answer(): string {
    const { curves, findings, conditions } = this.chosen;
    const where = conditions.length === 0 ? "" : ` (${conditions.join("; ")})`;
    if (curves.length === 0)
      return `No load-displacement record${where}: the column curve of tests.csv names the file of each.`;
    const flagged = curves.filter(({ reduction }) => reduction.flags.length > 0).length;
    return `${count(curves.length, "record")} reduced${where}; ${flagged} to check; ${count(findings.length, "finding")} in reading them.`;
  }

  /** The records of the tests that meet a condition. */
  where(condition: Condition<TestRow>): Curves {
    const ready = readyCondition(condition, this.chosen.columnNames);
    return new Curves(this.setting, {
      ...this.chosen,
      conditions: [...this.chosen.conditions, ready.words],
      curves: this.chosen.curves.filter(({ row }) =>
        ready.holds(
          (column) => row[column as Column] ?? null,
          () => row,
        ),
      ),
    });
  }

  /**
   * A bond stress-slip law fitted to each record; a record that lacks the branch that the law needs
   * is listed with the reason.
   * @throws UnknownNameError for a law that there is not
   */
  fit(law: BondSlipLaw): CurveFits {
    knownName("law", law, ["bpe", "modified_bpe", "cmr"]);
    return new CurveFits(this.setting, this.name, law, this.chosen.curves);
  }

  protected sentences(): readonly string[] {
    return [this.answer, ...this.chosen.findings.map(({ message }) => `${message}.`)];
  }

  protected tableViews(): Readonly<Record<"curves", TableView>> {
    return {
      curves: {
        title: "Load-displacement records reduced to numbers",
        caption: this.answer,
        notes: ["Loss of adhesion: rule of adhesive-anchor evaluation."],
        make: (text) => reducedCurveTable(this.chosen.curves, text),
      },
    };
  }

  protected figureViews(): Readonly<Record<"load-displacement" | "bond-slip", FigureView>> {
    const drawn = this.chosen.curves.slice(0, MOST_DRAWN);
    const caption = drawnWords(drawn.length, this.length);
    return {
      "load-displacement": {
        title: "Load against slip",
        caption,
        make: (text) =>
          curve({
            ...text,
            xTitle: "Slip (mm)",
            yTitle: "Load (kN)",
            curves: drawn.map(({ test_id, reduction }) => ({
              label: test_id,
              x: Array.from(reduction.slip_mm),
              y: Array.from(reduction.load_kN),
            })),
          }),
      },
      "bond-slip": {
        title: "Bond stress against slip",
        caption: `${caption} Average stress over the bonded length.`,
        make: (text) =>
          curve({ ...text, xTitle: SLIP, yTitle: STRESS, curves: drawn.map(measured) }),
      },
    };
  }
}

const [SLIP, STRESS] = ["Slip (mm)", "Bond stress (MPa)"];

/** A bond law fitted to records one by one. */
export class CurveFits extends DrawnResult<"curves", "parameters"> {
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
    return `${this.lawWords} fitted to ${done.length} of ${count(this.#records.length, "record")}; ${open} of them leave a parameter unsettled.`;
  }

  protected sentences(): readonly string[] {
    const failed = this.#records.flatMap(({ test_id, why }) =>
      why === null ? [] : [`${test_id} not fitted: ${why}.`],
    );
    return [this.answer, ...failed];
  }

  protected tableViews(): Readonly<Record<"parameters", TableView>> {
    return {
      parameters: {
        title: `Parameters of ${this.lawWords} by record`,
        caption: this.answer,
        make: (text) => bondLawTable(this.#records, text),
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
    return { bpe: "the BPE law", modified_bpe: "the modified BPE law", cmr: "the CMR law" }[
      this.law
    ];
  }
}

function bondSlip({ reduction, row }: CurveOfTest): ReturnType<typeof bondSlipCurve> {
  return bondSlipCurve(reduction, row.bar_diameter_mm, row.embedment_mm);
}

function measured(of: CurveOfTest): { label: string; x: number[]; y: number[] } {
  const { slip_mm, bond_stress_MPa } = bondSlip(of);
  return { label: of.test_id, x: Array.from(slip_mm), y: Array.from(bond_stress_MPa) };
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

function drawnWords(drawn: number, all: number): string {
  if (all === 0) return "No record.";
  return drawn === all
    ? `${count(all, "record")}.`
    : `The first ${drawn} of ${all} records; where(...) chooses others.`;
}
