import { valueWords, type ModeTable } from "../comparison";
import type { ModeMapInput } from "./mode-map";

/** A table of observed by predicted modes in the words of `modeMap`. */
export function modeMapOf(table: ModeTable): Pick<ModeTable, "observed" | "predicted" | "counts"> {
  return {
    observed: table.observed.map(valueWords),
    predicted: table.predicted.map(valueWords),
    counts: table.counts,
  };
}

/**
 * Tables of several codes below one another in the words of `modeMap`: the rows name the code, the
 * columns are the modes that any of them predicts.
 */
export function modeMapsOf(
  parts: readonly { readonly label: string; readonly table: ModeTable }[],
): Pick<ModeMapInput, "observed" | "rows" | "predicted" | "counts"> {
  const all = new Set(parts.flatMap(({ table }) => table.predicted));
  const last = ["none", "not judged"].filter((word) => all.has(word));
  const told = [...[...all].filter((mode) => !last.includes(mode)).sort(), ...last];
  const observed = parts.flatMap(({ table }) => table.observed.map(valueWords));
  return {
    observed,
    rows: parts.flatMap(({ label, table }) =>
      table.observed.map((mode) => `${label}: ${valueWords(mode)}`),
    ),
    predicted: told.map(valueWords),
    counts: parts.flatMap(({ table: { predicted, counts } }) =>
      counts.map((row) => told.map((mode) => row[predicted.indexOf(mode)] ?? 0)),
    ),
  };
}
