import type { Study } from "../dataset";

export const LABORATORIES = [
  { study_id: "demo-north-mole", short: "NM", name: "North Mole laboratory (invented)" },
  { study_id: "demo-inner-harbour", short: "IH", name: "Inner Harbour laboratory (invented)" },
] as const;

/** The studies of the invented laboratories. */
export function invented(): Study[] {
  return LABORATORIES.map(({ study_id, name }) => ({
    study_id,
    provenance: "demo",
    citation: `Breakwater parapet campaign, ${name}. Invented data, generated from a stated truth.`,
    doi: null,
    year: null,
    licence: "free to use; invented",
    transcription: "generated",
    remarks: "INVENTED: proves nothing about real bars",
  }));
}
