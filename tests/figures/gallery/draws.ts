import type { Figure, PrintSize } from "../../../kernel-lib/src/figures";

/** Uniform numbers from 0 to 1, seeded: the gallery is the same every time. */
export function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}

/** Standard normal numbers by Box and Muller. */
export function normals(seed: number): () => number {
  const uniform = seeded(seed);
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

export const materials = ["Steel", "GFRP ribbed", "GFRP sand-coated", "BFRP"] as const;
export const diameters = [10, 13, 16, 19, 25] as const;

/** An invented campaign: ratio falling with the bar size, each material with its own mean. */
export function campaign(
  seed: number,
  perCell = 6,
): { x: number; ratio: number; series: string; censored: boolean; label: string }[] {
  const draw = normals(seed);
  const uniform = seeded(seed + 1);
  return materials.flatMap((series, m) =>
    diameters.flatMap((x) =>
      Array.from({ length: perCell }, (_, i) => {
        const ratio = 1.55 - 0.1 * m - 0.012 * (x - 10) + 0.15 * draw();
        return {
          x,
          ratio,
          series,
          censored: m > 0 && uniform() < 0.12,
          label: `${series} ${x}-${i + 1}`,
        };
      }),
    ),
  );
}

let printed: PrintSize | undefined;

/** Builds a figure of the gallery for another printed width. */
export function atSize(size: PrintSize, build: () => Figure): Figure {
  printed = size;
  try {
    return build();
  } finally {
    printed = undefined;
  }
}

type Head = {
  id: string;
  title: string;
  subtitle: string;
  caption: string;
  invented: true;
  size?: PrintSize;
};
export const head = (id: string, title: string): Head => ({
  ...(printed === undefined ? {} : { size: printed }),
  id,
  title,
  subtitle: "ACI 318-19 17.6.5, nominal level, tests matched to the observed mode",
  caption: `${title}. Invented demonstration data.`,
  invented: true,
});
