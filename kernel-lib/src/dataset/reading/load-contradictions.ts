/** A cell that contradicts another of its row. */
export interface LoadContradiction {
  readonly column: string;
  /** The cell as a finding shows it; empty for a blank. */
  readonly cell: string;
  /** Sentence part after the value. */
  readonly fault: string;
  readonly expected: string;
}

/**
 * What contradicts what among action, set-up and load angle: a test with tension and shear needs an
 * angle between the two and the arrangement `combined_loading`; a test with one load has neither.
 * Such rows are rejected, since no reader could say which cell is wrong.
 * @param angle load_angle_deg, NaN where blank
 * @example loadContradictions("tension", "unconfined_tension", 30)[0]?.column // "load_angle_deg"
 */
export function loadContradictions(
  action: string | null,
  setup: string | null,
  angle: number,
): LoadContradiction[] {
  const both = action === "tension_and_shear";
  const found: LoadContradiction[] = [];
  const say = (column: string, cell: string, fault: string, expected: string): void =>
    void found.push({ column, cell, fault, expected });
  if (both && Number.isNaN(angle))
    say(
      "load_angle_deg",
      "",
      "is blank for a test with tension and shear",
      "the angle of the resultant from the bar axis, above 0 and below 90 deg",
    );
  else if (both && (angle === 0 || angle === 90))
    say(
      "load_angle_deg",
      String(angle),
      `is ${angle === 0 ? "tension" : "shear"} alone`,
      `an angle above 0 and below 90 deg, or action ${angle === 0 ? "tension" : "shear"}`,
    );
  else if (!both && !Number.isNaN(angle) && angle !== (action === "shear" ? 90 : 0))
    say(
      "load_angle_deg",
      String(angle),
      `contradicts action ${action ?? "(blank)"}`,
      `a blank, or action tension_and_shear with set-up combined_loading`,
    );
  if (both !== (setup === "combined_loading") && action !== null && setup !== null)
    say(
      "setup",
      setup,
      `contradicts action ${action}`,
      both ? "combined_loading" : "the set-up of a test with one load, or action tension_and_shear",
    );
  return found;
}
