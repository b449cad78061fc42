import { assumedStrength, type Comparison, type ComparisonSettings } from "../../comparison";
import { predictionNeeds } from "../../provisions";

/** Inputs that nobody stated and the ratios rest on: reported beside the answer in every format. */
export function restsOn(comparison: Comparison, settings: ComparisonSettings): string[] {
  const { tests, code, evidence } = comparison;
  const needs = predictionNeeds(code, tests);
  const silent = new Set(
    needs.filter(({ effect }) => effect === "read_as_far").flatMap(({ rows }) => rows),
  );
  const n = evidence.filter(
    ({ row, mode }) => silent.has(row) && mode === "concrete_breakout",
  ).length;
  const edges =
    n === 0
      ? []
      : [
          `${n === 1 ? "1 ratio of concrete breakout rests" : `${String(n)} ratios of concrete breakout rest`} on unstated edges: with neither an edge distance nor other_edges = far, every edge is treated as remote, which gives the largest capacity.`,
        ];
  const uncapped = needs.filter(({ effect }) => effect === "read_as_uncapped");
  const m = evidence.filter(({ row, mode }) =>
    uncapped.some(
      ({ provision, rows }) =>
        (provision.modes as readonly string[]).includes(mode) && rows.includes(row),
    ),
  ).length;
  const strength =
    m === 0
      ? []
      : [
          `${m === 1 ? "1 ratio of bond rests" : `${String(m)} ratios of bond rest`} on no stated bar strength: the stress developed is not capped, which gives the largest capacity.`,
        ];
  const assumed = assumedStrength(comparison, settings);
  return [...edges, ...strength, ...(assumed === null ? [] : [assumed.reading])];
}
