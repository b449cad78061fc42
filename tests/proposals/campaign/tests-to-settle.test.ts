import { describe, expect, it } from "vitest";
import {
  knownLaw,
  ratioModelOf,
  SimulatedCampaigns,
  testsToSettle,
  type CampaignQuestion,
  type PresentTest,
} from "../../../kernel-lib/src/proposals";
import { createRandom, drawLaw, RandomEffectsModel } from "../../../kernel-lib/src/statistics";

const QUESTION: CampaignQuestion = {
  fractile: 0.05,
  confidence: 0.9,
  perSeries: 1,
  simulations: 800,
  seed: 1,
};
const inSeries = (
  ratios: readonly (readonly number[])[],
): (PresentTest & { study: string; row: number })[] =>
  ratios.flatMap((series, k) =>
    series.map((ratio) => ({ ratio, lowerBound: false, series: `s${k}`, study: "", row: 0 })),
  );

describe("simulated campaigns", () => {
  it("have the power of the noncentral t where each series has one test and the law is known (SciPy)", () => {
    // scipy.stats.nct, z = norm.ppf(.95): meets, K = nct.ppf(.9, n - 1, z sqrt(n))/sqrt(n), P =
    // nct.sf(K sqrt(n), n - 1, sqrt(n) .4/.12);
    // falls short, K = nct.ppf(.1, ...)/sqrt(n), mean 1 and SD 0.12: P = nct.cdf(K sqrt(n), n - 1,
    // 0)
    const cases = [
      [1.4, 3, 0.32728404],
      [1.4, 9, 0.85081957],
      [1.4, 15, 0.9773712],
      [1, 3, 0.85854444],
      [1, 9, 0.99506779],
    ] as const;
    for (const [mean, n, probability] of cases) {
      const found = new SimulatedCampaigns(
        knownLaw({ mean, sd: 0.12, correlation: 0 }),
        [],
        QUESTION,
      ).probability(n);
      expect(Math.abs(found - probability), `${mean} ${n}`).toBeLessThan(
        3 * Math.sqrt((probability * (1 - probability)) / QUESTION.simulations),
      );
    }
  });
  it("decide nothing with fewer than 3 series, however many tests they hold", () => {
    const campaigns = new SimulatedCampaigns(knownLaw({ mean: 3, sd: 0.1, correlation: 0.2 }), [], {
      ...QUESTION,
      perSeries: 10,
      simulations: 40,
    });
    expect(campaigns.probability(2)).toBe(0);
    expect(campaigns.probability(3)).toBeGreaterThan(0.9);
  });
  it("judge as the bounds of the model do, lower bounds counted as such", () => {
    const y = [1.1, 1.25, 1.3, 1.05, 1.4, 1.2, 1.35, 1.28, 1.15];
    const series = [0, 0, 0, 1, 1, 1, 2, 2, 2];
    for (const censored of [y.map(() => false), y.map((_, i) => i === 4)]) {
      const model = new RandomEffectsModel({
        y,
        censored,
        series,
        pointOf: y.map(() => 0),
        points: [[1]],
        cells: 1,
      });
      const { lower, upper } = model.fractile([1], { fractile: 0.05, confidence: 0.9 });
      expect(model.probabilityBelow([1], lower, 0.05)).toBeCloseTo(0.1, 8);
      expect(model.probabilityBelow([1], upper, 0.05)).toBeCloseTo(0.9, 8);
    }
  });
});

describe("drawLaw", () => {
  it("draws laws whose fractiles lie below both bounds as often as stated", () => {
    const tests = inSeries([
      [1.1, 1.3, 1.2],
      [1.4, 1.35, 1.5],
      [1.2, 1.15, 1.3],
      [1.25, 1.4, 1.45],
    ]);
    const sample = {
      y: tests.map(({ ratio }) => ratio),
      censored: tests.map(() => false),
      series: tests.map(({ series }) => series),
      pointOf: tests.map(() => 0),
      points: [[1]],
      cells: 1,
    };
    const model = new RandomEffectsModel(sample);
    const { lower, estimate, upper } = model.fractile([1], { fractile: 0.05, confidence: 0.9 });
    const random = createRandom("laws");
    const fractiles = Array.from({ length: 20_000 }, () => drawLaw(model.laws([1]), random)).map(
      ({ mean, sd }) => mean - 1.6448536269514722 * sd,
    );
    for (const [bound, share] of [
      [lower, 0.1],
      [estimate, 0.5],
      [upper, 0.9],
    ] as const) {
      expect(
        Math.abs(fractiles.filter((one) => one <= bound).length / 20_000 - share),
      ).toBeLessThan(3 * Math.sqrt((share * (1 - share)) / 20_000));
    }
  });
  it("draws the SD of chi squared (table: 5 and 95 % of 2 degrees of freedom are 0.1026 and 5.991)", () => {
    const random = createRandom("chi");
    const law = {
      weight: 1,
      centre: 0,
      shift: 0,
      sd: 1,
      count: 3,
      degreesOfFreedom: 2,
      correlation: null,
    };
    const draws = Array.from({ length: 20_000 }, () => drawLaw([law], random));
    const chi = draws.map(({ sd }) => 2 / sd ** 2);
    for (const [quantile, share] of [
      [0.1026, 0.05],
      [5.991, 0.95],
    ] as const)
      expect(Math.abs(chi.filter((one) => one <= quantile).length / 20_000 - share)).toBeLessThan(
        3 * Math.sqrt(0.0475 / 20_000),
      );
    // one test a series says nothing of the correlation: uniform
    expect(
      Math.abs(draws.reduce((sum, { correlation }) => sum + correlation / 20_000, 0) - 0.5),
    ).toBeLessThan(3 * Math.sqrt(1 / 12 / 20_000));
  });
});

describe("testsToSettle", () => {
  const known = (mean: number, correlation = 0, sd = 0.12) => knownLaw({ mean, sd, correlation });
  it("finds the number of tests at which the power reaches what is wanted", () => {
    // SciPy as above: power 0.739 at 7 tests, 0.802 at 8, 0.851 at 9
    const found = testsToSettle(known(1.4), [], { perSeries: 1, simulations: 800, seed: 2 });
    expect(found.expected).toBe("meets");
    expect([8, 9]).toContain(found.further);
    expect(found.probability).toBeGreaterThanOrEqual(0.8);
    expect(testsToSettle(known(1.4), [], { perSeries: 1, simulations: 800, seed: 2 })).toEqual(
      found,
    );
  });
  it("needs more where series differ, and more where the law is fitted than where it is known", () => {
    const further = (
      model: Parameters<typeof testsToSettle>[0],
      present: readonly PresentTest[] = [],
    ): number => testsToSettle(model, present, { seed: 3, simulations: 60 }).further ?? Infinity;
    expect(further(known(1.35, 0.7))).toBeGreaterThan(further(known(1.35, 0)));
    const present = inSeries([
      [1.2, 1.35, 1.3],
      [1.5, 1.45, 1.38],
      [1.3, 1.42, 1.25],
    ]);
    const fitted = ratioModelOf(present, { distribution: "normal", fractile: 0.05 })!;
    const model = new RandomEffectsModel({
      y: present.map(({ ratio }) => ratio),
      censored: present.map(() => false),
      series: present.map(({ series }) => series),
      pointOf: present.map(() => 0),
      points: [[1]],
      cells: 1,
    });
    expect(further(fitted, present)).toBeGreaterThan(
      further(
        knownLaw({ mean: model.mean([1]), sd: model.sd, correlation: model.correlation }),
        present,
      ),
    );
  });
  it("says when no campaign settles it", () => {
    const found = testsToSettle(known(1.2), [], { seed: 3, simulations: 60 });
    expect(found.further).toBeNull();
    expect(found.probability).toBeLessThan(0.8);
    expect(() => testsToSettle(known(1.4), [], { wanted: 1.2 })).toThrow("wanted is 1.2");
    expect(() => testsToSettle(known(1.4), [], { perSeries: 0 })).toThrow("at least one series");
  });
});

describe("ratioModelOf", () => {
  it("needs 3 series with a failure, all named", () => {
    const question = { distribution: "normal", fractile: 0.05 } as const;
    const tests = inSeries([
      [1.1, 1.2],
      [1.3, 1.25],
      [1.4, 1.2],
    ]);
    expect(ratioModelOf(tests, question)?.fractile).toBeLessThan(1.2);
    expect(ratioModelOf(tests.slice(0, 4), question)).toBeNull();
    expect(
      ratioModelOf(
        tests.map((one, i) => (i === 0 ? { ...one, series: "" } : one)),
        question,
      ),
    ).toBeNull();
  });
});
