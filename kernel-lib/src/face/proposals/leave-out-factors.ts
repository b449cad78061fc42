import { beforeAfter } from "../../figures";
import type { LeftOut as LeftOutPart, LeftOutUnit } from "../../proposals";
import { leftOutTable } from "../../tables";
import { count, fileName } from "../results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "../results/result";

/** A factor, and what the tests require without each part of them. */
export interface FactorWithout {
  readonly label: string;
  /** The factor of the proposal. */
  readonly proposed: number;
  /** The factor from all tests, not rounded. */
  readonly exact: number | null;
  readonly leftOut: readonly LeftOutPart[];
}

/** What a result of leaving out is told. */
export interface LeaveOutTold {
  readonly setting: Setting;
  readonly name: string;
  readonly unit: LeftOutUnit;
  /** Such as "ACI 318-19, nominal level". */
  readonly basis: string;
  readonly found: readonly FactorWithout[];
  /** Why there is nothing, where there is nothing. */
  readonly nothing: string;
}

/**
 * Factors without each study, series, laboratory or bar size in turn, judged on the part left out.
 * @example study.compare("aci318-19").by("mode", "bar_material").factors().leaveOut("study_id").table()
 */
export class FactorsLeaveOut extends DrawnResult<"intervals", "left out"> {
  constructor(private readonly told: LeaveOutTold) {
    super();
  }

  get name(): string {
    return fileName("without each", this.told.unit, this.told.name);
  }

  get answer(): string {
    const { unit, found, nothing } = this.told;
    const parts = found.flatMap(({ leftOut }) => leftOut);
    if (parts.length === 0) return nothing;
    const some = found.filter(({ leftOut }) => leftOut.length > 0);
    const lost = some.filter(({ leftOut }) => leftOut.some(({ adequate }) => adequate === false));
    const open = some.filter(({ leftOut }) => leftOut.some(({ adequate }) => adequate === null));
    const labels = (of: readonly FactorWithout[]): string =>
      of.length === 0 ? "" : ` (${of.map(({ label }) => label).join("; ")})`;
    return `Of ${count(some.length, "factor")}, ${some.length - new Set([...lost, ...open]).size} ${some.length - new Set([...lost, ...open]).size === 1 ? "remains" : "remain"} adequate without any one ${unit} and ${lost.length} ${lost.length === 1 ? "does" : "do"} not${labels(lost)}${open.length === 0 ? "" : `; for ${open.length}, too few tests remain without one of them${labels(open)}`}.`;
  }

  protected get setting(): Setting {
    return this.told.setting;
  }

  protected sentences(): readonly string[] {
    const { unit, found } = this.told;
    return [
      this.answer,
      ...found.flatMap(({ label, proposed, leftOut }) =>
        leftOut.flatMap(({ left, adequate, factor }) =>
          adequate === true
            ? []
            : [
                adequate === null
                  ? `${label}: without ${unit} ${left} too few tests remain to derive a factor.`
                  : `${label}: without ${unit} ${left} the remaining tests require ${factor!.toFixed(3)}, less than ${proposed}.`,
              ],
        ),
      ),
    ];
  }

  protected tableViews(): Readonly<Record<string, TableView>> {
    return {
      "left out": {
        title: this.title,
        caption: this.answer,
        make: (text) => leftOutTable(this.told.found, text),
      },
    };
  }

  protected figureViews(): Readonly<Record<string, FigureView>> {
    const { unit, found, basis } = this.told;
    const many = found.flatMap(({ leftOut }) => leftOut).length > MOST_DRAWN;
    const shown = many ? "Drawn: the lowest of each group, and all that are not adequate. " : "";
    return {
      intervals: {
        title: `Factors without each ${unit}`,
        subtitle: basis,
        caption: `Open: all tests. Filled: without the ${unit} named; n: failures omitted. ${shown}${this.answer}`,
        make: (text) =>
          beforeAfter({
            ...text,
            measure: "Factor required, not rounded (–)",
            names: { before: "all tests", after: `without the ${unit}` },
            groups: found.flatMap(({ label, exact, leftOut }) =>
              shownParts(leftOut, many).map(({ left, factor, n, adequate }) => ({
                label: `${label}, without ${left}`,
                n,
                before: exact === null ? NaN : Math.min(1, exact),
                after: factor ?? NaN,
                verdicts:
                  adequate === null ? "too few tests" : adequate ? "adequate" : "not adequate",
              })),
            ),
          }),
      },
    };
  }

  private get title(): string {
    return `Factors without each ${this.told.unit}, ${this.told.basis}`;
  }
}

/** Lines above which a figure shows only those that matter. */
const MOST_DRAWN = 40;

/** The parts that are drawn: all, or the lowest and those that are not adequate. */
function shownParts(leftOut: readonly LeftOutPart[], many: boolean): readonly LeftOutPart[] {
  if (!many) return leftOut;
  const lowest = Math.min(...leftOut.map(({ factor }) => factor ?? Infinity));
  const first = leftOut.find(({ factor }) => factor === lowest);
  return leftOut.filter((one) => one === first || one.adequate !== true);
}
