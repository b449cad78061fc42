import { PROVENANCES, TRANSCRIPTIONS, type Provenance, type Transcription } from "./categories";
import type { Column } from "./column";

/** One laboratory's campaign or one paper. */
export interface Study {
  readonly study_id: string;
  readonly provenance: Provenance;
  readonly citation: string | null;
  readonly doi: string | null;
  readonly year: number | null;
  readonly licence: string | null;
  readonly transcription: Transcription | null;
  readonly remarks: string | null;
}

/** The columns of `studies.csv`. */
export const STUDY_COLUMNS: ReadonlyArray<Column> = [
  {
    name: "study_id",
    kind: "text",
    unit: null,
    required: true,
    meaning: "name of the study, as in tests.csv",
  },
  {
    name: "provenance",
    kind: "category",
    unit: null,
    required: true,
    categories: PROVENANCES,
    meaning: "published, demo (invented) or own",
  },
  { name: "citation", kind: "text", unit: null, required: false, meaning: "full reference" },
  { name: "doi", kind: "text", unit: null, required: false, meaning: "digital object identifier" },
  {
    name: "year",
    kind: "integer",
    unit: null,
    required: false,
    minimum: 1850,
    maximum: 2200,
    meaning: "year of publication or of the tests",
  },
  {
    name: "licence",
    kind: "text",
    unit: null,
    required: false,
    meaning: "terms under which the data may be used",
  },
  {
    name: "transcription",
    kind: "category",
    unit: null,
    required: false,
    categories: TRANSCRIPTIONS,
    meaning: "how the rows were taken over",
  },
  {
    name: "remarks",
    kind: "text",
    unit: null,
    required: false,
    meaning: "anything a reader should know",
  },
];

/** Whether data are invented: all of them, none, or some among others. */
export type Invented = boolean | "in part";

/**
 * What of some studies is invented, so that a figure of own tests is not called invented and a
 * mixed one says so.
 */
export function inventedAmong(studies: readonly Pick<Study, "provenance">[]): Invented {
  const invented = studies.filter(({ provenance }) => provenance === "demo").length;
  return invented === 0 ? false : invented === studies.length ? true : "in part";
}
