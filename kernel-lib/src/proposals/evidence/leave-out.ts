import { characteristicOfTests, USUAL_CHOICES, type EvidenceTest, type FactorChoices } from "./characteristic-of-tests";

/** The factor without one study, series or size. */
export interface LeftOut {
  readonly by: "study" | "series" | "size";
  readonly left: string | number;
  /** Tests left out and tests that remain. */
  readonly nLeft: number;
  readonly n: number;
  readonly factor: number | null;
  /** Factor without it over the factor with it: below 1, the proposal leans on it. */
  readonly influence: number | null;
  /** Whether the proposed factor is still not above the factor then found; null where none is found. */
  readonly survives: boolean | null;
  readonly reason: string;
}

/**
 * The factor derived again without each study, each series or each size: how much it leans on any of them, and whether
 * the proposed factor would survive. Nothing where there is only one.
 * @example leaveOneOut(tests, "study", 0.8)
 */
export function leaveOneOut(tests: readonly EvidenceTest[], by: LeftOut["by"], proposed: number, choices: FactorChoices = USUAL_CHOICES): LeftOut[] {
  const names = [...new Set(tests.map((one) => one[by]))].sort((a, b) => String(a).localeCompare(String(b), "en", { numeric: true }));
  if (names.length < 2) return [];
  const whole = characteristicOfTests(tests, choices).factor;
  return names.map((left) => {
    const rest = tests.filter((one) => one[by] !== left);
    const { factor, reason } = characteristicOfTests(rest, choices);
    return {
      by, left, nLeft: tests.length - rest.length, n: rest.length, factor, reason,
      influence: factor === null || whole === null ? null : factor / whole,
      survives: factor === null ? null : proposed <= factor + 1e-12,
    };
  });
}
