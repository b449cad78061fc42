import { plainName } from "../../units";

/**
 * The candidate most like a misspelt or differently worded name, or null when none comes near.
 * Likeness is the better of letter-pair overlap (Dice) and shared words, 0 to 1; below 0.5 nothing
 * is offered.
 * @example likelyName("bar_materal", ["bar_material", "bar_size"]) // "bar_material"
 */
export function likelyName(name: string, candidates: ReadonlyArray<string>): string | null {
  const own = traitsOf(name);
  let best: string | null = null;
  let bestLikeness = 0.5;
  for (const candidate of candidates) {
    const other = remembered(candidate);
    const likeness = Math.max(
      pairLikeness(own, other),
      0.95 * wordLikeness(own.words, other.words),
    );
    if (likeness > bestLikeness) {
      best = candidate;
      bestLikeness = likeness;
    }
  }
  return best;
}

/**
 * What an error says after a name that is not known: the candidate most like it, or nothing.
 * @example didYouMean("ductil", ["ductile", "seismic"]) // " (did you mean ductile?)"
 */
export function didYouMean(name: string, candidates: ReadonlyArray<string>): string {
  const short = bare(name.slice(0, 100));
  const like = (fits: (candidate: string) => boolean): string | undefined =>
    candidates.find((candidate) => fits(bare(candidate)));
  // The same but for its writing; what it begins; the clause it is a part of; what looks like it.
  const likely =
    short === ""
      ? null
      : (like((one) => one === short) ??
        like((one) => one.startsWith(short)) ??
        like((one) => short.startsWith(`${one}.`)) ??
        likelyName(short, candidates));
  return likely === null ? "" : ` (did you mean ${likely}?)`;
}

/** A name without what is easily mistyped: capitals, and zeros in front of numbers. */
function bare(name: string): string {
  return name.toLowerCase().replace(/\b0+(?=\d)/g, "");
}

/**
 * Words of the trade for our categories, by a part of the word. Only for suggestions; a value is
 * never replaced on this ground.
 */
const OTHER_VALUES: ReadonlyArray<readonly [RegExp, ReadonlyArray<string>]> = [
  [/glass|gfrp/i, ["gfrp"]],
  [/basalt|bfrp/i, ["bfrp"]],
  [/carbon|cfrp/i, ["cfrp"]],
  [/aramid|afrp/i, ["afrp"]],
  [/rebar|stahl|acier/i, ["steel"]],
  [/pull.?out|slip/i, ["bond", "pullout_block"]],
  [/edge/i, ["concrete_edge_breakout"]],
  [/cone|break.?out/i, ["concrete_breakout"]],
  [/wedge.*sleeve|sleeve.*wedge/i, ["wedges_on_grouted_sleeve"]],
  [/wedge/i, ["wedges_on_bar"]],
  [/thread/i, ["threaded_sleeve"]],
  [/block/i, ["cast_block"]],
  [/grip/i, ["rupture_at_grip"]],
  [/ruptur|fractur|broke|tensile/i, ["bar_rupture"]],
  [/split/i, ["splitting"]],
  [/pry/i, ["pryout"]],
  [/drill|post|bonded|adhesive/i, ["post_installed"]],
  [/cast|embedded/i, ["cast_in"]],
  [/cube.*200|200/i, ["cube_200"]],
  [/cube.*100|100/i, ["cube_100"]],
  [/cube/i, ["cube_150"]],
  [/cyl/i, ["cylinder"]],
  [/hinged|rilem/i, ["hinged_beam"]],
  [/beam/i, ["beam_end"]],
  [/ceiling|upward/i, ["overhead"]],
  [/diamond/i, ["core"]],
  [/hollow|vacuum/i, ["hollow_bit"]],
  [/flood/i, ["water_filled"]],
  [/under ?water/i, ["submerged"]],
  [/wet|damp/i, ["saturated"]],
  [/oblique|inclined|combined/i, ["tension_and_shear", "combined_loading"]],
  [/unconfined/i, ["unconfined_tension"]],
  [/confined/i, ["confined_tension"]],
  [/sand/i, ["sand_coated"]],
  [/rib|deformed/i, ["ribbed"]],
  [/wrap|wound|spiral/i, ["helically_wrapped"]],
];

/**
 * The category a foreign word is likely to mean, or null. @example likelyWord("glass", ["steel",
 * "gfrp"]) // "gfrp"
 */
export function likelyWord(word: string, categories: ReadonlyArray<string>): string | null {
  const short = word.slice(0, 100);
  for (const [pattern, meant] of OTHER_VALUES) {
    const found = pattern.test(short) ? meant.find((one) => categories.includes(one)) : undefined;
    if (found !== undefined) return found;
  }
  return likelyName(short, categories);
}

interface Traits {
  readonly plain: string;
  readonly words: ReadonlySet<string>;
  readonly pairs: ReadonlyMap<string, number>;
}

/** Traits of candidates; these are few and come again for every unknown column. */
const KNOWN_TRAITS = new Map<string, Traits>();

function remembered(candidate: string): Traits {
  const known = KNOWN_TRAITS.get(candidate);
  if (known !== undefined) return known;
  const traits = traitsOf(candidate);
  if (KNOWN_TRAITS.size < 500) KNOWN_TRAITS.set(candidate, traits);
  return traits;
}

function traitsOf(name: string): Traits {
  const plain = plainName(name).slice(0, 200);
  const pairs = new Map<string, number>();
  for (let i = 0; i + 1 < plain.length; i += 1)
    pairs.set(plain.slice(i, i + 2), (pairs.get(plain.slice(i, i + 2)) ?? 0) + 1);
  return { plain, words: wordsOf(plain), pairs };
}

/**
 * Words that other people's tables use for ours. Only for suggestions: a column is never renamed on
 * this ground.
 */
const OTHER_WORDS: ReadonlyMap<string, string> = new Map([
  ["specimen", "test"],
  ["sample", "test"],
  ["rebar", "bar"],
  ["rod", "bar"],
  ["fibre", "material"],
  ["fiber", "material"],
  ["dia", "diameter"],
  ["db", "diameter"],
  ["fc", "concrete_strength"],
  ["compressive", "strength"],
  ["hef", "embedment"],
  ["bonded", "embedment"],
  ["length", "embedment"],
  ["depth", "embedment"],
  ["ultimate", "peak"],
  ["max", "peak"],
  ["maximum", "peak"],
  ["force", "load"],
  ["failure", "failure_mode"],
  ["reference", "study"],
  ["author", "study"],
  ["paper", "study"],
  ["elastic", "modulus"],
  ["surface", "bar_surface"],
  ["treatment", "surface"],
  ["no", "id"],
  ["name", "id"],
  ["glue", "adhesive"],
  ["resin", "adhesive"],
]);

function wordsOf(plain: string): ReadonlySet<string> {
  return new Set(plain.split("_").flatMap((word) => (OTHER_WORDS.get(word) ?? word).split("_")));
}

function wordLikeness(first: ReadonlySet<string>, second: ReadonlySet<string>): number {
  let common = 0;
  for (const word of first) if (second.has(word)) common += 1;
  return (2 * common) / (first.size + second.size);
}

function pairLikeness(a: Traits, b: Traits): number {
  if (a.plain === b.plain) return 1;
  let common = 0;
  for (const [pair, count] of a.pairs) common += Math.min(count, b.pairs.get(pair) ?? 0);
  const total = Math.max(0, a.plain.length - 1) + Math.max(0, b.plain.length - 1);
  return total === 0 ? 0 : (2 * common) / total;
}
