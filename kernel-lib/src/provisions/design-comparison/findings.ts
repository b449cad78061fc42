import type { AssumptionFactor, DesignComparison, DesignFamily } from "./design-comparison";

/** Ratios nearer to 1 than this are called nearly equal. */
const NEARLY = 0.05;

/**
 * What a design comparison shows, in a few sentences: the ratio at the embedment asked for and the
 * factors it is made of, where the curves cross, the embedment each code needs, and what the two
 * largest factors mean for provisions to come.
 * @example designFindings(compareDesigns([code("aci318-19"), code("aci440.1r-15")], designedBar({}), 0, { embedments: [80, 160], at: 160 }))[0]
 */
export function designFindings(comparison: DesignComparison): string[] {
  const {
    at,
    diameter,
    families: [one, other],
    ratio,
    factors,
    crossings,
  } = comparison;
  const [a, b] = [one.code.id, other.code.id];
  const size = (factor: AssumptionFactor): number => Math.abs(Math.log(factor.factor));
  const large = [...factors]
    .sort((x, y) => size(y) - size(x))
    .filter((factor) => size(factor) > 0.02);
  const listed = large
    .slice(0, 4)
    .map(({ label, factor }) => `${label} ${factor.toFixed(2)}`)
    .join(", ");
  const governs = `${one.at.design.mode ?? "nothing"} governs the first and ${other.at.design.mode ?? "nothing"} the second`;
  const near = Math.abs(ratio - 1) < NEARLY && large.length > 0 && size(large[0]!) > 2 * NEARLY;
  const first = `At ${mm(at)} (${(at / diameter).toFixed(1)} d) the design capacity is ${kN(one.at.design.capacity)} by ${a} and ${kN(other.at.design.capacity)} by ${b}, a ratio of ${ratio.toFixed(2)}; ${governs}.`;
  const because =
    large.length === 0
      ? "No assumption changes it by more than 2 %."
      : near
        ? `They agree only because differences in assumptions offset each other: ${listed}.`
        : `The ratio is the product of these factors, largest first: ${listed}.`;
  const crossing =
    crossings.design.length === 0
      ? "The design curves do not cross in this range."
      : `The design curves cross at ${crossings.design.map(({ embedment }) => mm(embedment)).join(" and ")}.`;
  const needs =
    comparison.load_N === undefined
      ? `The design strength of the bar governs ${needed(one)} by ${a} and ${needed(other)} by ${b}.`
      : `For a design load of ${kN(comparison.load_N)}, ${a} needs ${length(one.carriesLoad)} and ${b} ${length(other.carriesLoad)}.`;
  const means = large.slice(0, 2).map((factor) => factor.means);
  const provisions =
    means.length === 0
      ? []
      : [
          `For provisions to come: ${means.map((words, k) => `(${String(k + 1)}) ${words}`).join("; ")}.`,
        ];
  return [`${first} ${because}`, `${crossing} ${needs}`, ...provisions];
}

const mm = (value: number): string => `${String(Math.round(value))} mm`;
const kN = (value: number): string => `${(value / 1000).toPrecision(3)} kN`;
const needed = ({ developsBar: { design } }: DesignFamily): string =>
  design === null ? "at no embedment up to 100 d" : `from ${mm(design)}`;
const length = (value: number | null | undefined): string =>
  value === null || value === undefined ? "more than 100 d" : mm(value);
