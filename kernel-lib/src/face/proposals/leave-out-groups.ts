import { groupsWithout, type GroupWithout } from "../../comparison";
import { beforeAfter } from "../../figures";
import type { LeftOutUnit } from "../../proposals";
import { leftOutGroupsTable } from "../../tables";
import { count, fileName } from "../results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "../results/result";
import { ofOneCode, type GroupsOfCode, type JudgedGroups } from "./judged-groups";
import { unitOf, type LeftOut } from "./left-out-unit";

/** Lines above which a figure shows only those that matter. */
const MOST_DRAWN = 40;

/**
 * The verdicts of groups without each study, series, laboratory or bar size in turn.
 * @example study.compare("aci318-19").by("mode", "bar_material").leaveOut("study_id").answer
 */
export class GroupsLeaveOut extends DrawnResult<"intervals", "left out"> {
  private readonly asked: GroupsOfCode;
  private readonly part: LeftOutUnit;
  #found: readonly GroupWithout[] | null = null;

  /** @throws UnknownNameError for another column; RangeError for several codes */
  constructor(
    asked: JudgedGroups,
    private readonly unit: LeftOut,
  ) {
    super();
    this.part = unitOf(unit);
    this.asked = ofOneCode(asked, "leaveOut");
  }

  get name(): string {
    return fileName("without each", this.part, this.asked.name);
  }

  get answer(): string {
    const { found, part } = this;
    if (found.length === 0)
      return `Nothing to leave out: no group has failures of two or more values of ${this.unit}.`;
    const groups = new Set(found.map(({ whole }) => whole.label)).size;
    const moved = this.changed;
    const labels = [...new Set(moved.map(({ whole }) => whole.label))];
    return `Of ${count(groups, "group")} by ${this.asked.byWords}, ${groups - labels.length} ${groups - labels.length === 1 ? "keeps its" : "keep their"} verdict without any one ${part}${labels.length === 0 ? "" : `; ${labels.length} ${labels.length === 1 ? "does" : "do"} not (${labels.join("; ")})`}.`;
  }

  protected get setting(): Setting {
    return this.asked.setting;
  }

  protected sentences(): readonly string[] {
    return [
      this.answer,
      ...this.changed.map(
        ({ whole, rest, left }) =>
          `${whole.label}: ${whole.verdict}; without ${this.part} ${left}: ${rest.verdict}. ${rest.inGeneral.reason}`,
      ),
    ];
  }

  protected tableViews(): Readonly<Record<string, TableView>> {
    return {
      "left out": {
        title: this.title,
        caption: this.answer,
        make: (text) => leftOutGroupsTable(this.found, text),
      },
    };
  }

  protected figureViews(): Readonly<Record<string, FigureView>> {
    return {
      intervals: {
        title: this.title,
        subtitle: this.asked.basis,
        caption: `5 % fractile in general, series effect included: lower bound (mark) to upper bound, each one-sided. ${this.drawn.length < this.found.length ? "Drawn: the lowest of each group, and all that change the verdict. " : ""}${this.answer}`,
        make: (text) =>
          beforeAfter({
            ...text,
            measure: "5 % fractile of test/predicted: lower bound (mark) to upper bound (–)",
            names: { before: "all tests", after: `without the ${this.part}` },
            groups: this.drawn.map(({ whole, rest, left }) => ({
              label: `${whole.label}, without ${left}`,
              n: rest.n,
              before: whole.lower ?? NaN,
              after: rest.lower ?? NaN,
              upperBefore: whole.upper ?? NaN,
              upperAfter: rest.upper ?? NaN,
              verdicts:
                whole.verdict === rest.verdict
                  ? whole.verdict
                  : `${whole.verdict}, then ${rest.verdict}`,
            })),
          }),
      },
    };
  }

  private get title(): string {
    return `Verdicts by ${this.asked.byWords} without each ${this.part}`;
  }

  /** All parts, or of each group the lowest and those that change the verdict. */
  private get drawn(): readonly GroupWithout[] {
    if (this.found.length <= MOST_DRAWN) return this.found;
    const lowest = new Map<string, GroupWithout>();
    for (const one of this.found) {
      const known = lowest.get(one.whole.label);
      if (!known || (one.rest.lower ?? Infinity) < (known.rest.lower ?? Infinity))
        lowest.set(one.whole.label, one);
    }
    return this.found.filter(
      (one) => lowest.get(one.whole.label) === one || one.whole.verdict !== one.rest.verdict,
    );
  }

  private get changed(): readonly GroupWithout[] {
    return this.found.filter(({ whole, rest }) => whole.verdict !== rest.verdict);
  }

  private get found(): readonly GroupWithout[] {
    const { pairs, groups, question } = this.asked;
    this.#found ??= groupsWithout(pairs, groups, this.unit, question);
    return this.#found;
  }
}
