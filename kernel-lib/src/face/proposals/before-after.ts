import { beforeAfter, dumbbellsOf } from "../../figures";
import {
  groupReliability,
  groupStandings,
  loadModel,
  type BeforeAfter as Change,
  type DerivedFactor,
  type GroupStanding,
  type ReliabilityOfGroupsSettings,
} from "../../proposals";
import type { TestTable } from "../../dataset";
import { beforeAfterTable, standingTable } from "../../tables";
import { count, fileName } from "../results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "../results/result";

import { reliabilitySettings, type ReliabilityOptions } from "./reliability-options";

/** What a comparison before and after is told. */
export interface BeforeAfterTold {
  readonly setting: Setting;
  readonly name: string;
  readonly tests: TestTable;
  readonly change: Change;
  /** Such as "ACI 318-19, nominal level". */
  readonly basis: string;
  readonly byWords: string;
  readonly factors: readonly DerivedFactor[];
  readonly step: number;
  /** On what the reliability index rests. */
  readonly reliability?: ReliabilityOfGroupsSettings;
}

/**
 * The groups of one comparison with the provisions as they stand and as proposed.
 * @example proposal.beforeAfter("mode", "bar_material").figure("before and after")
 */
export class BeforeAfter extends DrawnResult<
  "before and after",
  "verdicts" | "safety and economy"
> {
  #standings: readonly GroupStanding[] | null = null;

  constructor(private readonly told: BeforeAfterTold) {
    super();
  }

  get name(): string {
    return fileName("before and after by", this.told.byWords, this.told.name);
  }

  /** The two comparisons as the room of proposals makes them. */
  get change(): Change {
    return this.told.change;
  }

  get answer(): string {
    const { groups, nowMeet, withdrawn, added } = this.change;
    const changed = groups.filter(
      ({ before, after }) => before.mean !== after.mean || before.verdict !== after.verdict,
    );
    const of = (word: string): string[] =>
      changed.filter(({ after }) => after.verdict === word).map(({ label }) => label);
    const named = (labels: readonly string[], words: string): string =>
      labels.length === 0 ? "" : `, ${labels.length} ${words} (${labels.join("; ")})`;
    const moved = [
      ...(withdrawn.length > 0 ? [` No longer permitted: ${withdrawn.join("; ")}.`] : []),
      ...(added.length > 0 ? [` New: ${added.join("; ")}.`] : []),
    ].join("");
    return `${this.told.basis}: ${changed.length} of ${count(groups.length, "group")} by ${this.told.byWords} change${named(nowMeet, nowMeet.length === 1 ? "now meets" : "now meet")}${named(of("falls short"), of("falls short").length === 1 ? "falls short" : "fall short")}${named(of("undecided"), "undecided")}.${moved}`;
  }

  /**
   * The same with the reliability index for other loads and scatter; the strength reduction stays
   * that of the code.
   * @throws RangeError for a number that cannot be used, UnknownNameError for other loads
   * @example
   * const bond = { provision: "aci318-19/17.6.5", factor: 0.8, where: { bar_class: "frp" } };
   * const change = study.propose("aci318-19", bond).beforeAfter("mode");
   * change.withReliability({ measurementCov: 0.04 }).table("safety and economy")
   */
  withReliability(
    options: Pick<
      ReliabilityOptions,
      "loads" | "materialCov" | "fabricationCov" | "measurementCov"
    >,
  ): BeforeAfter {
    return new BeforeAfter({ ...this.told, reliability: reliabilitySettings(options) });
  }

  protected get setting(): Setting {
    return this.told.setting;
  }

  protected sentences(): readonly string[] {
    const { groups } = this.change;
    const changed = this.standings.filter(
      ({ applied }, k) => applied !== 1 || groups[k]?.before.verdict !== groups[k]?.after.verdict,
    );
    return [
      this.answer,
      ...changed.map(({ reading }) => reading),
      `${count(groups.length - changed.length, "group")} as before.`,
      this.comparedWords,
    ];
  }

  protected tableViews(): Readonly<Record<string, TableView>> {
    const { byWords, basis } = this.told;
    return {
      verdicts: {
        title: `Characteristic ratio with the present and the proposed provision, by ${byWords}, ${basis}`,
        caption: this.answer,
        make: (text) => beforeAfterTable(this.change, text),
      },
      "safety and economy": {
        title: `Safety and economy with the present and the proposed provision, by ${byWords}, ${basis}`,
        make: (text) => standingTable(this.standings, text, this.indexNote),
      },
    };
  }

  protected figureViews(): Readonly<Record<string, FigureView>> {
    return {
      "before and after": {
        title: "Characteristic ratio before and after",
        subtitle: `${this.told.basis}, with the proposed changes`,
        caption: `5 % fractile in general, series effect included: lower bound (mark) to upper bound, each one-sided. ${this.answer}`,
        make: (text) =>
          beforeAfter({
            ...text,
            measure: "5 % fractile of test/predicted: lower bound (mark) to upper bound (–)",
            groups: dumbbellsOf(this.change),
          }),
      },
    };
  }

  private get indexNote(): string | undefined {
    const { reliability } = this.told;
    if (reliability === undefined) return undefined;
    const percent = (cov: number | undefined): string => `${+(100 * (cov ?? 0)).toFixed(1)} %`;
    const { specimenCov, fabrication, materialOf, loads } = reliability;
    const material = materialOf ? ", material scatter as stated" : "";
    return `minimum over live-load fractions of 30 to 70 %; lognormal resistance with the mean and scatter of a further test of a further series, measurement scatter (${percent(specimenCov)}) removed, fabrication scatter (${percent(fabrication?.cov)})${material} added; strength reduction factor of the code; loads: ${(loads ?? loadModel("nowak-2003")).title}`;
  }

  /** How many ratios differ at all, to the last bit. */
  private get comparedWords(): string {
    const pairs = this.change.groups.flatMap(({ before, after }) => {
      const then = new Map(after.evidence.map((one) => [`${one.row} ${one.mode}`, one.ratio]));
      return before.evidence.map(({ row, mode, ratio }) =>
        Object.is(ratio, then.get(`${row} ${mode}`)),
      );
    });
    const differ = pairs.filter((same) => !same).length;
    return `${count(pairs.length, "ratio")} compared, ${differ === 0 ? "none differs" : `${differ.toLocaleString("en-US")} differ`}.`;
  }

  /** Where each group stands; least index by the present strength reduction. */
  private get standings(): readonly GroupStanding[] {
    const { tests, change, factors, step, reliability = {} } = this.told;
    this.#standings ??= groupStandings(
      change,
      groupReliability(tests, change.present, reliability),
      { factors, step },
    );
    return this.#standings;
  }
}
