import { describe, expect, it } from "vitest";
import { characteristicOfTests, factorSurvival, leaveOneOut, reasonableChoices, USUAL_CHOICES, type EvidenceTest, type FactorChoices } from "../../../kernel-lib/src/proposals/evidence";
import { createRandom } from "../../../kernel-lib/src/statistics";

const INDEPENDENT: FactorChoices = { ...USUAL_CHOICES, basis: "tests" };
const random = createRandom("evidence of a factor");
const tests: EvidenceTest[] = ["A", "B", "C"].flatMap((study) => [10, 16, 20].flatMap((size) => Array.from({ length: 4 }, () => ({
  study, size, series: `${study}${size}`, bound: false, ratio: (study === "C" ? 1.3 : 1) * Math.exp(0.08 * random.normal()),
}))));

describe("characteristicOfTests", () => {
  it("is mean less k times SD; k 3.400 for n = 5 is the exact factor of NIST and ISO 16269-6 (from memory)", () => {
    const five = [42, 45, 51, 47, 44].map((ratio) => ({ ratio, bound: false, study: "A", series: "A", size: 10 }));
    // R: mean(x) - qt(.9, 4, qnorm(.95) * sqrt(5)) / sqrt(5) * sd(x), x <- c(42, 45, 51, 47, 44); the factor is 3.399834
    expect(characteristicOfTests(five, INDEPENDENT).factor).toBeCloseTo(45.8 - 3.399834 * 3.420526, 3);
    // Counted by series, tests of one series tell nothing of others, and one test a series is the ordinary factor.
    expect(characteristicOfTests(five).factor).toBeNull();
    expect(characteristicOfTests(five).reason).toContain("at least 3 series");
    expect(characteristicOfTests(five.map((one, i) => ({ ...one, series: String(i) }))).factor).toBeCloseTo(45.8 - 3.399834 * 3.420526, 3);
  });
  it("lower bounds taken as failures, or left out, are other numbers than as bounds; two failures give none", () => {
    const some = tests.slice(0, 12).map((one, i) => ({ ...one, bound: i % 4 === 0 }));
    const of = (choices: FactorChoices, bounds: FactorChoices["bounds"]): number => characteristicOfTests(some, { ...choices, bounds }).factor ?? NaN;
    for (const choices of [USUAL_CHOICES, INDEPENDENT]) expect(new Set([of(choices, "as lower bounds"), of(choices, "as failures"), of(choices, "left out")]).size).toBe(3);
    expect(characteristicOfTests(some.map((one, i) => ({ ...one, bound: i > 1 })), INDEPENDENT).reason).toContain("2 tests failed in the mode");
  });
});

describe("leaveOneOut", () => {
  it("equals the derivation on the rest, for studies, series and sizes", () => {
    for (const by of ["study", "series", "size"] as const) {
      const found = leaveOneOut(tests, by, 0.8);
      expect(found.length).toBe(by === "series" ? 9 : 3);
      for (const { left, factor, n, nLeft } of found) {
        expect(factor).toBe(characteristicOfTests(tests.filter((one) => one[by] !== left)).factor);
        expect(n + nLeft).toBe(tests.length);
      }
    }
  });
  it("shows the study that is apart", () => {
    const found = leaveOneOut(tests, "study", 0.75);
    expect(found.reduce((a, b) => ((b.influence ?? 0) > (a.influence ?? 0) ? b : a)).left).toBe("C");
  });
  it("has nothing to leave out of one study", () => {
    expect(leaveOneOut(tests.slice(0, 12), "study", 0.8)).toEqual([]);
  });
});

describe("factorSurvival", () => {
  it("claims no survival where too little is left to derive a factor from", () => {
    // Study A has 3 of the 4 series; size 10 the fourth and one of those.
    const few = tests.filter(({ study, size }) => study === "A" || (study === "B" && size === 10));
    expect(factorSurvival("bond", few, 0.2).reading).toMatch(/Without study A, size 10 too little is left to derive a factor from, so that it rests on each of them\.$/);
    expect(factorSurvival("bond", few, 0.2).reading).not.toContain("It survives");
    expect(factorSurvival("bond", tests, 0.2).reading).toMatch(/It survives without any one study or size\.$/);
    expect(factorSurvival("bond", tests, 2).reading).toMatch(/It does not survive without study A, /);
  });
});

describe("reasonableChoices", () => {
  it("marks the reported analysis once and orders confidences as they must be", () => {
    const found = reasonableChoices(tests, 0.7, USUAL_CHOICES);
    // 2 distributions, 2 treatments of outliers; 3 confidences by series, those and the prediction form as independent.
    expect(found.analyses.length).toBe(28);
    expect(found.analyses.filter(({ reported }) => reported).map(({ estimate }) => estimate)).toEqual([characteristicOfTests(tests).factor]);
    const at = (fractile: string): number => found.analyses.find(({ choices }) => choices["Fractile"] === fractile && choices["Distribution"] === "lognormal" && choices["Outliers"] === "kept" && choices["Tests"] === "by series")?.estimate ?? NaN;
    expect(at("5 % at 75 %")).toBeGreaterThan(at("5 % at 90 %"));
    expect(at("5 % at 90 %")).toBeGreaterThan(at("5 % at 95 %"));
    expect(found.shareSurviving).toBe(found.analyses.filter(({ estimate }) => estimate >= 0.7).length / 28);
  });
  it("has three treatments of lower bounds where there are any, and lists what gives no answer", () => {
    const bounded = tests.map((one, i) => ({ ...one, bound: i % 6 === 0 }));
    const found = reasonableChoices(bounded, 0.7, USUAL_CHOICES);
    expect(found.analyses.length + found.unanswered.length).toBe(84);
    expect(found.unanswered.every(({ reason }) => reason.includes("cannot use lower bounds"))).toBe(true);
    expect(reasonableChoices([], 0.7, USUAL_CHOICES).shareSurviving).toBeNull();
  });
});
