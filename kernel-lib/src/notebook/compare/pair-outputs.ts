import { wholeText } from "../format";
import type { CellOutput } from "../format";
import { align } from "./align";

/** A recorded output and the one of the rerun that stands in its place. */
export type OutputPair = readonly [CellOutput | undefined, CellOutput | undefined];

/**
 * Pairs the outputs of two runs of a cell by kind and order; an output more or less stands alone.
 */
export function pairOutputs(
  recorded: readonly CellOutput[],
  rerun: readonly CellOutput[],
): OutputPair[] {
  const [before, after] = [mergeStreams(recorded), mergeStreams(rerun)];
  return align(before.map(kindOf), after.map(kindOf)).map(([a, b]) => [
    a === undefined ? undefined : before[a],
    b === undefined ? undefined : after[b],
  ]);
}

/** An output in a few words, for a line of text. */
export function describeOutput(output: CellOutput): string {
  switch (output.output_type) {
    case "stream":
      return `${output.name}: ${wholeText(output.text).slice(0, 80).trim()}`;
    case "error":
      return `error ${output.ename}: ${output.evalue}`;
    case "display_data":
    case "execute_result":
      return Object.keys(output.data).sort().join(", ");
  }
}

function kindOf(output: CellOutput): string {
  if (output.output_type === "stream") return `stream ${output.name}`;
  return "data" in output
    ? `${output.output_type} ${Object.keys(output.data).sort().join()}`
    : output.output_type;
}

/** Jupyter may store one text as several neighbouring streams. */
function mergeStreams(outputs: readonly CellOutput[]): CellOutput[] {
  const merged: CellOutput[] = [];
  for (const output of outputs) {
    const last = merged[merged.length - 1];
    if (
      output.output_type === "stream" &&
      last?.output_type === "stream" &&
      last.name === output.name
    ) {
      merged[merged.length - 1] = { ...last, text: wholeText(last.text) + wholeText(output.text) };
    } else {
      merged.push(output);
    }
  }
  return merged;
}
