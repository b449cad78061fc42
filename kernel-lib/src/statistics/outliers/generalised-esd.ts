import { studentT } from "../distributions/student-t";
import { counted, significant } from "../reading";
import type { Account, NotEstimable } from "../result";
import { notEstimable, cleanSample } from "../result";
import { isNoSpread, mean, standardDeviation } from "../sample/moments";

/** One step of the generalised ESD test. */
export interface EsdStep {
  /** The farthest value of those left, and its place in the list given. */
  suspect: number;
  index: number;
  /** Its distance from the mean of those left, in their SDs. */
  r: number;
  critical: number;
}

/** Outcome of the generalised ESD test: flags, never removals. */
export interface EsdTest extends Account {
  status: "ok";
  steps: readonly EsdStep[];
  /** The values flagged: all up to the last step whose r exceeds its critical value. */
  flagged: readonly EsdStep[];
}

/**
 * Generalised extreme studentised deviate test for up to `most` outliers (Rosner, Technometrics 25,
 * 1983), which is not blinded by outliers that hide each other. Rosner's critical values are
 * accurate for n ≥ 25, fair from 15.
 */
export function generalisedEsd(
  values: ArrayLike<number>,
  options: { most?: number; level?: number } = {},
): EsdTest | NotEstimable {
  const method = "Generalised ESD test";
  const { level = 0.05 } = options;
  const { values: x, excluded } = cleanSample(values, "generalisedEsd");
  const n = x.length;
  const most = options.most ?? Math.max(1, Math.floor(n / 5));
  if (!Number.isInteger(most) || most < 1)
    throw new RangeError(`generalisedEsd: most is ${most}, expected a whole number of at least 1`);
  if (n < most + 3)
    return notEstimable(
      method,
      "too few values",
      `at least ${most + 3} to look for ${most} (25 to be accurate)`,
      n,
      excluded,
    );
  if (isNoSpread(standardDeviation(x), mean(x)))
    return notEstimable(method, "no spread", "values that differ", n, excluded);
  const left = Array.from(values, (value, index) => ({ value, index })).filter(
    ({ value }) => !Number.isNaN(value),
  );
  const steps: EsdStep[] = [];
  for (let i = 1; i <= most; i++) {
    const current = left.map(({ value }) => value);
    const centre = mean(current);
    const sd = standardDeviation(current);
    if (isNoSpread(sd, centre)) break;
    const far = left.reduce((a, b) =>
      Math.abs(b.value - centre) > Math.abs(a.value - centre) ? b : a,
    );
    const freedom = n - i - 1;
    const t = studentT(freedom).upperQuantile(level / (2 * (n - i + 1)));
    steps.push({
      suspect: far.value,
      index: far.index,
      r: Math.abs(far.value - centre) / sd,
      critical: ((n - i) * t) / Math.sqrt((freedom + t * t) * (n - i + 1)),
    });
    left.splice(left.indexOf(far), 1);
  }
  const last = steps.reduce((found, step, i) => (step.r > step.critical ? i + 1 : found), 0);
  const flagged = steps.slice(0, last);
  return {
    status: "ok",
    method,
    steps,
    flagged,
    n,
    excluded,
    assumptions: ["all other values of one normal population", `at most ${most} outliers`],
    reading:
      last > 0
        ? `${counted(last, "value")} flagged (${flagged.map((step) => significant(step.suspect, 4)).join(", ")}) as outliers from a normal distribution: look for physical causes; no value is removed.`
        : `No outlier was found among ${n} values with up to ${most} suspected${n < 15 ? "; with so few values the test is approximate" : ""}.`,
  };
}
