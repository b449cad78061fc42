import type { Provenance, Transcription } from "../schema/categories";
import type { Delimiter } from "../reading/delimited-text";
import type { DecimalSign } from "../reading/number-cells";

/** How sure one is of what a code in the source means. */
export type Confidence = "stated" | "likely" | "fair" | "uncertain" | "unknown";

/** What a code of the source stands for. */
export interface CodeMeaning {
  readonly value: string | null;
  readonly confidence: Confidence;
  readonly note?: string;
}

/**
 * How one of our columns is filled: from a source column, as a constant, from a template, a
 * product, a grouping, or the study.
 */
export interface RecipeColumn {
  readonly from?: string;
  readonly unit?: string;
  readonly times?: string;
  readonly scale?: number;
  readonly codes?: Readonly<Record<string, CodeMeaning>>;
  readonly constant?: string | number;
  readonly template?: string;
  readonly product?: ReadonlyArray<string | number>;
  readonly group_by?: ReadonlyArray<string>;
  readonly study?: true;
  readonly derived?: boolean;
  readonly meaning?: string;
}

/** A condition on one of our columns; all its parts must hold. */
export interface RecipeCondition {
  readonly column: string;
  readonly is?: ReadonlyArray<string | number>;
  readonly above?: number;
  readonly below?: number;
  readonly more_decimals_than?: number;
  readonly blank?: boolean;
}

/**
 * Something the source does not say and the recipe takes for granted: named, explained, and marked
 * in every row it touches. Rows for which `when` holds get `value`, or the product of numbers and
 * of our columns.
 */
export interface RecipeAssumption {
  readonly name: string;
  readonly says: string;
  /** How far it may be off, in words. */
  readonly uncertainty: string;
  readonly column: string;
  readonly when: ReadonlyArray<RecipeCondition>;
  readonly value?: string | number;
  readonly product?: ReadonlyArray<string | number>;
}

/**
 * A declarative mapping of a foreign table to a data set. Its JSON Schema is recipe.schema.json
 * beside this file.
 */
export interface Recipe {
  readonly name: string;
  readonly title: string;
  readonly source: {
    readonly file: string;
    readonly sha256?: string;
    readonly rows?: number;
    readonly licence: string;
    readonly address?: string;
  };
  readonly table: {
    readonly header_row?: number;
    readonly skip_after_header?: number;
    readonly sheet?: string;
    readonly delimiter?: Delimiter;
    readonly decimal?: DecimalSign;
    readonly fill_down?: ReadonlyArray<string>;
  };
  readonly study: {
    readonly provenance: Provenance;
    readonly transcription: Transcription;
    /** Column that names the study of each row; or `citation`, where one study made the table. */
    readonly citation_from?: string;
    readonly citation?: string;
    readonly prefix?: string;
    readonly remarks?: string;
  };
  readonly columns: Readonly<Record<string, RecipeColumn>>;
  readonly assumptions?: ReadonlyArray<RecipeAssumption>;
  readonly rejects?: ReadonlyArray<{
    readonly when: ReadonlyArray<RecipeCondition>;
    readonly reason: string;
  }>;
  readonly flags?: ReadonlyArray<{
    readonly when: ReadonlyArray<RecipeCondition>;
    readonly remark: string;
    readonly exclude?: boolean;
  }>;
  readonly doubts?: ReadonlyArray<string>;
}
