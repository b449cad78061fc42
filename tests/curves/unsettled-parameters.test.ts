import { describe, expect, it } from "vitest";
import { fitBondSlip, isSettled, unsettledParameters } from "../../kernel-lib/src/curves";
import { bpeStress, cmrStress, modifiedBpeStress } from "../../kernel-lib/src/dataset";
import { createRandom } from "../../kernel-lib/src/statistics/random";

const random = createRandom("unsettled");
const slip = (last: number, n: number): Float64Array =>
  Float64Array.from({ length: n }, (_, i) => (last * i) / (n - 1));
const noisy = (slips: Float64Array, law: (s: number) => number) => ({
  slip_mm: slips,
  bond_stress_MPa: slips.map((s) => (s === 0 ? 0 : law(s) + 0.02 * random.normal())),
});

describe("what a fit leaves open", () => {
  it("an ascent that is a plain power settles beta alone: tau1 and sr only come together", () => {
    const bond = noisy(slip(1, 60), (s) => 15 * s ** 0.4);
    const fit = fitBondSlip(bond, "cmr");
    expect(fit.parameters.find(({ name }) => name === "beta")?.value).toBeCloseTo(0.4, 1);
    // As such a fit comes out: sr far beyond the record, with ends orders of magnitude apart.
    const wide = {
      tau1: { value: 153, low: 10, high: 2300 },
      sr: { value: 333, low: 3, high: 33_000 },
    };
    const open = unsettledParameters(
      {
        ...fit,
        parameters: fit.parameters.map((one) => ({
          ...one,
          ...(one.name === "beta" ? {} : wide[one.name as "sr"]),
        })),
      },
      bond,
    );
    expect(open?.names).toEqual(["tau1", "sr"]);
    expect(open?.why).toContain("plain power of the slip");
  });
  it("an ascent that flattens before its peak settles all three", () => {
    const bond = noisy(slip(2, 80), (s) => cmrStress(s, { tau1: 18, sr: 0.4, beta: 0.5 }));
    expect(unsettledParameters(fitBondSlip(bond, "cmr"), bond)).toBeNull();
  });
  it("a record without a plateau leaves the plateau open with that reason, and the law that has none is settled by it", () => {
    const bond = noisy(slip(6, 200), (s) =>
      modifiedBpeStress(s, { tau1: 18, s1: 1, alpha: 0.4, p: 0.15, tau3: 8 }),
    );
    const fit = fitBondSlip(bond, "bpe");
    // As a fit to such a record comes out: a plateau of less than a reading, with an interval of
    // several powers of ten.
    const open = unsettledParameters(
      {
        ...fit,
        parameters: fit.parameters.map((one) =>
          one.name === "plateau" ? { ...one, value: 0.013, low: 0.00017, high: 0.95 } : one,
        ),
      },
      bond,
    );
    expect(open).toMatchObject({
      names: ["plateau"],
      instead: "use the modified BPE, which has none",
    });
    expect(open?.why).toContain("the record has no plateau");
    expect(unsettledParameters(fitBondSlip(bond, "modified_bpe"), bond)).toBeNull();
  });
  it("an interval counts as one up to a factor of 100", () => {
    expect(
      [
        { low: 1, high: 99 },
        { low: 1, high: 101 },
        { low: 0, high: 1 },
        { low: 1, high: Infinity },
      ].map((ends) => isSettled({ name: "p", value: 1, ...ends })),
    ).toEqual([true, false, false, false]);
  });
  it("a record with a plateau settles the plateau", () => {
    const bond = noisy(slip(8, 200), (s) =>
      bpeStress(s, { tau1: 18, s1: 1, s2: 2, s3: 4, tau3: 8, alpha: 0.4 }),
    );
    expect(unsettledParameters(fitBondSlip(bond, "bpe"), bond)).toBeNull();
  });
});
