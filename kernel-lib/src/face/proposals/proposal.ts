import { draftText, type Draft } from "../../exports/draft";
import { applyProposals, changedProvisions, type ProposedChange } from "../../proposals";
import type { CodeDefinition } from "../../provisions";
import { changesTable, changeEvidenceTable } from "../../tables";
import { caution } from "../colophon";
import { shortTitle } from "../comparison/comparison-tables";
import type { EvidenceColumn } from "../comparison/evidence-row";
import type { CodeId } from "../results/generated-names";
import { count, fileName, knownName } from "../results/names";
import { Result, type Setting, type TableView } from "../results/result";
import { Ballot } from "./ballot";
import { ballotPage, checkBallotTexts } from "./ballot-page";
import { BeforeAfter } from "./before-after";
import { changeOf, saveProposal, type Change } from "./change";
import { Choices } from "./choices";
import { DraftPage } from "./draft-page";
import { withinTested, withParagraphs } from "./drafted-change";
import { FactorsLeaveOut } from "./leave-out-factors";
import { unitOf, type LeftOut } from "./left-out-unit";
import { ProposalFindings } from "./proposal-findings";
import type { ParagraphTexts, ProposalTold } from "./proposal-told";

/**
 * Changes of a code, judged on the tests of a study. It goes wherever a code goes:
 * `study.compare(proposal)`. Before and after are of the rows of the comparison that it came from,
 * steel as well; those of `study.propose` are of all tests of the study.
 * @example
 * const proposal = study.propose("aci318-19", { provision: "aci318-19/17.6.5", factor: 0.8, where: { bar_class: "frp" } });
 * proposal.beforeAfter("mode", "bar_material").table();
 */
export class Proposal extends Result<"changes" | "evidence"> {
  /** The code with all changes. */
  readonly changedCode: CodeDefinition;

  /** @throws Error for a change that the code cannot take */
  constructor(
    private readonly told: ProposalTold,
    private readonly found: ProposalFindings = new ProposalFindings(told),
  ) {
    super();
    const changed = applyProposals(told.code, told.proposed);
    this.changedCode =
      told.proposed.length === 0
        ? changed
        : {
            ...changed,
            title: `${shortTitle(told.code)} with ${count(told.proposed.length, "proposed change")}`,
          };
  }

  get name(): string {
    return fileName("proposal", this.code, ...this.told.proposed.map(({ id }) => id));
  }

  get code(): CodeId {
    return this.told.code.id as CodeId;
  }

  /** The changes with the tested range, and whether the tests support each. */
  get changes(): readonly Change[] {
    return this.found.evidence.map(changeOf);
  }

  /** The changes as the room of proposals knows them, with the tested range as limits. */
  get proposed(): readonly ProposedChange[] {
    const { proposed } = this.told;
    if (proposed.every(({ limits }) => limits !== undefined)) return proposed;
    return this.found.evidence.map(withinTested);
  }

  get answer(): string {
    const { proposed, code, nothing } = this.told;
    return proposed.length === 0
      ? `No change of ${shortTitle(code)}. ${nothing}`
      : `${count(proposed.length, "change")} of ${shortTitle(code)}: ${proposed.map((one) => `${changedProvisions(one).join(", ")}: ${one.says}`).join("; ")}.`;
  }

  /**
   * The same comparison with the present and the proposed code, in groups; by mode and bar material
   * where no column is named.
   * @throws Error for a column that there is not
   */
  beforeAfter(...by: readonly EvidenceColumn[]): BeforeAfter {
    const columns = by.length === 0 ? ["mode", "bar_material"] : by.map(String);
    const { setting, tests, factors, step } = this.told;
    return new BeforeAfter({
      setting,
      name: this.name,
      tests,
      change: this.found.changeBy(columns),
      basis: this.basis,
      byWords: columns.map((column) => column.replaceAll("_", " ")).join(", "),
      factors,
      step,
    });
  }

  /**
   * What the tests require of each factor without each study, series, laboratory or bar size in
   * turn, by the criterion of the change (fractile where none is stated). A factor that varies is
   * held against what it is on average in the group.
   */
  leaveOut(unit: LeftOut): FactorsLeaveOut {
    const part = unitOf(unit);
    return new FactorsLeaveOut({
      setting: this.setting,
      name: this.name,
      unit: part,
      basis: this.basis,
      found: this.found.leftOut(part),
      nothing: `Nothing to leave out: no group that a factor changes has failures of two or more values of ${unit}.`,
    });
  }

  /**
   * What the tests require of each factor under every combination of choices that a reasonable
   * analyst makes, by the criterion of the change.
   */
  choices(): Choices {
    const found = this.found.changedGroups.flatMap(({ group, factor, proposed, derivation }) =>
      factor.criterion === "reliability"
        ? []
        : [derivation.choices(group, factor.criterion, proposed)],
    );
    return new Choices(this.setting, this.name, this.basis, found);
  }

  /**
   * The researcher's words for paragraphs of the draft of one change; numbers by placeholders only.
   * @throws UnknownNameError for a provision that does not change; Error for a typed number or an
   *   unknown paragraph or placeholder
   */
  withText(provision: string, texts: ParagraphTexts): Proposal {
    const known = this.told.proposed.map((one) => changedProvisions(one)[0] ?? "");
    const id = knownName("changed provision", provision, known);
    const all = { ...this.told.texts, [id]: { ...this.told.texts?.[id], ...texts } };
    const next = new Proposal({ ...this.told, texts: all }, this.found);
    const [draft] = next.draft(id);
    checkBallotTexts(all[id], draft!);
    return next;
  }

  /**
   * Draft text and commentary of one change, or of all.
   * @throws UnknownNameError for a provision that does not change
   */
  draft(provision?: string): DraftPage {
    const all = this.proposed;
    const idOf = (one: ProposedChange): string => changedProvisions(one)[0] ?? "";
    if (provision !== undefined) knownName("changed provision", provision, all.map(idOf));
    // Several changes of one provision, such as a factor for each class, are one text.
    const clauses = [...new Set(all.map(idOf))].filter(
      (id) => provision === undefined || id === provision,
    );
    return new DraftPage(
      `Proposed changes of ${shortTitle(this.told.code)}`,
      this.setting.invented !== false,
      clauses.map((id) =>
        this.drafted(
          all.filter((one) => idOf(one) === id),
          this.told.texts?.[id] ?? {},
        ),
      ),
      this.answer,
    );
  }

  /**
   * The ballot sheet of one changed provision, or of all, in the order of the changes.
   * @throws UnknownNameError for a provision that does not change
   */
  ballot(provision?: string): Ballot {
    const { code, texts, nothing } = this.told;
    const changes = this.proposed;
    const ids = [...new Set(changes.map((one) => changedProvisions(one)[0] ?? ""))];
    if (provision !== undefined) knownName("changed provision", provision, ids);
    return new Ballot({
      setting: this.setting,
      name: this.name,
      title: `Proposed changes of ${shortTitle(code)}`,
      caution,
      pages: ids
        .filter((id) => provision === undefined || id === provision)
        .map((id) =>
          ballotPage(
            this.told,
            this.found.pairs,
            changes,
            id,
            [...this.draft(id)][0]!,
            texts?.[id],
          ),
        ),
      nothing: `No ballot sheet. ${nothing}`,
    });
  }

  /** Writes the changes as JSON, for `study.openProposal`, or the drafts: docx, html, md, tex, txt, pdf. */
  override save(path: string): Promise<string> {
    return path.toLowerCase().endsWith(".json")
      ? saveProposal(path, this.proposed)
      : this.draft().save(path);
  }

  protected get setting(): Setting {
    return this.told.setting;
  }

  protected sentences(): readonly string[] {
    return this.told.proposed.length === 0
      ? [this.answer]
      : this.changes.map(
          ({ provision, says, supported, reason }) =>
            `${provision}: ${says}. ${supported ? "Supported by the tests" : "Not supported by the tests"}: ${reason}.`,
        );
  }

  protected tableViews(): Readonly<Record<string, TableView>> {
    const title = `Proposed changes of ${shortTitle(this.told.code)}`;
    return {
      changes: {
        title,
        caption: this.answer,
        make: (text) => changesTable(this.found.evidence, text),
      },
      evidence: {
        title: `${title}: the tests behind each, ${this.basis}`,
        make: (text) => changeEvidenceTable(this.found.evidence, text),
      },
    };
  }

  private get basis(): string {
    const { code, settings, basis } = this.told;
    return basis ?? `${shortTitle(code)}, ${settings.level ?? "nominal"} level`;
  }

  private drafted(changes: readonly ProposedChange[], texts: ParagraphTexts): Draft {
    const { code, question, tests } = this.told;
    const { fractile = 0.05, confidence = 0.9 } = question;
    const draft = draftText(changes, {
      code,
      tests,
      change: this.found.changeBy(["mode", "bar_material"]),
      question: { fractile, confidence },
      caution,
    });
    return withParagraphs(draft, texts);
  }
}
