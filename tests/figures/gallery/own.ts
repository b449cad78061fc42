import {
  marksFigure,
  probabilityPlots,
  spread,
  type Figure,
  type MarkPoint,
} from "../../../kernel-lib/src/figures";
import { normal } from "../../../kernel-lib/src/statistics";
import { head, seeded } from "./draws";

const materials = ["steel", "GFRP", "BFRP"];

function points(): MarkPoint[] {
  const draw = seeded(27);
  return ["bond", "concrete edge breakout"].flatMap((panel) =>
    materials.flatMap((color, k) =>
      Array.from({ length: 12 }, (_, i) => ({
        x: 5 + i,
        y: 1.5 - 0.12 * k + 0.3 * (draw() - 0.5),
        color,
        symbol: i % 2 === 0 ? "cracked" : "uncracked",
        panel,
        bound: i % 5 === 4 ? ("y" as const) : null,
        label: `${panel} ${i}`,
      })),
    ),
  );
}

/** Figures of one's own, spread and probability plots. */
export const ownFigures: readonly (() => Figure)[] = [
  () =>
    marksFigure({
      ...head("marks-by-panel", "Ratio against depth"),
      points: points(),
      x: { title: "Embedment over bar diameter (–)", log: false },
      y: { title: "Test-to-predicted ratio (–)", log: true },
      line: "least squares",
      reference: 1,
    }),
  () =>
    spread({
      ...head("spread", "Spread of test-to-predicted ratios"),
      groups: [...materials, "none"].map((label) => ({
        label,
        values: points().flatMap((one) => (one.color === label ? [one.y] : [])),
        lowerBounds: label === "steel" ? 3 : 0,
      })),
    }),
  () =>
    probabilityPlots({
      ...head("probability-plots", "Failures about the means of their cells"),
      panels: ["concrete edge breakout, GFRP", "bond, steel"].map((label, k) => {
        const draw = seeded(30 + k);
        const n = 20;
        const theoretical = Array.from({ length: n }, (_, i) =>
          normal().quantile((i + 0.625) / (n + 0.25)),
        );
        const sample = theoretical.map((z) => 1 + 0.2 * z + 0.02 * draw());
        return {
          label,
          theoretical,
          sample,
          line: { slope: 0.2, intercept: 1 },
          yTitle: "Ratio / cell mean (–)",
        };
      }),
    }),
];
