import { createInterface } from "node:readline";
import { wholeText } from "../../notebook";
import type { CellReview, CellSession, ReviewOptions } from "../../notebook";
import { besideLines, differenceLines, reviewLine } from "./print-review";

const HELP = "n next, t N run to cell N, d differences, v NAME look at a variable, r TEXT note a remark, q quit";

/** The terminal that a reviewer steps in. */
export interface StepTerminal {
  readonly input: NodeJS.ReadableStream;
  readonly print: (line: string) => void;
  readonly width: number;
}

/** Hooks for `reviewNotebook` that stop after each cell and ask what to do. */
export function stepThrough(terminal: StepTerminal): Required<Pick<ReviewOptions, "beforeCell" | "afterCell">> & { close: () => void } {
  const lines = createInterface({ input: terminal.input });
  const waiting = lines[Symbol.asyncIterator]();
  let runTo = 0;
  let quit = false;

  const afterCell = async (cell: CellReview, cellCount: number, session: CellSession): Promise<void> => {
    terminal.print(reviewLine(cell, cellCount));
    if (cell.number < runTo) return;
    for (const line of besideLines(cell, terminal.width)) terminal.print(line);
    for (;;) {
      terminal.print(HELP);
      const given = await waiting.next();
      const [command = "", rest = ""] = given.done ? ["q"] : splitCommand(given.value);
      if (command === "n" || command === "") return;
      if (command === "t" && Number(rest) > cell.number) return void (runTo = Number(rest));
      if (command === "d") differenceLines(cell).forEach(terminal.print);
      else if (command === "v") terminal.print(await lookAt(session, rest));
      else if (command === "r") cell.remark = rest;
      else if (command === "q") return void (quit = true);
      else terminal.print(`not understood: ${given.done ? "" : given.value}`);
    }
  };
  return { afterCell, beforeCell: async () => !quit, close: () => lines.close() };
}

function splitCommand(line: string): [string, string] {
  const [, command = "", rest = ""] = /^\s*(\S*)\s*(.*?)\s*$/.exec(line) ?? [];
  return [command, rest];
}

/** A variable's value as the kernel shows it. Only a name is taken, so that looking changes nothing. */
async function lookAt(session: CellSession, name: string): Promise<string> {
  if (!/^[\p{L}_$][\p{L}\p{N}_$]*(?:\.[\p{L}_$][\p{L}\p{N}_$]*|\[\d+\])*$/u.test(name)) return "give a name, such as: v ratios or v rows[0].ratio";
  if (!session.alive) return "the kernel has ended";
  let shown = "(nothing: undefined or null)";
  const reply = await session.kernel.execute(
    name,
    ({ type, content }) => {
      const text = (content["data"] as Record<string, unknown> | undefined)?.["text/plain"];
      if (type === "execute_result" && typeof text === "string") shown = wholeText(text);
    },
    false,
  );
  return reply["status"] === "ok" ? shown : `${String(reply["ename"])}: ${String(reply["evalue"])}`;
}
