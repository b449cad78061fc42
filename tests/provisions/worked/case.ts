import type { TestRowInput } from "../../../kernel-lib/src/dataset";
import type { DevelopmentCase, Level } from "../../../kernel-lib/src/provisions";

/** A value with the half of its last printed digit. */
export type Printed = readonly [value: number, within: number];

/**
 * Where a case's numbers come from: a publication, a calculation made apart from this library, or
 * memory of the source.
 */
export type CaseKind = "published" | "constructed" | "from memory";

interface Told {
  readonly id: string;
  readonly kind: CaseKind;
  /** The publication, or how the numbers were made. */
  readonly source: string;
  readonly options?: Readonly<Record<string, number>>;
}

/**
 * One capacity with steps to check, in the edition's units; what the row leaves out is the plain
 * specimen.
 */
export interface WorkedCapacity extends Told {
  readonly code: string;
  readonly provision: string;
  readonly level?: Level;
  readonly row: Partial<TestRowInput>;
  /** Steps by symbol; `design_capacity` is the design value. */
  readonly expected: Readonly<Record<string, Printed>>;
}

/** One development length, in mm. */
export interface WorkedLength extends Told {
  /** code, slash, clause */
  readonly rule: string;
  readonly given: DevelopmentCase;
  readonly length: Printed;
}

const HAND = "on paper, from the printed equation";
type Fields<T> = Omit<T, "kind" | "source" | "id">;

/** A capacity computed on paper. */
export const byHand = (id: string, of: Fields<WorkedCapacity>): WorkedCapacity => ({
  id,
  kind: "constructed",
  source: HAND,
  ...of,
});
