import type { BondSlipCurve } from "./bond-slip";
import type { FittedParameter } from "./curve-fit";
import type { BondSlipFit } from "./fit-bond-slip";

/** Parameters of a fitted law that a record does not settle, why not, and what to do about it. */
export interface UnsettledParameters {
  readonly names: ReadonlyArray<string>;
  readonly why: string;
  readonly instead: string;
}

/** Whether a parameter's interval says anything: above 0, and its ends within a factor of 100. */
export function isSettled({ low, high }: FittedParameter): boolean {
  return low > 0 && high < 100 * low;
}

/**
 * What a fit leaves open, in words; null where every parameter is settled. The readings then agree
 * equally well with values that differ by orders of magnitude, and a number printed for them would
 * be chance.
 *
 * - CMR, tau = tau1 (1 - exp(-s / sr))^beta: where s stays well below sr this is tau1 (s /
 *   sr)^beta, in which tau1 and sr only come together.
 * - BPE: where the plateau is shorter than the readings are apart, its ends and the height between
 *   them trade off.
 * @example unsettledParameters(fitBondSlip(bond, "cmr"), bond)?.why
 */
export function unsettledParameters(
  fit: BondSlipFit,
  { slip_mm, bond_stress_MPa }: BondSlipCurve,
): UnsettledParameters | null {
  const names = fit.parameters.filter((one) => !isSettled(one)).map(({ name }) => name);
  if (names.length === 0) return null;
  const value = (name: string): number =>
    fit.parameters.find((one) => one.name === name)?.value ?? NaN;
  const top = bond_stress_MPa.indexOf(bond_stress_MPa.reduce((a, b) => Math.max(a, b), -Infinity));
  const [slipAtPeak, last] = [slip_mm[top] ?? NaN, slip_mm[slip_mm.length - 1] ?? NaN];
  if (fit.law === "cmr" && value("sr") > 3 * slipAtPeak) {
    return {
      names,
      why: "up to its peak the record is a plain power of the slip, in which tau1 and sr only come together",
      instead:
        "take beta from here and tau1 from the modified BPE, or a record that flattens before its peak",
    };
  }
  const apart = slipAtPeak / Math.max(1, top);
  if (fit.law === "bpe" && value("plateau") < 2 * apart) {
    return {
      names,
      why: `the record has no plateau (shorter than two readings, ${(2 * apart).toPrecision(2)} mm), so its ends and its height trade off`,
      instead: "use the modified BPE, which has none",
    };
  }
  if (
    fit.law !== "cmr" &&
    (names.includes("tau3") || names.includes("descent") || names.includes("p"))
  ) {
    return {
      names,
      why: `the record ends at ${last.toPrecision(3)} mm, before the branch behind the peak is over`,
      instead: "record to a larger slip, or fit the ascent alone (CMR)",
    };
  }
  return {
    names,
    why: "the readings agree equally well with very different values",
    instead: "fit a law with fewer parameters, or record more readings where the curve bends",
  };
}
