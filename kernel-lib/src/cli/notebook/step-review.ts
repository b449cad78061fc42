import { createInterface } from "node:readline";
import { OPINION_WORDS } from "../../notebook";
import type { CellComment, CellReview, ReviewOptions, ReviewSession } from "../../notebook";
import type { ReviewDrafts } from "./review-drafts";
import { besideLines, differenceLines, reviewLine } from "./print-review";

const SHORT_HELP =
  "n next, t N run to cell N, d differences, b recorded beside rerun, v variable, r remark, q quit, h help";
const HELP = [
  "  n            run the next cell (also an empty line)",
  "  t N          run on to cell N",
  "  d            list the differences of this cell",
  "  b            recorded beside rerun, all lines",
  "  c            the code of this cell",
  "  v EXPRESSION print a variable, such as: v ratios   v rows[0].ratio   v rows.length",
  "  r TEXT       enter a remark on this cell (r alone prints it)",
  "  a            agree with this cell",
  "  !            question this cell",
  "  q            end the review here",
  "  Ctrl-C       while a cell runs: stop that cell; else: end the review",
];

/** Lines shown beside each other without being asked for. */
const FIRST_LINES = 40;

/** The terminal that a reviewer steps in. */
export interface StepTerminal {
  readonly input: NodeJS.ReadableStream;
  readonly print: (line: string) => void;
  readonly width: number;
}

export interface Stepping extends Required<Pick<ReviewOptions, "beforeCell" | "afterCell">> {
  /** Ctrl-C: stops the running cell, or ends the review when none is running. */
  readonly interrupt: () => void;
  /** True once the reviewer has ended the review. */
  readonly ended: () => boolean;
  readonly close: () => void;
}

/** Hooks for `reviewNotebook` that stop after each cell and ask what to do. */
export function stepThrough(terminal: StepTerminal, drafts?: () => ReviewDrafts): Stepping {
  const lines = createInterface({ input: terminal.input });
  const waiting = lines[Symbol.asyncIterator]();
  let runTo = 0;
  let quit = false;
  let current: ReviewSession | undefined;

  const ask = async (): Promise<[string, string]> => {
    terminal.print(SHORT_HELP);
    const given = await waiting.next();
    // The end of the input ends the review: nobody is there to go on.
    return given.done || quit ? ["q", ""] : splitCommand(given.value);
  };
  const afterCell = async (
    cell: CellReview,
    cellCount: number,
    session: ReviewSession,
  ): Promise<void> => {
    terminal.print(reviewLine(cell, cellCount));
    Object.assign(cell, said(drafts?.().of(session.name, session.hash).get(cell.number)));
    if (cell.number < runTo && cell.number < cellCount) return;
    for (const line of besideLines(cell, terminal.width, FIRST_LINES)) terminal.print(line);
    for (;;) {
      const [command, rest] = await ask();
      if (command === "n" || command === "") return;
      if (command === "q") return void (quit = true);
      const to = command === "t" ? readTarget(rest, cell.number, cellCount) : undefined;
      if (typeof to === "number") return void (runTo = to);
      for (const line of to ?? (await answer(command, rest, cell, session, terminal.width)))
        terminal.print(line);
      if (["r", "a", "!"].includes(command))
        await drafts?.().save(session.name, session.hash, cell.number, cell);
    }
  };
  const beforeCell: Stepping["beforeCell"] = async ({ number, title }, session) => {
    if (session !== current) runTo = 0;
    current = session;
    if (!quit) terminal.print(`  running cell ${number}: ${title}`);
    return !quit;
  };
  const interrupt = (): void => {
    if (current?.stop()) return;
    quit = true;
    lines.close();
  };
  return { afterCell, beforeCell, interrupt, ended: () => quit, close: () => lines.close() };
}

/** A comment without its empty parts. */
function said({ remark, opinion }: CellComment = {}): CellComment {
  return { ...(remark ? { remark } : {}), ...(opinion ? { opinion } : {}) };
}

function splitCommand(line: string): [string, string] {
  const [, command = "", rest = ""] = /^\s*(\S*)\s*(.*?)\s*$/.exec(line) ?? [];
  return [command, rest];
}

function readTarget(text: string, number: number, cellCount: number): number | string[] {
  const to = Number(text);
  if (Number.isInteger(to) && to > number && to <= cellCount) return to;
  return [
    number === cellCount
      ? "this is the last cell"
      : `t ${text}: invalid. Use a cell from ${number + 1} to ${cellCount}.`,
  ];
}

async function answer(
  command: string,
  rest: string,
  cell: CellReview,
  session: ReviewSession,
  width: number,
): Promise<string[]> {
  switch (command) {
    case "d":
      return differenceLines(cell);
    case "b":
      return besideLines(cell, width);
    case "c":
      return cell.source.split("\n").map((line) => `  ${line}`);
    case "v":
      return (await session.evaluate(rest)).split("\n");
    case "r":
      if (rest !== "") cell.remark = rest;
      return [
        cell.remark ? `  remark: ${cell.remark}` : "  no remark. To enter one: r Typed in by hand?",
      ];
    case "a":
    case "!":
      cell.opinion = command === "a" ? "agree" : "question";
      return [`  cell ${cell.number} ${OPINION_WORDS[cell.opinion]}`];
    case "h":
    case "?":
      return HELP;
    default:
      return [`unknown command: ${command} (h for help)`];
  }
}
