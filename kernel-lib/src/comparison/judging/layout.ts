import type { TestTable } from "../../dataset";

/** How a test's bars lie in the concrete. */
export type LayoutWord = "single" | "single near edge" | "group" | "group near edge";

const EDGES = ["edge_1_mm", "edge_2_mm", "edge_3_mm", "edge_4_mm"] as const;

/**
 * The layout of each test, derived from the contract's columns: one bar or a group, near an edge or
 * not. Near means within 1.5 times the embedment depth, the reach of a concrete cone (ACI 318-19
 * 17.6.2.1); in shear within 1.5 times the distance to the loaded edge, which does not count itself
 * (17.7.2.1). A blank edge is remote.
 * @example layoutOfTests(tests)[0] // "single"
 */
export function layoutOfTests(tests: TestTable): LayoutWord[] {
  const [nx, ny, embedment] = [
    tests.numbers("group_nx"),
    tests.numbers("group_ny"),
    tests.numbers("embedment_mm"),
  ];
  const edges = EDGES.map((name) => tests.numbers(name));
  const actions = tests.texts("action");
  return Array.from({ length: tests.length }, (_, row) => {
    const bars = orOne(nx[row]) * orOne(ny[row]);
    const loaded = edges[0]![row] ?? NaN;
    const towardsEdge = actions[row] === "shear" && Number.isFinite(loaded);
    const reach = 1.5 * (towardsEdge ? loaded : (embedment[row] ?? NaN));
    const near = edges.some((edge, k) => !(towardsEdge && k === 0) && (edge[row] ?? NaN) < reach);
    return near
      ? bars > 1
        ? "group near edge"
        : "single near edge"
      : bars > 1
        ? "group"
        : "single";
  });
}

function orOne(count: number | undefined): number {
  return count === undefined || Number.isNaN(count) ? 1 : count;
}
