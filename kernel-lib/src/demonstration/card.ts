import { CURVE_TRUTH } from "./curves";
import type { Demonstration } from "./demonstration";
import { BAR_SIZES, barStrengths, type TrueMode } from "./truth";

const number = (value: number, digits = 4): string => String(Number(value.toPrecision(digits)));

function table(
  header: ReadonlyArray<string>,
  rows: ReadonlyArray<ReadonlyArray<string | number>>,
): string {
  const line = (cells: ReadonlyArray<string | number>): string => `| ${cells.join(" | ")} |`;
  return [line(header), line(header.map(() => "---")), ...rows.map(line)].join("\n");
}

/** "B 149, C 157, D 174": the same in every size. */
function guaranteedShear(kinds: Demonstration["truth"]["barKinds"]): string {
  return kinds
    .flatMap((kind) => {
      const strengths = BAR_SIZES.map((size) => barStrengths(kind, size).shearSpecified);
      return (strengths[0] ?? null) === null ? [] : [`${kind.family} ${String(strengths[0])}`];
    })
    .join(", ");
}

/** The card of the invented campaign: what it is, and the whole truth it was generated from. */
export function demonstrationCard(demonstration: Demonstration): string {
  const { truth, tests, studyFactors, excludedNotes, seed } = demonstration;
  const series = new Set(tests.map(({ series_id }) => series_id)).size;
  const counts = new Map<string, number>();
  for (const { failure_mode } of tests)
    counts.set(failure_mode, (counts.get(failure_mode) ?? 0) + 1);
  const covOf = (mode: TrueMode): string => `${number(100 * truth.withinSeriesCov[mode])} %`;
  return `# Breakwater parapet campaign (INVENTED)

**These data are invented. They prove nothing about real bars, adhesives or concrete, and must not be used for design.**
They allow an analysis to be tried and checked against parameters that are known exactly.

**What.** Bars bonded into the concrete of an old breakwater wall to carry a new parapet, tested by two laboratories that do not exist.
${String(tests.length)} tests in ${String(series)} series of 3 to 10; ${String(excludedNotes.length)} tests are excluded with a reason.
Generated with seed ${String(seed)} by \`code-comparison demo\`; the same seed gives the same bytes.

**Units.** mm, kN, MPa, GPa. Concrete strengths are cylinder strengths. Diameters and areas are nominal. Loads of groups are of the whole group.

**Columns outside the data contract.** \`bar_family\`: letter of the invented kind of bar. \`layout\`: field, one_edge, corner, pair, four, pair_at_edge, bond_specimen.
\`curve\`: file of the test's load-displacement record, for the first bond failure of each confined series.

${table(
  ["observed failure mode", "tests"],
  [...counts].sort((a, b) => b[1] - a[1]),
)}

## Known parameters

Each specimen has a capacity for every mode that its set-up permits. Each capacity is

mean of the mode x laboratory factor x series factor x specimen factor.

The load is the lowest capacity, and its mode is the failure mode. Of every other mode, only a lower bound is known.
Series and specimen factors are lognormal with mean 1. Bar modes (rupture, rupture at the grip, shear of the bar) have no laboratory or series factor.
The jacks have a capacity of ${String(truth.jackCapacity_kN)} kN; at that load the failure mode is \`stopped\`.

Mean capacities in N, mm, MPa; d bar diameter, h embedment, fc cylinder strength, n number of bars, A area of a bar:

- Concrete breakout, unconfined tension: B x ${String(truth.breakoutCoefficient)} sqrt(fc) h^1.5 x G(1.5 h); x ${String(truth.crackedFactor)} in cracked concrete.
- Bond of bonded bars, unconfined: B (16/d)^e x tau x pi d h x G(c), c = 10 d sqrt(tau_qualified / 7.6), tau_qualified the uncracked characteristic value.
- Bond in a confined set-up: the same stress divided by ${String(truth.confinedSetUp)}, without the effect of edges and adjacent bars.
- G(r) = (X Y) / (2 r)^2 x min(1, 0.7 + 0.3 c_min / r), X and Y the sides of the projected area: distance r from a bar, limited by edges, and min(spacing, 2 r) between bars.
- Bond of cast-in bars: B x ${String(truth.castInBondCoefficient)} sqrt(fc) (1 - ${String(truth.castInLengthSlope)} (h/d - 5)) x pi d h. Straight bars have no head and therefore no breakout capacity.
- Splitting of cast-in bars: (${String(truth.splittingAtNoCover)} + ${String(truth.splittingCoverSlope)} cover/d) x the bond capacity.
- Rupture of the bar: n A x measured strength. In a weak grip (some FRP series): ${String(truth.gripShare)} of that, mode \`rupture_at_grip\`.
- Grips: an FRP bar has \`${truth.grips.breaking}\` where a weak grip is planned and where every mode is planned below ${String(truth.grips.wedgesUpTo)} of the rupture load, and otherwise one of ${truth.grips.others.join(", ")};
  a steel bar has one of ${truth.grips.steel.join(", ")}. Only \`${truth.grips.breaking}\` on FRP breaks a bar below its strength. Grips are drawn separately and change no other value. One laboratory states \`grip_break_stress_MPa\`; the other leaves it blank.
- Edge breakout in shear: B x ${String(truth.edgeBreakoutCoefficient)} (l/d)^0.2 sqrt(d) sqrt(fc) c1^1.5 x A_V/(4.5 c1^2) x min(1, 0.7 + 0.3 c2/(1.5 c1)), l = min(h, 8 d), no factor for thin members; x ${String(truth.crackedFactor)} in cracked concrete.
- Pryout: B x 2 x the smaller of bond (unconfined) and breakout.
- Shear of the bar: n A x shear strength; steel ${String(truth.steelShearRatio)} of its tensile strength.

${table(
  ["kind of bar", "breakout B", "bond B", "e", "cast-in bond B", "edge breakout B", "pryout B"],
  truth.barKinds.map((kind) => [
    `${kind.family}: ${kind.material} ${kind.surface}`,
    kind.breakout,
    kind.bond,
    kind.bondSizeExponent,
    kind.castInBond,
    kind.edgeBreakout,
    kind.pryout,
  ]),
)}

${table(
  [
    "adhesive",
    "mean tau uncracked",
    "mean tau cracked",
    "qualified characteristic uncracked",
    "qualified characteristic cracked",
  ],
  Object.entries(truth.adhesives).map(([name, a]) => [
    name,
    a.meanUncracked,
    a.meanCracked,
    a.charUncracked,
    a.charCracked,
  ]),
)}

${table(
  ["scatter", "coefficient of variation"],
  [
    ["between series, all concrete and bond modes", `${number(100 * truth.betweenSeriesCov)} %`],
    [
      "between laboratories (drawn once; the second has the inverse)",
      `${number(100 * truth.studyCov)} %`,
    ],
    [
      "within series: breakout, edge breakout, pryout",
      `${covOf("concrete_breakout")}, ${covOf("concrete_edge_breakout")}, ${covOf("pryout")}`,
    ],
    ["within series: bond, splitting", `${covOf("bond")}, ${covOf("splitting")}`],
    [
      "within series: rupture, rupture at the grip, shear of FRP bars",
      `${covOf("bar_rupture")}, ${covOf("rupture_at_grip")}, ${covOf("bar_shear")}`,
    ],
    ["within series: rupture and shear of steel bars", "2 %"],
  ],
)}

Laboratory factors drawn with this seed: ${Object.entries(studyFactors)
    .map(([study, factor]) => `${study} ${number(factor, 6)}`)
    .join(", ")}.

Mean bar strengths. Specified strengths: steel 550 MPa in tension, none in shear; FRP, in tension and in transverse shear, guaranteed = mean - 3 SD with a COV of 5 %,
which is 0.85 of the mean, rounded to 1 MPa (${guaranteedShear(truth.barKinds)} MPa in shear).

${table(
  [
    "size",
    "d mm",
    "A mm2",
    ...truth.barKinds.map(({ family }) => `${family}: tension / shear MPa`),
  ],
  BAR_SIZES.map((size) => [
    size.label,
    size.diameter_mm,
    size.area_mm2,
    ...truth.barKinds.map((kind) => {
      const { mean, shear } = barStrengths(kind, size);
      return `${number(mean)} / ${number(shear)}`;
    }),
  ]),
)}

## The load-displacement records

Files under \`curves/\`: time, load, two gauges at the loaded end (with opposite tilt), one at the free end. With x = slip / slip at peak:
N / peak = x^${String(CURVE_TRUTH.ascentExponent)} up to the peak, then 1 - ${String(CURVE_TRUTH.descentSlope)} (x - 1), not below ${String(CURVE_TRUTH.residualShare)}, up to x = ${String(CURVE_TRUTH.endRatio)}.
Loaded-end gauges add the elongation of ${String(CURVE_TRUTH.freeLength_mm)} mm of free bar and ${String(CURVE_TRUTH.seating_mm)} mm of seating. Noise: ${number(100 * CURVE_TRUTH.loadNoise)} % of the peak and ${String(CURVE_TRUTH.gaugeNoise_mm)} mm.
The load has an offset of up to 0.5 % of the peak; every third record includes an unloading loop.
Stated errors of a correct reduction: peak load ${number(100 * CURVE_TRUTH.statedErrors.peak)} %, slip at peak ${number(100 * CURVE_TRUTH.statedErrors.slip)} %, energy ${number(100 * CURVE_TRUTH.statedErrors.energy)} %, residual load ${number(100 * CURVE_TRUTH.statedErrors.residual)} %.

## Excluded tests

${table(
  ["test", "reason"],
  excludedNotes.map(({ test_id, reason }) => [test_id, reason]),
)}

## Doubts

All values are artificial: scatter is below that of a real laboratory, the models hold exactly, and no slip of a bar was missed.
`;
}
