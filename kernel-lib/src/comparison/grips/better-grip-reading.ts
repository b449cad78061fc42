import { counted, significant } from "../../statistics/reading";
import { valueWords } from "../labels";
import type { BrokenTest, ModeShown } from "./better-grip-result";

/** A count to one decimal: an expected number of tests is no more precise. */
function expectedText(expected: number): string {
  return expected > 0 && expected < 0.05 ? "below 0.1" : expected.toFixed(1);
}

/** Predicted results with a better grip, in two sentences. */
export function readingOf(
  broken: number,
  found: readonly BrokenTest[],
  modes: readonly ModeShown[],
): string {
  if (broken === 0) return "No bar broke in its grip.";
  const head = `${counted(broken, "bar")} broke in the grip`;
  if (found.length === 0) return `${head}; none can be predicted with a better grip.`;
  const parts = modes.map(({ mode, expected }) => `${expectedText(expected)} ${valueWords(mode)}`);
  const gains = found.map(({ median_kN, peak_kN }) => median_kN / peak_kN).sort((a, b) => a - b);
  const middle = gains[Math.floor(gains.length / 2)]!;
  return (
    `${head}; ${found.length} can be predicted. Expected with a grip that does not break the bar: ` +
    `${parts.join(", ")}; final load ${significant(middle)} times the load reached (median).`
  );
}
