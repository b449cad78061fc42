import type { Figure } from "../../../kernel-lib/src/figures";
import {
  beforeAfter,
  fractiles,
  modeMap,
  ratioAgainstVariable,
  ratioStrip,
  testAgainstPredicted,
} from "../../../kernel-lib/src/figures";
import { campaign, head, materials, normals } from "./draws";

function strip(): Figure {
  const draw = normals(7);
  const names = [
    "Steel, 13 mm, bond",
    "Steel, 25 mm, bond",
    "GFRP ribbed, 13 mm, bond",
    "GFRP ribbed, 25 mm, bond",
    "GFRP sand-coated, 13 mm, bond",
    "BFRP, 10 mm, combined cone and bond",
  ];
  const groups = names.map((label, g) => {
    const n = [10, 7, 12, 40, 5, 3][g] as number;
    const tests = Array.from({ length: n }, (_, i) => ({
      ratio: 1.55 - 0.09 * g + 0.13 * draw(),
      censored: i % 5 === 3 && g > 1,
      label: `T-${g}-${i}`,
    }));
    const mean = tests.reduce((s, t) => s + t.ratio, 0) / n;
    const sd = Math.sqrt(tests.reduce((s, t) => s + (t.ratio - mean) ** 2, 0) / (n - 1));
    const [lower, fractile, upper] =
      g === 5 ? [NaN, NaN, NaN] : [mean - 2.6 * sd, mean - 1.7 * sd, mean - 1.1 * sd];
    return {
      label,
      tests,
      mean,
      meanMinus3Sd: mean - 3 * sd,
      fractile,
      lower,
      upper,
      verdict:
        g === 5 ? "too few series" : lower >= 1 ? "meets" : upper < 1 ? "falls short" : "undecided",
    };
  });
  return ratioStrip({
    ...head(
      "ratio-by-group",
      "Bond of adhesive anchors holds for steel and falls short for sand-coated bars of large size",
    ),
    groups,
  });
}

function predicted(): Figure {
  const draw = normals(11);
  const tests = campaign(3).map((test) => {
    const capacity = Math.exp(3.6 + 0.7 * draw());
    return {
      predicted: capacity,
      observed: capacity * test.ratio,
      series: test.series,
      censored: test.censored,
      label: test.label,
    };
  });
  return testAgainstPredicted({
    ...head("test-against-predicted", "Peak load against predicted capacity"),
    tests,
    characteristicRatio: 0.83,
  });
}

function line(series: string, tests: readonly { x: number; ratio: number; series: string }[]) {
  const own = tests.filter((test) => test.series === series);
  const n = own.length;
  const mx = own.reduce((s, t) => s + t.x, 0) / n;
  const my = own.reduce((s, t) => s + t.ratio, 0) / n;
  const sxx = own.reduce((s, t) => s + (t.x - mx) ** 2, 0);
  const slope = own.reduce((s, t) => s + (t.x - mx) * (t.ratio - my), 0) / sxx;
  const s = Math.sqrt(
    own.reduce((sum, t) => sum + (t.ratio - my - slope * (t.x - mx)) ** 2, 0) / (n - 2),
  );
  const x = Array.from({ length: 31 }, (_, i) => 10 + i / 2);
  const y = x.map((v) => my + slope * (v - mx));
  const half = x.map((v) => 2.05 * s * Math.sqrt(1 / n + (v - mx) ** 2 / sxx));
  return {
    series,
    x,
    y,
    lower: y.map((v, i) => v - (half[i] ?? 0)),
    upper: y.map((v, i) => v + (half[i] ?? 0)),
  };
}

function variable(): Figure {
  const tests = campaign(5).filter((test) => test.series !== "BFRP");
  return ratioAgainstVariable({
    ...head("ratio-against-size", "The ratio falls with the bar size"),
    tests,
    fits: materials.slice(0, 3).map((series) => line(series, tests)),
    variable: { title: "Bar diameter", unit: "mm" },
  });
}

function modes(): Figure {
  return modeMap({
    ...head("mode-map", "Which mode governed, and which was predicted to govern"),
    observed: [
      "concrete breakout",
      "bond",
      "combined cone and bond",
      "splitting",
      "bar rupture",
      "rupture at grip",
    ],
    predicted: ["concrete breakout", "bond", "bar rupture", "concrete edge breakout", "pryout"],
    counts: [
      [62, 9, 0, 0, 0],
      [21, 133, 4, 0, 0],
      [30, 41, 0, 0, 0],
      [3, 8, 0, 0, 0],
      [0, 2, 25, 0, 0],
      [0, 3, 17, 0, 0],
    ],
  });
}

function dumbbell(): Figure {
  const draw = normals(19);
  const groups = materials.flatMap((material) =>
    [13, 19, 25].map((d) => ({
      label: `${material}, ${d} mm`,
      n: 5 + (d % 7),
      before: 0.85 + 0.1 * draw(),
      after: 1.04 + 0.05 * Math.abs(draw()),
    })),
  );
  groups[4] = { ...(groups[4] as (typeof groups)[number]), before: NaN };
  return beforeAfter({
    ...head("before-after", "Characteristic ratio before and after the proposed factor"),
    groups,
    measure: "Characteristic test-to-predicted ratio (–)",
  });
}

/** Lower to upper bound on both sides of a change; one group cannot be judged before. */
function bounds(): Figure {
  const groups = materials.flatMap((material, m) =>
    [13, 25].map((d, k) => {
      const [before, after] = m === 3 && k === 1 ? [NaN, 0.97] : [0.8 + 0.06 * m, 1.02 + 0.05 * k];
      return {
        label: `${material}, ${d} mm`,
        n: 5 + d,
        before,
        after,
        upperBefore: before + 0.13,
        upperAfter: after + 0.2,
        verdicts:
          after < 1
            ? "too few series, then undecided"
            : before + 0.13 < 1
              ? "falls short, then meets"
              : "undecided, then meets",
      };
    }),
  );
  return beforeAfter({
    ...head(
      "bounds-before-after",
      "Bounds of the 5 % fractile before and after the proposed factor",
    ),
    groups,
    measure: "5 % fractile of test/predicted: lower bound (mark) to upper bound (–)",
  });
}

function bothQuestions(): Figure {
  const side = (
    fractile: number,
    half: number,
  ): { fractile: number; lower: number; upper: number; verdict: string } => ({
    fractile,
    lower: fractile - half,
    upper: fractile + half,
    verdict: fractile - half >= 1 ? "meets" : fractile + half < 1 ? "falls short" : "undecided",
  });
  const groups = materials.map((material, m) => ({
    label: `${material}, combined cone and bond`,
    detail: `n = ${12 + m}, ${m === 3 ? 2 : 6} series`,
    asTested: side(1.15 - 0.12 * m, 0.06),
    inGeneral:
      m === 3
        ? { fractile: NaN, lower: NaN, upper: NaN, verdict: "too few series" }
        : side(1.13 - 0.12 * m, 0.12),
  }));
  return fractiles({ ...head("fractiles", "Both questions of each group"), groups });
}

export const ratioFigures: readonly (() => Figure)[] = [
  strip,
  predicted,
  variable,
  modes,
  dumbbell,
  bounds,
  bothQuestions,
];
export { line };
