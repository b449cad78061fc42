import { plainName } from "../units";

/**
 * The candidate most like a misspelt or differently worded name, or null when none comes near.
 * Likeness is the better of letter-pair overlap (Dice) and shared words, 0 to 1; below 0.5 nothing is offered.
 * @example likelyName("bar_materal", ["bar_material", "bar_size"]) // "bar_material"
 */
export function likelyName(name: string, candidates: ReadonlyArray<string>): string | null {
  let best: string | null = null;
  let bestLikeness = 0.5;
  const plain = plainName(name);
  for (const candidate of candidates) {
    const other = plainName(candidate);
    const likeness = Math.max(pairLikeness(plain, other), 0.95 * wordLikeness(plain, other));
    if (likeness > bestLikeness) {
      best = candidate;
      bestLikeness = likeness;
    }
  }
  return best;
}

/** Words that other people's tables use for ours. Only for suggestions: a column is never renamed on this ground. */
const OTHER_WORDS: ReadonlyMap<string, string> = new Map([
  ["specimen", "test"], ["sample", "test"], ["rebar", "bar"], ["rod", "bar"], ["fibre", "material"], ["fiber", "material"], ["dia", "diameter"], ["db", "diameter"],
  ["fc", "concrete_strength"], ["compressive", "strength"], ["hef", "embedment"], ["bonded", "embedment"], ["length", "embedment"], ["depth", "embedment"],
  ["ultimate", "peak"], ["max", "peak"], ["maximum", "peak"], ["force", "load"], ["failure", "failure_mode"], ["reference", "study"], ["author", "study"],
  ["paper", "study"], ["elastic", "modulus"], ["surface", "bar_surface"], ["treatment", "surface"], ["no", "id"], ["name", "id"], ["glue", "adhesive"], ["resin", "adhesive"],
]);

function words(name: string): Set<string> {
  return new Set(name.split("_").flatMap((word) => (OTHER_WORDS.get(word) ?? word).split("_")));
}

function wordLikeness(a: string, b: string): number {
  const [first, second] = [words(a), words(b)];
  let common = 0;
  for (const word of first) if (second.has(word)) common += 1;
  return (2 * common) / (first.size + second.size);
}

function pairLikeness(a: string, b: string): number {
  if (a === b) return 1;
  const pairs = new Map<string, number>();
  for (let i = 0; i + 1 < a.length; i += 1) pairs.set(a.slice(i, i + 2), (pairs.get(a.slice(i, i + 2)) ?? 0) + 1);
  let common = 0;
  for (let i = 0; i + 1 < b.length; i += 1) {
    const left = pairs.get(b.slice(i, i + 2)) ?? 0;
    if (left > 0) {
      common += 1;
      pairs.set(b.slice(i, i + 2), left - 1);
    }
  }
  const total = Math.max(0, a.length - 1) + Math.max(0, b.length - 1);
  return total === 0 ? 0 : (2 * common) / total;
}
