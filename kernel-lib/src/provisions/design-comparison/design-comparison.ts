import type { CodeDefinition } from "../model/definition";
import type { Assumption } from "./assumptions";
import type { FactorShare } from "./factor-shares";
import type { FamilySettings } from "./family-parts";

export interface DesignSettings extends FamilySettings {
  /** Embedments of the curves, mm, rising. */
  readonly embedments: readonly number[];
  /** Embedment at which the ratio is split into factors, mm. */
  readonly at: number;
  /** Load that both codes are to carry at the design level, N. */
  readonly load_N?: number;
}

export interface DesignValue {
  /** N; NaN where nothing applies. */
  readonly capacity: number;
  /** The mode that governs with its clause; null where nothing applies. */
  readonly mode: string | null;
}

/** One code at one embedment. */
export interface DesignPoint {
  readonly embedment: number;
  readonly nominal: DesignValue;
  readonly design: DesignValue;
  /** Limits of the governing design provision that this embedment or row is outside of. */
  readonly outside: readonly string[];
}

export interface DesignFamily {
  readonly code: CodeDefinition;
  readonly points: readonly DesignPoint[];
  readonly at: DesignPoint;
  /**
   * Least embedment at which bond and concrete carry the bar's own strength, by level; null where
   * none up to 100 diameters does.
   */
  readonly developsBar: Readonly<Record<"nominal" | "design", number | null>>;
  /**
   * Least embedment whose design capacity is the load asked for; null where none is, undefined
   * where none was asked for.
   */
  readonly carriesLoad?: number | null;
  readonly unjudged: readonly string[];
  /** Where another mode comes to govern the design capacity. */
  readonly modeChanges: readonly {
    readonly embedment: number;
    readonly capacity: number;
    readonly mode: string;
  }[];
  /** Titles of provisions that state no reduction. */
  readonly withoutReduction: readonly string[];
}

export interface AssumptionFactor extends Assumption, FactorShare {}

/** Two codes side by side along the embedment, and why they differ. */
export interface DesignComparison {
  readonly at: number;
  readonly diameter: number;
  readonly load_N?: number;
  readonly families: readonly [DesignFamily, DesignFamily];
  /** Where both capacities are equal, by level: mm and N. */
  readonly crossings: Readonly<
    Record<
      "nominal" | "design",
      readonly { readonly embedment: number; readonly capacity: number }[]
    >
  >;
  /** Design capacity of the second code over that of the first at `at`. */
  readonly ratio: number;
  /** Factors whose product is that ratio. */
  readonly factors: readonly AssumptionFactor[];
}
