import { TRUTH, type Adhesive, type BarKind } from "./truth";

/**
 * What the true mean capacities depend on; mm and MPa. A group is a rectangle of nx by ny bars,
 * edge 1 and 3 across x.
 */
export interface Specimen {
  readonly kind: BarKind;
  readonly diameter: number;
  readonly area: number;
  readonly tensileStrength: number;
  readonly shearStrength: number;
  readonly adhesive: Adhesive | null;
  readonly concrete: number;
  readonly cracked: boolean;
  readonly embedment: number;
  readonly thickness: number;
  /** Distances to edges 1 to 4; Infinity where far. */
  readonly edges: readonly [number, number, number, number];
  readonly nx: number;
  readonly ny: number;
  readonly sx: number;
  readonly sy: number;
  readonly cover: number;
}

const barsOf = ({ nx, ny }: Specimen): number => nx * ny;

/**
 * Influence of edges and neighbours in tension: (projected area / area of one bar) x (0.7 + 0.3
 * c/r), with reach r to every side. Bars further apart than 2r do not share concrete.
 */
function tensionGeometry(specimen: Specimen, reach: number): number {
  const [e1, e2, e3, e4] = specimen.edges;
  const along = (a: number, b: number, n: number, s: number): number =>
    Math.min(a, reach) + (n > 1 ? (n - 1) * Math.min(s, 2 * reach) : 0) + Math.min(b, reach);
  const area = along(e1, e3, specimen.nx, specimen.sx) * along(e2, e4, specimen.ny, specimen.sy);
  const nearest = Math.min(e1, e2, e3, e4);
  return (area / (2 * reach) ** 2) * Math.min(1, 0.7 + (0.3 * nearest) / reach);
}

/**
 * True mean concrete breakout load in tension, N: factor x 14.6 sqrt(fc) hef^1.5 x A/(9 hef^2) x
 * (0.7 + 0.3 c/(1.5 hef)), x 0.7 if cracked.
 */
export function meanBreakout(specimen: Specimen): number {
  const { kind, concrete, embedment, cracked } = specimen;
  const single = TRUTH.breakoutCoefficient * Math.sqrt(concrete) * embedment ** 1.5;
  return (
    kind.breakout *
    single *
    tensionGeometry(specimen, 1.5 * embedment) *
    (cracked ? TRUTH.crackedFactor : 1)
  );
}

/**
 * True mean bond stress of a bonded bar, unconfined, MPa: adhesive mean x factor of the bar x
 * (16/d)^e.
 */
export function meanBondStress({ kind, diameter, adhesive, cracked }: Specimen): number {
  if (adhesive === null)
    throw new RangeError("a bond stress of a bonded bar needs an adhesive: got none");
  return (
    (cracked ? adhesive.meanCracked : adhesive.meanUncracked) *
    kind.bond *
    (16 / diameter) ** kind.bondSizeExponent
  );
}

/**
 * True mean bond load of bonded bars, N: stress x pi d hef x A/(2c)^2 x (0.7 + 0.3 c_min/c), c = 10
 * d sqrt(tau/7.6) with the qualified uncracked characteristic stress tau. In a confined set-up the
 * stress is 1/0.75 higher and no edge counts.
 */
export function meanBond(specimen: Specimen, confined: boolean): number {
  const { diameter, embedment, adhesive } = specimen;
  const single = meanBondStress(specimen) * Math.PI * diameter * embedment;
  if (confined) return single / TRUTH.confinedSetUp;
  return (
    single *
    tensionGeometry(specimen, 10 * diameter * Math.sqrt((adhesive?.charUncracked ?? NaN) / 7.6))
  );
}

/** True mean bond load of a cast-in bar, N: factor x 2.0 sqrt(fc) (1 - 0.02 (l/d - 5)) x pi d l. */
export function meanCastInBond({ kind, concrete, diameter, embedment }: Specimen): number {
  const stress =
    TRUTH.castInBondCoefficient *
    Math.sqrt(concrete) *
    (1 - TRUTH.castInLengthSlope * (embedment / diameter - 5));
  return kind.castInBond * stress * Math.PI * diameter * embedment;
}

/** True mean splitting load of a cast-in bar, N: (0.5 + 0.2 cover/d) x bond load. */
export function meanSplitting(specimen: Specimen): number {
  return (
    (TRUTH.splittingAtNoCover + (TRUTH.splittingCoverSlope * specimen.cover) / specimen.diameter) *
    meanCastInBond(specimen)
  );
}

/** True mean rupture load of the bars, N. */
export function meanRupture(specimen: Specimen): number {
  return barsOf(specimen) * specimen.area * specimen.tensileStrength;
}

/**
 * True mean concrete edge breakout load in shear towards edge 1, N, single bars or a row along the
 * edge: factor x 1.08 (l/d)^0.2 sqrt(d) sqrt(fc) c1^1.5 x A/(4.5 c1^2) x (0.7 + 0.3 c2/(1.5 c1)), l
 * = hef <= 8d, x 0.7 if cracked. Infinity when edge 1 is far.
 */
export function meanEdgeBreakout(specimen: Specimen): number {
  const { kind, diameter, concrete, embedment, cracked, thickness, ny, sy } = specimen;
  const [c1, e2, , e4] = specimen.edges;
  if (c1 === Infinity) return Infinity;
  const length = Math.min(embedment, 8 * diameter);
  const single =
    TRUTH.edgeBreakoutCoefficient *
    (length / diameter) ** 0.2 *
    Math.sqrt(diameter) *
    Math.sqrt(concrete) *
    c1 ** 1.5;
  const reach = 1.5 * c1;
  const width =
    Math.min(e2, reach) + (ny > 1 ? (ny - 1) * Math.min(sy, 2 * reach) : 0) + Math.min(e4, reach);
  const ratio = (width * Math.min(thickness, reach)) / (4.5 * c1 ** 2);
  const corner = Math.min(1, 0.7 + (0.3 * Math.min(e2, e4)) / reach);
  return kind.edgeBreakout * single * ratio * corner * (cracked ? TRUTH.crackedFactor : 1);
}

/** True mean pryout load in shear, N: factor x 2 x the lesser of bond and breakout. */
export function meanPryout(specimen: Specimen): number {
  return specimen.kind.pryout * 2 * Math.min(meanBond(specimen, false), meanBreakout(specimen));
}

/** True mean shear load of the bars themselves, N. */
export function meanBarShear(specimen: Specimen): number {
  return barsOf(specimen) * specimen.area * specimen.shearStrength;
}
