import { NotebookProblem } from "../format";

/** Reads a choice of cells such as `3-7`, `4` or `2,5-6,9-` against the number of code cells. */
export function selectCells(choice: string, count: number): Set<number> {
  const chosen = new Set<number>();
  for (const part of choice.split(",")) {
    const [, first, dash, last] = /^\s*(\d+)\s*(-?)\s*(\d*)\s*$/.exec(part) ?? [];
    if (first === undefined) {
      throw new NotebookProblem(
        `--only ${choice}: ${JSON.stringify(part)} is not a cell number; expected such as 3, 3-7 or 2,5-6`,
      );
    }
    const from = Number(first);
    const to = dash === "" ? from : last === "" ? count : Number(last);
    if (from < 1 || to < from || to > count) {
      throw new NotebookProblem(
        `--only ${choice}: ${part.trim()} lies outside the notebook's code cells 1 to ${count}`,
      );
    }
    for (let number = from; number <= to; number++) chosen.add(number);
  }
  return chosen;
}
