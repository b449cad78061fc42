import { Table } from "../../tables";
import type { Block, Section } from "../document/document";
import { paragraph } from "./paragraph";

/** Name of the file of a project that keeps the comments of a committee. */
export const COMMENTS_FILE = "comments.json";

/** One comment of a ballot, with what was answered and changed. */
export interface BallotComment {
  readonly comment: string;
  readonly from: string;
  /** Clause, table, figure or page that it is on. */
  readonly clause: string;
  /** Empty while it is open. */
  readonly answer: string;
  readonly change: string;
}

const FIELDS = ["comment", "from", "clause", "answer", "change"] as const;
const NEEDED: readonly string[] = ["comment", "from", "clause"];

/**
 * Reads the comments of a ballot: a JSON list of objects with `comment`, `from`, `clause`, `answer`
 * and `change`, the last two empty or absent while a comment is open.
 * @throws Error naming the comment by its place, the field, and what was expected
 * @example
 * readComments('[{"comment": "State the cure.", "from": "member 3", "clause": "17.6.5"}]')
 */
export function readComments(text: string): readonly BallotComment[] {
  let value: unknown;
  try {
    value = JSON.parse(text.replace(/^\ufeff/, ""));
  } catch {
    throw new Error(`${COMMENTS_FILE} is not valid JSON. Expected a list of comments.`);
  }
  if (!Array.isArray(value))
    throw new Error(`${COMMENTS_FILE} holds no list. Expected a list of comments.`);
  return value.map((one: unknown, k) => commentOf(one, k + 1));
}

function commentOf(value: unknown, number: number): BallotComment {
  const where = `${COMMENTS_FILE}, comment ${number}`;
  if (typeof value !== "object" || value === null || Array.isArray(value))
    throw new Error(`${where} is no object. Expected the fields ${FIELDS.join(", ")}.`);
  const given = value as Readonly<Record<string, unknown>>;
  const unknown = Object.keys(given).find((key) => !FIELDS.some((field) => field === key));
  if (unknown !== undefined)
    throw new Error(`${where} has a field "${unknown}". Expected ${FIELDS.join(", ")}.`);
  const field = (name: (typeof FIELDS)[number]): string => {
    const found = given[name] ?? "";
    if (typeof found !== "string" || (NEEDED.includes(name) && found.trim() === ""))
      throw new Error(
        `${where}, ${name}: ${JSON.stringify(given[name] ?? null)} is not usable. Expected a text.`,
      );
    return found;
  };
  return {
    comment: field("comment"),
    from: field("from"),
    clause: field("clause"),
    answer: field("answer"),
    change: field("change"),
  };
}

/** The record of comments, open ones first counted, in the order of the file. */
export function commentsSection(comments: readonly BallotComment[]): Section {
  const open = comments.filter(({ answer }) => answer === "").length;
  return {
    id: "comments",
    title: "Record of comments",
    blocks:
      comments.length === 0
        ? [paragraph(`No comment is on file (${COMMENTS_FILE} in the project).`)]
        : [
            paragraph(
              `${comments.length} ${comments.length === 1 ? "comment is" : "comments are"} on file, ${open} of them not yet answered.`,
            ),
            { kind: "table", table: commentsTable(comments) } satisfies Block,
          ],
  };
}

function commentsTable(comments: readonly BallotComment[]): Table {
  return new Table({
    id: "comments",
    title: "Comments, answers and changes",
    rowKey: ["number"],
    columns: [
      { key: "number", title: "no.", kind: "integer" },
      { key: "from", title: "from", kind: "text" },
      { key: "clause", title: "on", kind: "text" },
      { key: "comment", title: "comment", kind: "text" },
      { key: "answer", title: "answer", kind: "text" },
      { key: "change", title: "change", kind: "text" },
    ],
    rows: comments.map(({ answer, ...one }, k) => ({
      number: k + 1,
      ...one,
      answer: answer === "" ? "open" : answer,
    })),
  });
}
