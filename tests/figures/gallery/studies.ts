import type { Figure } from "../../../kernel-lib/src/figures";
import * as figures from "../../../kernel-lib/src/figures";
import { campaign, diameters, head, materials, normals } from "./draws";
import { line } from "./ratios";

const steps = (n: number, from: number, to: number): number[] =>
  Array.from({ length: n }, (_, i) => from + ((to - from) * i) / (n - 1));

function sizes(): Figure {
  const tests = campaign(23);
  const panels = materials.map((label) => ({
    label,
    tests: tests
      .filter((test) => test.series === label)
      .map((test) => ({ ...test, diameter: test.x })),
    fit: line(label, tests),
    note: "slope −0.012 per mm (−0.019 to −0.005)",
  }));
  return figures.barSizeRegression({
    ...head("size-regression", "Bar size lowers the ratio in every material"),
    panels,
  });
}

function survival(): Figure {
  const curves = ["GFRP ribbed", "GFRP sand-coated"].map((label, g) => {
    const x = steps(15, 0.8 + 0.1 * g, 1.8);
    const y = x.map((_, i) => 1 - i / 14);
    return {
      label,
      n: 14,
      x,
      y,
      lower: y.map((v) => Math.max(0, v - 0.15)),
      upper: y.map((v) => Math.min(1, v + 0.15)),
      censoredX: [x[4] ?? 1, x[9] ?? 1],
      censoredY: [y[4] ?? 1, y[9] ?? 1],
    };
  });
  return figures.survivalCurves({ ...head("survival", "Share of tests above each ratio"), curves });
}

function grips(): Figure {
  const draw = normals(53);
  const groups = ["Wedges on bar, GFRP", "Wedges on grouted sleeve, GFRP", "Cast block, BFRP"].map(
    (label, g) => {
      const breaks = Array.from({ length: g === 0 ? 24 : 0 }, () => ({
        share: 0.7 + 0.06 * draw(),
        lowerBound: false,
      }));
      const bounds = Array.from({ length: [120, 60, 4][g]! }, () => ({
        share: Math.abs(0.35 + 0.15 * g + 0.1 * draw()),
        lowerBound: true,
      }));
      return {
        label,
        tests: [...breaks, ...bounds],
        median: g === 0 ? 0.7 : NaN,
        reliable: [0.58, 0.42, NaN][g]!,
      };
    },
  );
  return figures.gripShares({
    ...head("grip-shares", "Bar stress at a break in the grip"),
    groups,
  });
}

function intervals(): Figure {
  const draw = normals(31);
  const comparisons = [
    "Ribbed against sand-coated, 13 mm",
    "Ribbed against sand-coated, 25 mm",
    "Post-installed against cast-in",
    "Cracked against uncracked",
  ].map((label, i) => {
    const estimate = 1 + 0.08 * draw();
    return {
      label,
      n: [5 + i, 7] as const,
      estimate,
      lower: estimate - 0.09,
      upper: estimate + 0.1,
      finding: i === 2 ? "different" : "no difference shown",
    };
  });
  return figures.comparisonIntervals({
    ...head("comparison-intervals", "Direct comparisons of series"),
    comparisons,
    measure: "Ratio of means with 95 % interval (–)",
  });
}

function quantiles(): Figure {
  const draw = normals(37);
  const sample = Array.from({ length: 30 }, () => 1.3 + 0.2 * draw()).sort((a, b) => a - b);
  return figures.qq({
    ...head("qq", "Normal quantile plot of the ratios"),
    theoretical: steps(30, -2.1, 2.1),
    sample,
    line: { slope: 0.2, intercept: 1.3 },
    yTitle: "Test-to-predicted ratio (–)",
  });
}

function leftOver(): Figure {
  const draw = normals(41);
  const fitted = Array.from({ length: 80 }, (_, i) => 1 + i / 160);
  return figures.residuals({
    ...head("residuals", "Residuals of the bar-size regression"),
    fitted,
    residuals: fitted.map(() => 0.12 * draw()),
    sd: 0.12,
    xTitle: "Fitted ratio (–)",
    yTitle: "Residual (–)",
  });
}

function powerFigure(): Figure {
  const x = steps(28, 3, 30);
  const curves = [0.1, 0.15, 0.25].map((difference) => ({
    label: `true difference ${difference * 100} %`,
    x,
    y: x.map((n) => 1 - Math.exp(-0.9 * difference * n)),
  }));
  return figures.power({
    ...head("power", "How many tests it takes to see a difference"),
    curves,
    xTitle: "Tests in each series",
  });
}

const edge = (at: (fc: number) => number): { from: [number, number]; to: [number, number] }[] =>
  steps(29, 20, 58.6).map((fc) => ({ from: [at(fc), fc], to: [at(fc + 1.38), fc + 1.38] }));

function governs(): Figure {
  const x = steps(40, 4, 20);
  const y = steps(30, 20, 60);
  const governing = y.map((fc) =>
    x.map((ratio) =>
      ratio < 7 + fc / 20 ? "concrete breakout" : ratio < 14 + fc / 30 ? "bond" : "bar rupture",
    ),
  );
  const draw = normals(43);
  const tests = Array.from({ length: 25 }, () => ({ x: 10 + 2 * draw(), y: 38 + 6 * draw() }));
  return figures.modeGovernsMap({
    ...head("mode-governs", "Which mode governs"),
    x,
    y,
    governing,
    tests,
    boundaries: [...edge((fc) => 7 + fc / 20), ...edge((fc) => 14 + fc / 30)],
    xTitle: "Embedment / bar diameter (–)",
    yTitle: "Concrete strength (MPa)",
  });
}

function capacities(): Figure {
  const x = steps(30, 60, 360);
  return figures.modeCapacities({
    ...head("mode-capacities", "Capacity of each mode along the embedment"),
    curves: [
      { label: "concrete breakout, clause 1", x, y: x.map((h) => 0.05 * h ** 1.5) },
      { label: "bond, clause 2", x, y: x.map((h) => (h < 320 ? 0.5 * h : NaN)) },
      { label: "bar rupture, clause 3", x, y: x.map(() => 142) },
    ],
    xTitle: "Embedment (mm)",
  });
}

function factor(): Figure {
  const factors = diameters.map((size, i) => ({
    size,
    factor: 0.96 - 0.012 * (size - 10),
    lower: 0.9 - 0.012 * (size - 10),
    upper: 1.01 - 0.012 * (size - 10),
    n: 8 + i,
  }));
  return figures.factorAgainstSize({
    ...head("factor-by-size", "Factor that each bar size calls for"),
    factors,
    rule: { label: "0.90 up to 16 mm, 0.75 above", x: [10, 16, 16, 25], y: [0.9, 0.9, 0.75, 0.75] },
  });
}

function reliability(): Figure {
  const x = steps(30, 0, 3);
  const curves = ["present provision", "with the proposal"].map((label, i) => ({
    label,
    x,
    y: x.map((v) => 2.9 + i * 0.8 - 0.25 * Math.sqrt(v)),
  }));
  return figures.reliabilityAgainstLoadRatio({
    ...head("reliability", "Reliability over the load ratio"),
    curves,
    target: 3.5,
  });
}

function loadSensitivity(): Figure {
  const x = steps(30, 0.05, 0.9);
  const shares = [
    (v: number) => 0.75 - 0.5 * v,
    (v: number) => 0.24 * (1 - v),
    (v: number) => 0.01 + 0.74 * v,
  ];
  const curves = ["resistance", "dead load", "live load"].map((label, i) => ({
    label,
    x,
    y: x.map(shares[i]!),
  }));
  return figures.sensitivityAgainstLoadRatio({
    ...head("load-sensitivity", "What governs the reliability over the load ratio"),
    curves,
  });
}

function spread(): Figure {
  const draw = normals(47);
  const analyses = ["normal", "lognormal"].flatMap((Distribution) =>
    ["kept", "set aside"].flatMap((Doubtful) =>
      ["as bounds", "left out", "as values"].flatMap((Censored) =>
        ["75 %", "90 %"].map((Confidence) => {
          const estimate = 0.82 + 0.04 * draw();
          return {
            estimate,
            lower: estimate - 0.06,
            upper: estimate + 0.06,
            choices: {
              Distribution,
              "Doubtful tests": Doubtful,
              "Censored tests": Censored,
              Confidence,
            },
            reported:
              Distribution === "normal" &&
              Doubtful === "kept" &&
              Censored === "as bounds" &&
              Confidence === "90 %",
          };
        }),
      ),
    ),
  );
  return figures.choicesSpread({
    ...head("choices", "The factor under every reasonable way to analyse"),
    analyses,
    measure: "Factor (–)",
  });
}

function candidates(): Figure {
  const list = [
    "one constant",
    "by material",
    "by size",
    "by material and size",
    "linear in size",
    "by adhesive",
  ].map((label, i) => ({
    label,
    economy: [0.71, 0.78, 0.8, 0.86, 0.84, 0.74][i] as number,
    safety: [3.9, 3.75, 3.6, 3.52, 3.58, 3.55][i] as number,
    constants: [1, 4, 2, 8, 2, 3][i] as number,
    onFrontier: i !== 5,
  }));
  return figures.frontier({
    ...head("frontier", "Safety, economy and simplicity of the candidates"),
    candidates: list,
    economyTitle: "Mean utilisation (–)",
    safetyTitle: "Least reliability index (–)",
  });
}

function coverage(): Figure {
  return figures.coverageMap({
    ...head("coverage", "Where there are tests, and where none"),
    rows: [...materials],
    columns: ["10 mm", "13 mm", "16 mm", "19 mm", "25 mm"],
    counts: [
      [12, 30, 22, 14, 9],
      [8, 41, 28, 10, 3],
      [0, 17, 12, 4, 0],
      [5, 6, 0, 0, 0],
    ],
    rowTitle: "Bar",
    columnTitle: "Bar diameter",
  });
}

function furtherTests(): Figure {
  return figures.testsNeeded({
    ...head("campaign", "Further failures required for a verdict"),
    rows: ["GFRP, 10 mm", "GFRP, 16 mm", "BFRP, 16 mm"],
    columns: ["bond", "concrete breakout", "pryout"],
    cells: [
      [12, "settled", "open"],
      [45, 3, null],
      ["settled", "settled", 27],
    ],
    rowTitle: "Bar material and size",
    columnTitle: "Failure mode",
  });
}

function slip(): Figure {
  const x = steps(60, 0, 8);
  const curves = ["GFRP ribbed", "GFRP sand-coated", "Steel"].map((label, i) => ({
    label,
    x,
    y: x.map((s) => (12 + 3 * i) * (s / (1 + i * 0.3)) ** 0.4 * Math.exp(-s / (6 + i))),
  }));
  return figures.curve({
    ...head("bond-slip", "Bond stress against slip"),
    curves,
    xTitle: "Slip at the free end (mm)",
    yTitle: "Bond stress (MPa)",
  });
}

function elasticity(): Figure {
  const elasticities = [
    { label: "Embedment depth", value: 1.5 },
    { label: "Concrete strength", value: 0.5 },
    { label: "Edge distance", value: 0.3 },
    { label: "Eccentricity", value: -0.22 },
    { label: "Bar diameter", value: 0.004 },
  ];
  return figures.sensitivity({
    ...head("sensitivity", "What the breakout capacity depends on"),
    elasticities,
  });
}

function design(): Figure {
  const embedment = steps(25, 60, 480);
  const changed = { embedment: 345, capacity: 64, mode: "bar rupture (6.2)" };
  const families = [
    {
      label: "code for anchors",
      embedment,
      nominal: embedment.map((l) => 0.296 * l),
      design: embedment.map((l) => 0.193 * l),
      modeChanges: [],
    },
    {
      label: "guide for bars",
      embedment,
      nominal: embedment.map((l) => Math.min(0.194 * l, 30 + 0.1 * l)),
      design: embedment.map((l) => Math.min(0.194 * l, 30 + 0.1 * l, 64)),
      modeChanges: [changed],
    },
  ];
  return figures.designCapacities({
    ...head("design-capacities", "One bar designed by two codes"),
    families,
    crossings: [{ embedment: 321, capacity: 62 }],
    at: 160,
  });
}

export const studyFigures: readonly (() => Figure)[] = [
  sizes,
  survival,
  grips,
  intervals,
  quantiles,
  leftOver,
  powerFigure,
  governs,
  capacities,
  factor,
  reliability,
  loadSensitivity,
  spread,
  candidates,
  coverage,
  furtherTests,
  slip,
  elasticity,
  design,
];
