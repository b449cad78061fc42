/**
 * NIST StRD sets for one-way analysis of variance (itl.nist.gov/div898/strd/anova); the same data
 * come with SciPy (stats/tests/data/nist_anova). Certified values as NIST prints them.
 */
export interface AnovaSet {
  readonly name: string;
  readonly samples: Readonly<Record<string, readonly number[]>>;
  readonly f: number;
  readonly betweenSquares: number;
  readonly withinSquares: number;
  /**
   * Digits of F that arithmetic in double precision reaches: the rounding of the data themselves
   * limits the hard sets.
   */
  readonly digits: number;
}

/** Resistance of silicon wafers, five instruments. */
export const silicon: AnovaSet = {
  name: "SiRstv",
  f: 1.18046237440255,
  betweenSquares: 5.11462616e-2,
  withinSquares: 2.1663656e-1,
  digits: 12,
  samples: {
    "instrument 1": [196.3052, 196.124, 196.189, 196.2569, 196.3403],
    "instrument 2": [196.3042, 196.3825, 196.1669, 196.3257, 196.0422],
    "instrument 3": [196.1303, 196.2005, 196.2889, 196.0343, 196.1811],
    "instrument 4": [196.2795, 196.1748, 196.1494, 196.1485, 195.9885],
    "instrument 5": [196.2119, 196.1051, 196.185, 196.0052, 196.209],
  },
};

/** Atomic weight of silver, two instruments. */
export const silver: AnovaSet = {
  name: "AtmWtAg",
  f: 15.946733567793,
  betweenSquares: 3.638341875e-9,
  withinSquares: 1.04951729166667e-8,
  digits: 8,
  samples: {
    "instrument 1": [
      107.8681568, 107.8681465, 107.8681572, 107.8681785, 107.8681446, 107.8681903, 107.8681526,
      107.8681494, 107.8681616, 107.8681587, 107.8681519, 107.8681486, 107.8681419, 107.8681569,
      107.8681508, 107.8681672, 107.8681385, 107.8681518, 107.8681662, 107.8681424, 107.868136,
      107.8681333, 107.868161, 107.8681477,
    ],
    "instrument 2": [
      107.8681079, 107.8681344, 107.8681513, 107.8681197, 107.8681604, 107.8681385, 107.8681642,
      107.8681365, 107.8681151, 107.8681082, 107.8681517, 107.8681448, 107.8681198, 107.8681482,
      107.8681334, 107.8681609, 107.8681101, 107.8681512, 107.8681469, 107.868136, 107.8681254,
      107.8681261, 107.868145, 107.8681368,
    ],
  },
};

/**
 * SmLs01 to SmLs09 follow a rule: nine treatments with last digits 4, 3, 5, 3, 5, 3, 5, 3, 5 in the
 * first decimal place over an offset of 1, 1e6 or 1e12; each holds its centre once, then centre -
 * 0.1 and centre + 0.1 in turn. F is exactly the number of values in a treatment.
 */
function simonAndLesage(
  name: string,
  offset: string,
  replicates: number,
  digits: number,
): AnovaSet {
  const samples = Object.fromEntries(
    [4, 3, 5, 3, 5, 3, 5, 3, 5].map((centre, k) => [
      `treatment ${k + 1}`,
      Array.from({ length: replicates }, (_, i) =>
        Number(`${offset}.${i === 0 ? centre : i % 2 === 1 ? centre - 1 : centre + 1}`),
      ),
    ]),
  );
  return {
    name,
    samples,
    f: replicates,
    betweenSquares: 0.08 * replicates,
    withinSquares: 0.09 * (replicates - 1),
    digits,
  };
}

export const simonLesageSets: readonly AnovaSet[] = [
  simonAndLesage("SmLs01", "1", 21, 13),
  simonAndLesage("SmLs02", "1", 201, 13),
  simonAndLesage("SmLs03", "1", 2001, 12),
  simonAndLesage("SmLs04", "1000000", 21, 9),
  simonAndLesage("SmLs05", "1000000", 201, 9),
  simonAndLesage("SmLs06", "1000000", 2001, 9),
  simonAndLesage("SmLs07", "1000000000000", 21, 3),
  simonAndLesage("SmLs08", "1000000000000", 201, 3),
  simonAndLesage("SmLs09", "1000000000000", 2001, 3),
];
