import type { Section } from "../document/document";
import type { PacketResults } from "./packet-results";

/** What the packet does not cover, and the warnings on single factors. */
export function limitsSection({ caution, factors }: PacketResults, invented: boolean): Section {
  const warnings = factors.flatMap(({ label, status, reading, warnings: list }) =>
    (status === "derived" ? list : [reading.replace(/\.$/, "")]).map(
      (warning) => `${label}: ${warning}.`,
    ),
  );
  return {
    id: "limits",
    title: "Limits and cautions",
    blocks: [
      { kind: "caution", text: caution },
      {
        kind: "list",
        items: [
          ...(invented
            ? [
                "Part of the data are invented for demonstration. They show how the case is made; they are no evidence about real bars.",
              ]
            : []),
          "Static short-term tests only: sustained load, fire, moisture, alkali and fatigue are outside this comparison.",
          "A factor applies only to bars, adhesives, sizes and concretes like those tested.",
          "Design follows the local code and the judgment of a licensed engineer.",
          ...warnings,
        ],
      },
    ],
  };
}
