import type { Provenance, Transcription } from "../schema/categories";
import type { Diagnostic } from "../diagnostics";
import { readTable } from "./read-table";
import type { RowSetAside } from "./row-set-aside";
import { STUDY_COLUMNS, type Study } from "../schema/study";

/** A studies file as read. */
export interface StudiesReading {
  readonly studies: ReadonlyArray<Study>;
  readonly diagnostics: ReadonlyArray<Diagnostic>;
  readonly rejected: ReadonlyArray<RowSetAside>;
}

/** Reads `studies.csv` from bytes; `file` is the name used in findings. */
export function parseStudies(bytes: Uint8Array, file: string): StudiesReading {
  const reading = readTable(bytes, file, STUDY_COLUMNS, "study_id");
  const texts = (name: string): ReadonlyArray<string | null> | null =>
    reading.columns.find(({ matched }) => matched.column?.name === name)?.texts() ?? null;
  const years =
    reading.columns.find(({ matched }) => matched.column?.name === "year")?.numbers() ?? null;
  const studies = Array.from({ length: reading.length }, (_, i): Study => {
    const text = (name: string): string | null => texts(name)?.[i] ?? null;
    const year = years?.[i] ?? NaN;
    return {
      study_id: text("study_id") ?? "",
      provenance: (text("provenance") ?? "own") as Provenance,
      citation: text("citation"),
      doi: text("doi"),
      year: Number.isNaN(year) ? null : year,
      licence: text("licence"),
      transcription: text("transcription") as Transcription | null,
      remarks: text("remarks"),
    };
  });
  return { studies, diagnostics: reading.diagnostics, rejected: reading.rejected };
}
