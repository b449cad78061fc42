import { describe, expect, it } from "vitest";
import type { Figure } from "../../../kernel-lib/src/figures";
import { ratioStrip } from "../../../kernel-lib/src/figures";
import { gallery } from "../../figures/gallery";
import { atSize, head } from "../../figures/gallery/draws";
import { figureFaults } from "./figure-faults";

const figures = gallery.map((build) => build());
const first = figures[0] as Figure;

describe("layout, measured", () => {
  it.each(figures.map((figure) => [figure.id, figure] as const))(
    "%s has no clipped or overlapping text and shows marks",
    async (_, figure) => {
      expect(await figureFaults(figure)).toEqual([]);
    },
  );

  const sizes = ["one-column", "column-and-a-half", "two-column"] as const;
  it.each(sizes)("every figure is clean at the width %s", async (size) => {
    const faults: string[] = [];
    for (const build of gallery) {
      const figure = atSize(size, build);
      for (const fault of await figureFaults(figure))
        faults.push(`${figure.id}: ${fault.kind} ${fault.message}`);
    }
    expect(faults).toEqual([]);
  });

  it("stays clean with one group, with forty, and with a very long title", async () => {
    const tests = [1.1, 1.2, 1.25].map((ratio) => ({ ratio, censored: false }));
    const group = {
      label: "GFRP ribbed, 13 mm",
      tests,
      mean: 1.18,
      meanMinus3Sd: 0.95,
      fractile: 1,
      lower: 0.9,
      upper: 1.1,
      verdict: "undecided",
    };
    const many = Array.from({ length: 40 }, (_, i) => ({ ...group, label: `Series ${i + 1}` }));
    for (const groups of [[group], many])
      expect(
        await figureFaults(
          ratioStrip({ ...head("strip", "Ratios and how they spread ".repeat(8)), groups }),
        ),
      ).toEqual([]);
  });

  it("finds text that leaves the figure", async () => {
    const annotations = [
      {
        xref: "paper",
        yref: "paper",
        x: 1,
        y: 0.5,
        xanchor: "left",
        showarrow: false,
        text: "a note that runs far out of the figure to the right",
      },
    ];
    const faults = await figureFaults({ ...first, layout: { ...first.layout, annotations } });
    expect(faults.map((fault) => fault.kind)).toContain("clipped");
  });

  it("finds text over text", async () => {
    const note = { xref: "paper", yref: "paper", x: 0.5, y: 0.5, showarrow: false };
    const faults = await figureFaults({
      ...first,
      layout: {
        ...first.layout,
        annotations: [
          { ...note, text: "one" },
          { ...note, text: "two" },
        ],
      },
    });
    expect(faults).toEqual([
      expect.objectContaining({
        kind: "overlapping",
        message: expect.stringContaining('"one" and "two"') as string,
      }),
    ]);
  });

  it("finds a figure without marks, which says so to its reader", async () => {
    const figure = ratioStrip({ id: "none", title: "None", caption: "", groups: [] });
    const faults = await figureFaults(figure);
    expect(JSON.stringify(figure.layout)).toContain("No data to show");
    expect(faults.map((fault) => fault.kind)).toEqual(["empty"]);
  });
});
