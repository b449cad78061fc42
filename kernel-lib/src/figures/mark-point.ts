/** One row as a mark. */
export interface MarkPoint {
  readonly x: number;
  readonly y: number;
  /** Class by color and shape, class by shape alone, and panel; null for none. */
  readonly color: string | null;
  readonly symbol: string | null;
  readonly panel: string | null;
  /** The axis along which the value is only a lower bound; null where it is none. */
  readonly bound: "x" | "y" | null;
  readonly label: string;
}

/** One axis. */
export interface MarkScale {
  readonly title: string;
  readonly log: boolean;
}

/** The class of a mark in the legend. */
export function classOf({ color, symbol }: Pick<MarkPoint, "color" | "symbol">): string {
  return [color, symbol].filter((one) => one !== null).join(", ");
}
