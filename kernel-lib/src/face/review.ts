import { existsSync, readdirSync } from "node:fs";
import { join, resolve } from "node:path";
import type { ReadSignOff, ReviewRecord, SignOffOpinion } from "../notebook/record";
import { Table, type TableText } from "../tables";
import { projectRoot } from "./project";
import { Findings } from "./results/findings";
import { count, knownName } from "./results/names";
import { Result, type Setting, type TableView } from "./results/result";

/** Checking a record and signing load the room of notebooks: when they are asked for. */
function record(): Promise<typeof import("../notebook/record")> {
  return import("../notebook/record/index.js");
}

/** What a reviewer says of the whole. */
export interface Signature {
  readonly name: string;
  readonly opinion: SignOffOpinion;
  /** Needed unless the opinion is "agree". */
  readonly remark?: string;
}

/** A review on disk, and what no longer fits it. */
export interface OpenedReview {
  readonly folder: string;
  readonly record: ReviewRecord;
  readonly problems: readonly string[];
  readonly signOffs: readonly ReadSignOff[];
}

/**
 * The record of a review of notebooks, as `code-comparison review --sign` wrote it: the verdict on
 * each cell, whether it still fits what is here, and who signed.
 * @example
 * const review = await openReview(); show(review.table("cells"), review.check());
 */
export class Review extends Result<"cells"> {
  constructor(
    protected readonly setting: Setting,
    private readonly opened: OpenedReview,
  ) {
    super();
  }

  get name(): string {
    return "review";
  }

  get answer(): string {
    const { record: of, problems, signOffs } = this.opened;
    const cells = of.notebooks.flatMap((notebook) => notebook.cells);
    const same = cells.filter(({ verdict }) => SAME.includes(verdict)).length;
    const says = signOffs
      .filter(({ holds }) => holds)
      .map(({ signOff }) => `${signOff.name}: ${signOff.opinion}`);
    return `Reviewed by ${of.reviewer}, ${of.signed.slice(0, 10)}: ${same} of ${count(cells.length, "cell")} of ${count(of.notebooks.length, "notebook")} reproduced; ${problems.length === 0 ? "the record matches the present files" : `${count(problems.length, "item")} no longer match the record`}; ${says.length === 0 ? "no sign-off" : `signed off by ${says.join("; ")}`}.`;
  }

  /**
   * Whether the record still speaks of the notebooks, data and library that are here, and whether
   * the sign-offs still speak of the record.
   */
  check(): Findings {
    const { record: of, problems, signOffs } = this.opened;
    const found = [
      ...problems,
      ...(of.reproduced ? [] : ["The review did not reproduce every cell."]),
      ...signOffs
        .filter(({ holds }) => !holds)
        .map(({ signOff }) => `The record has changed since ${signOff.name} signed it.`),
    ];
    return new Findings(
      found.length === 0
        ? ["The record is valid: notebooks, data and library are unchanged since it was signed."]
        : found,
    );
  }

  /**
   * Signs the review: writes a file beside the record with name, opinion, remark, time, the hash of
   * the record and what did not fit at that time. A later change of the record makes it void.
   * @returns the path of the file
   * @throws UnknownNameError for another opinion, NotebookProblem without a name or a needed remark
   */
  async sign({ name, opinion, remark = "" }: Signature): Promise<string> {
    const { SIGN_OFF_OPINIONS, writeSignOff } = await record();
    knownName("opinion", opinion, SIGN_OFF_OPINIONS);
    const open = [...this.opened.problems];
    return writeSignOff(this.opened.folder, { name, opinion, remark, open });
  }

  protected sentences(): readonly string[] {
    const said = this.opened.signOffs.map(
      ({ signOff: { name, opinion, remark, signed } }) =>
        `${name}, ${signed.slice(0, 10)}: ${opinion}${remark === "" ? "" : `. ${remark}`}.`,
    );
    return [this.answer, ...said];
  }

  protected tableViews(): Readonly<Record<"cells", TableView>> {
    return {
      cells: {
        title: "Cells reviewed",
        caption: this.answer,
        make: (text) => cellsTable(this.opened.record, text),
      },
    };
  }
}

const SAME: readonly string[] = ["same", "within_tolerance"];

function cellsTable({ notebooks }: ReviewRecord, text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["notebook", "cell"],
    columns: [
      { key: "notebook", title: "notebook", kind: "text" },
      { key: "cell", title: "cell", kind: "integer" },
      { key: "result", title: "result", kind: "text" },
      { key: "difference", title: "largest relative difference", kind: "number", limit: null },
      { key: "explanation", title: "explanation", kind: "text" },
      { key: "opinion", title: "opinion", kind: "text" },
      { key: "remark", title: "remark", kind: "text" },
    ],
    rows: notebooks.flatMap(({ name, cells }) =>
      cells.map((cell) => ({
        notebook: name,
        cell: cell.number,
        result: cell.verdict.replaceAll("_", " "),
        difference: cell.largest_relative_difference,
        explanation: cell.explanation,
        opinion: cell.opinion === "" ? null : cell.opinion,
        remark: cell.remark === "" ? null : cell.remark,
      })),
    ),
  });
}

/**
 * Opens the record of a review and compares it with the notebooks, data and library of the project.
 * @param folder from the project's folder; default `exports/review`
 * @throws NotebookProblem where the folder holds no record, or one that cannot be read
 * @example (await openReview()).table("cells")
 */
export async function openReview(
  folder: string = join("exports", "review"),
  options: { readonly keep?: "shown" | "none" } = {},
): Promise<Review> {
  const root = projectRoot();
  const path = resolve(root, folder);
  const { checkReviewRecord, readReviewRecord, readSignOffs, REVIEW_RECORD_FILE } = await record();
  const read = await readReviewRecord(join(path, REVIEW_RECORD_FILE));
  const notebooks = join(root, "notebooks");
  const files = (existsSync(notebooks) ? readdirSync(notebooks) : [])
    .filter((name) => name.endsWith(".ipynb"))
    .sort()
    .map((name) => join(notebooks, name));
  return new Review(
    { keeps: options.keep !== "none", invented: false, seed: 1 },
    {
      folder: path,
      record: read,
      problems: await checkReviewRecord(read, files, ["datasets"]),
      signOffs: await readSignOffs(path),
    },
  );
}
