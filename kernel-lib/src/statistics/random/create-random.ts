import { xoroshiro128plusFromState } from "pure-rand/generator/xoroshiro128plus";
import { seedWords } from "./seed-words";
import { createNormal } from "./ziggurat";

/** The one source of random numbers: seeded, named, the same on every machine. */
export interface Random {
  /** The seed and the labels of the forks that led here, joined by "/". */
  readonly name: string;
  /** Uniform number strictly between 0 and 1, on a grid of 2⁻⁵². */
  uniform(): number;
  /** Standard normal number (ziggurat of 256 layers). */
  normal(): number;
  /** Whole number from 0 to n − 1, without bias. */
  integer(n: number): number;
  /** One element of a list that is not empty. */
  choice<T>(values: ArrayLike<T>): T;
  /** A shuffled copy (Fisher–Yates); the list given is left as it is. */
  shuffle<T>(values: ArrayLike<T>): T[];
  /**
   * An independent stream named by its label. It depends only on the seed and the label, not on how
   * many numbers were drawn before, so adding a draw in one place moves nothing elsewhere.
   */
  fork(label: string | number): Random;
}

/**
 * Seeded random numbers: xoroshiro128+ (Blackman and Vigna) started from a hash of the seed's name.
 *
 * The same seed gives the same sequence on every machine. Not for secrets.
 * @param seed a finite number or a text; 1 and "1" are different seeds
 * @throws RangeError for a seed that is not a finite number or a text
 * @example
 * const random = createRandom("bar size study");
 * random.uniform(); random.fork("bootstrap").normal();
 */
export function createRandom(seed: number | string): Random {
  if (typeof seed === "number" ? !Number.isFinite(seed) : typeof seed !== "string") {
    throw new RangeError(
      `createRandom: seed is ${String(seed)}, expected a finite number or a text`,
    );
  }
  return stream(typeof seed === "number" ? `${seed}` : JSON.stringify(seed));
}

function stream(name: string): Random {
  const generator = xoroshiro128plusFromState(seedWords(name));
  const word = (): number => generator.next();
  // 52 bits and a half step: never 0, never 1, exactly representable. The weakest low bits are
  // dropped.
  const uniform = (): number =>
    ((word() >>> 6) * 67108864 + (word() >>> 6) + 0.5) * 2.220446049250313e-16;
  // Loops ask for the same n again and again: its limit and step are kept from the call before.
  let range = 0;
  let limit = 0;
  let step = 1;
  const integer = (n: number): number => {
    if (n !== range) {
      if (!Number.isInteger(n) || n < 1 || n > 2 ** 32) {
        throw new RangeError(
          `Random.integer: n is ${n}, expected a whole number from 1 to 4294967296`,
        );
      }
      range = n;
      limit = 4294967296 - (4294967296 % n);
      step = limit / n;
    }
    let draw = word() >>> 0;
    while (draw >= limit) draw = word() >>> 0;
    // High bits are the better ones: scale instead of taking the remainder.
    return Math.floor(draw / step);
  };
  return {
    name,
    uniform,
    normal: createNormal(word, uniform),
    integer,
    choice: <T>(values: ArrayLike<T>): T => {
      if (values.length === 0)
        throw new RangeError("Random.choice: the list is empty, expected at least one element");
      return values[integer(values.length)] as T;
    },
    shuffle: <T>(values: ArrayLike<T>): T[] => {
      const list = Array.from(values);
      for (let i = list.length - 1; i > 0; i--) {
        const j = integer(i + 1);
        const kept = list[i] as T;
        list[i] = list[j] as T;
        list[j] = kept;
      }
      return list;
    },
    fork: (label) => stream(`${name}/${String(label)}`),
  };
}
