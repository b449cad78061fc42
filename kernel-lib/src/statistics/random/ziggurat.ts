/*
 * Standard normal numbers by the ziggurat method (Marsaglia and Tsang 2000) with 256 layers of
 * equal area v under exp(−x²/2); r is where the bottom layer's tail begins. Two 32-bit words a
 * number: eight bits choose the layer, 52 other bits the place in it, so layer and place are
 * independent (Doornik 2005).
 */
const LAYERS = 256;
/** Shift that leaves of a 32-bit word the bits of the layer. */
export const LAYERS_SHIFT = 24;
const TAIL_START = 3.6541528853610088;
const LAYER_AREA = 0.00492867323399;

/** Right edge of each layer; the first stands for the bottom layer with its tail. */
export const edge = new Float64Array(LAYERS + 1);
/** exp(−x²/2) at each edge. */
export const height = new Float64Array(LAYERS + 1);
{
  let density = Math.exp(-0.5 * TAIL_START * TAIL_START);
  edge[0] = LAYER_AREA / density;
  edge[1] = TAIL_START;
  for (let i = 2; i < LAYERS; i++) {
    edge[i] = Math.sqrt(-2 * Math.log(LAYER_AREA / edge[i - 1]! + density));
    density = Math.exp(-0.5 * edge[i]! * edge[i]!);
  }
  edge[LAYERS] = 0;
  for (let i = 0; i <= LAYERS; i++) height[i] = Math.exp(-0.5 * edge[i]! * edge[i]!);
}

/** A source of standard normal numbers from a source of 32-bit words and one of uniform numbers. */
export function createNormal(word: () => number, uniform: () => number): () => number {
  return () => {
    for (;;) {
      const first = word();
      const layer = first >>> LAYERS_SHIFT;
      // 24 + 28 bits, centred: strictly between −1 and 1.
      const place =
        ((first & 0xffffff) * 268435456 + (word() >>> 4) + 0.5) * 4.440892098500626e-16 - 1;
      const x = place * edge[layer]!;
      if (Math.abs(x) < edge[layer + 1]!) return x;
      if (layer === 0) return beyondTail(place < 0, uniform);
      const y = height[layer]! + uniform() * (height[layer + 1]! - height[layer]!);
      if (y < Math.exp(-0.5 * x * x)) return x;
    }
  };
}

/** Beyond r by Marsaglia's exponential rejection. */
export function beyondTail(negative: boolean, uniform: () => number): number {
  for (;;) {
    const x = -Math.log(uniform()) / TAIL_START;
    const y = -Math.log(uniform());
    if (y + y >= x * x) return negative ? -(TAIL_START + x) : TAIL_START + x;
  }
}
