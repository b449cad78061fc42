import { describe, expect, it } from "vitest";
import { chiSquared, normal } from "../../../kernel-lib/src/statistics/distributions";
import { normalBlocks } from "../../../kernel-lib/src/statistics/random";
import {
  xoshiroUniform,
  xoshiroWord,
} from "../../../kernel-lib/src/statistics/random/normal-blocks";
import { seedWords } from "../../../kernel-lib/src/statistics/random/seed-words";
import { createNormal } from "../../../kernel-lib/src/statistics/random/ziggurat";

const block = (seed: number | string, number: number, n: number): Float64Array => {
  const target = new Float64Array(n);
  normalBlocks(seed).fill(number, target);
  return target;
};

describe("normalBlocks", () => {
  it("runs on xoshiro128++: the first words from the state 1, 2, 3, 4", () => {
    // First word by hand: rotl(1 + 4, 7) + 1 = 641. All of them by Python's integers:
    // r=lambda v,k:((v<<k)|(v>>(32-k)))&M; o=(r((s[0]+s[3])&M,7)+s[0])&M; t=(s[1]<<9)&M;
    // s[2]^=s[0]; s[3]^=s[1]; s[1]^=s[2]; s[0]^=s[3]; s[2]^=t; s[3]=r(s[3],11)
    const state = Int32Array.of(1, 2, 3, 4);
    expect(Array.from({ length: 6 }, () => xoshiroWord(state) >>> 0)).toEqual([
      641, 1573767, 3222811527, 3517856514, 836907274, 4247214768,
    ]);
  });
  it("is the ziggurat drawn one by one, bit for bit", () => {
    const state = Int32Array.from(seedWords('"law"/normal block 3'));
    const next = createNormal(
      () => xoshiroWord(state),
      () => xoshiroUniform(state),
    );
    const filled = block("law", 3, 200_000);
    expect(filled.every((value) => Object.is(value, next()))).toBe(true);
  });
  it("gives a block by its seed and number alone", () => {
    const [a, b] = [normalBlocks(5), normalBlocks(5)];
    const [first, again] = [new Float64Array(100), new Float64Array(100)];
    a.fill(0, new Float64Array(7));
    a.fill(2, first);
    b.fill(2, again);
    expect(first).toEqual(again);
    expect(block(5, 3, 100)).not.toEqual(first);
    expect(block("5", 2, 100)).not.toEqual(first);
  });
  it("follows the normal law over many blocks (chi-squared, 200 cells of equal probability), the tail included", () => {
    const counts = new Array<number>(200).fill(0);
    const law = normal();
    let beyond = 0;
    for (let k = 0; k < 100; k++) {
      for (const value of block("law of the blocks", k, 4000)) {
        counts[Math.min(199, Math.floor(200 * law.cdf(value)))]! += 1;
        if (Math.abs(value) > 3.6541528853610088) beyond += 1;
      }
    }
    const p = chiSquared(199).upperTail(
      counts.reduce((sum, count) => sum + (count - 2000) ** 2 / 2000, 0),
    );
    expect(p).toBeGreaterThan(1e-4);
    expect(p).toBeLessThan(1 - 1e-4);
    const expected = 400_000 * 2 * law.upperTail(3.6541528853610088);
    expect(Math.abs(beyond - expected)).toBeLessThan(4 * Math.sqrt(expected));
  });
  it("has blocks that do not hang together", () => {
    const [a, b] = [block(1, 0, 50_000), block(1, 1, 50_000)];
    const correlation = a.reduce((sum, value, i) => sum + value * b[i]!, 0) / 50_000;
    expect(Math.abs(correlation)).toBeLessThan(4 / Math.sqrt(50_000));
  });
});
