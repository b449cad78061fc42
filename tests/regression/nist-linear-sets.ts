/**
 * NIST StRD linear sets (itl.nist.gov/div898/strd) that general statistics packages carry too.
 * Certified values as printed by NIST.
 */

export interface LinearSet {
  readonly name: string;
  readonly source: string;
  readonly y: readonly number[];
  readonly columns: Readonly<Record<string, readonly number[]>>;
  readonly intercept: boolean;
  readonly estimates: readonly number[];
  readonly standardErrors: readonly number[];
  readonly residualSd: number;
  readonly rSquared: number;
  /**
   * Correct digits of the worst coefficient that a column-scaled QR in double precision reaches,
   * rounded down.
   */
  readonly digits: number;
}

export const norris: LinearSet = {
  name: "Norris",
  source: "NIST StRD Norris; data also in scipy stats/tests/data/nist_linregress",
  y: [
    0.1, 338.8, 118.1, 888, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8,
    339.3, 448.9, 10.8, 557.7, 228.3, 998, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888, 998.5, 778.9,
    10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
  ],
  columns: {
    x: [
      0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777, 558.2, 0.4, 0.6, 775.5,
      666.9, 338, 447.5, 11.6, 556, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999,
      779, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
    ],
  },
  intercept: true,
  estimates: [-0.262323073774029, 1.00211681802045],
  standardErrors: [0.232818234301152, 0.000429796848199937],
  residualSd: 0.884796396144373,
  rSquared: 0.999993745883712,
  digits: 12,
};

export const longley: LinearSet = {
  name: "Longley",
  source: "NIST StRD Longley; data also in R datasets::longley and statsmodels",
  y: [
    60323, 61122, 60171, 61187, 63221, 63639, 64989, 63761, 66019, 67857, 68169, 66513, 68655,
    69564, 69331, 70551,
  ],
  columns: {
    "GNP deflator": [
      83, 88.5, 88.2, 89.5, 96.2, 98.1, 99, 100, 101.2, 104.6, 108.4, 110.8, 112.6, 114.2, 115.7,
      116.9,
    ],
    GNP: [
      234289, 259426, 258054, 284599, 328975, 346999, 365385, 363112, 397469, 419180, 442769,
      444546, 482704, 502601, 518173, 554894,
    ],
    unemployed: [
      2356, 2325, 3682, 3351, 2099, 1932, 1870, 3578, 2904, 2822, 2936, 4681, 3813, 3931, 4806,
      4007,
    ],
    "armed forces": [
      1590, 1456, 1616, 1650, 3099, 3594, 3547, 3350, 3048, 2857, 2798, 2637, 2552, 2514, 2572,
      2827,
    ],
    population: [
      107608, 108632, 109773, 110929, 112075, 113270, 115094, 116219, 117388, 118734, 120445,
      121950, 123366, 125368, 127852, 130081,
    ],
    year: [
      1947, 1948, 1949, 1950, 1951, 1952, 1953, 1954, 1955, 1956, 1957, 1958, 1959, 1960, 1961,
      1962,
    ],
  },
  intercept: true,
  estimates: [
    -3482258.63459582, 15.0618722713733, -0.035819179292591, -2.02022980381683, -1.03322686717359,
    -0.0511041056535807, 1829.15146461355,
  ],
  standardErrors: [
    890420.383607373, 84.9149257747669, 0.0334910077722432, 0.488399681651699, 0.214274163161675,
    0.22607320006937, 455.478499142212,
  ],
  residualSd: 304.854073561965,
  rSquared: 0.995479004577296,
  digits: 12,
};

export const noInt1: LinearSet = {
  name: "NoInt1",
  source: "NIST StRD NoInt1 (generated)",
  y: [130, 131, 132, 133, 134, 135, 136, 137, 138, 139, 140],
  columns: { x: [60, 61, 62, 63, 64, 65, 66, 67, 68, 69, 70] },
  intercept: false,
  estimates: [2.07438016528926],
  standardErrors: [0.0165289256198347],
  residualSd: 3.56753034006338,
  rSquared: 0.999365492298663,
  digits: 14,
};

export const noInt2: LinearSet = {
  name: "NoInt2",
  source: "NIST StRD NoInt2 (generated)",
  y: [3, 4, 4],
  columns: { x: [4, 5, 6] },
  intercept: false,
  estimates: [0.727272727272727],
  standardErrors: [0.0420827318078432],
  residualSd: 0.369274472937998,
  rSquared: 0.993348115299335,
  digits: 14,
};

const powers = (k: number): number[] => Array.from({ length: 21 }, (_, x) => x ** k);
const polynomial = (x: number, b: readonly number[]): number =>
  b.reduceRight((sum, value) => sum * x + value, 0);
const ones = [1, 1, 1, 1, 1, 1];
/** Errors of Wampler3 to 5, as NIST prints them for the third set. */
const delta = [
  759, -2048, 2048, -2048, 2523, -2048, 2048, -2048, 1838, -2048, 2048, -2048, 1838, -2048, 2048,
  -2048, 2523, -2048, 2048, -2048, 759,
];

function wampler(
  name: string,
  y: readonly number[],
  estimates: readonly number[],
  standardErrors: readonly number[],
  residualSd: number,
  rSquared: number,
  digits: number,
): LinearSet {
  return {
    name,
    source: `NIST StRD ${name} (generated: polynomial of degree 5, x = 0 to 20)`,
    y,
    columns: Object.fromEntries([1, 2, 3, 4, 5].map((k) => [`x^${k}`, powers(k)])),
    intercept: true,
    estimates,
    standardErrors,
    residualSd,
    rSquared,
    digits,
  };
}

const tenths = [1, 0.1, 0.01, 0.001, 0.0001, 0.00001];
const zeros = [0, 0, 0, 0, 0, 0];
const at = (b: readonly number[], factor: number): number[] =>
  Array.from({ length: 21 }, (_, x) => polynomial(x, b) + factor * delta[x]!);
export const wamplers: readonly LinearSet[] = [
  wampler("Wampler1", at(ones, 0), ones, zeros, 0, 1, 9),
  wampler(
    "Wampler2",
    at(tenths, 0).map((v) => Number(v.toFixed(5))),
    tenths,
    zeros,
    0,
    1,
    12,
  ),
  wampler(
    "Wampler3",
    at(ones, 1),
    ones,
    [
      2152.3262467817, 2363.55173469681, 779.343524331583, 101.47550755035, 5.64566512170752,
      0.112324854679312,
    ],
    2360.14502379268,
    0.99999555902582,
    9,
  ),
  wampler(
    "Wampler4",
    at(ones, 100),
    ones,
    [
      215232.62467817, 236355.173469681, 77934.3524331583, 10147.550755035, 564.566512170752,
      11.2324854679312,
    ],
    236014.502379268,
    0.957478440825662,
    7,
  ),
  wampler(
    "Wampler5",
    at(ones, 10000),
    ones,
    [
      21523262.467817, 23635517.3469681, 7793435.24331583, 1014755.0755035, 56456.6512170752,
      1123.24854679312,
    ],
    23601450.2379268,
    0.0022466892157494,
    5,
  ),
];
