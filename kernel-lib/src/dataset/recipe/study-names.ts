import type { Study } from "../schema/study";
import type { Recipe } from "./recipe";

/**
 * Study ids by citation: first word and year, with a letter where two citations would share one.
 */
export function nameStudies(
  citations: Iterable<string>,
  recipe: Recipe,
): { readonly idOf: ReadonlyMap<string, string>; readonly studies: ReadonlyArray<Study> } {
  const idOf = new Map<string, string>();
  const taken = new Set<string>();
  const studies: Study[] = [];
  for (const citation of citations) {
    if (citation === "" || idOf.has(citation)) continue;
    const word = /\p{L}[\p{L}'-]*/u.exec(citation)?.[0] ?? "study";
    const year = /\b(?:19|20)\d{2}\b/.exec(citation)?.[0] ?? null;
    const plain =
      word
        .normalize("NFKD")
        .toLowerCase()
        .replace(/[^a-z0-9]+/g, "-")
        .replace(/^-+|-+$/g, "") || "study";
    const stem = `${recipe.study.prefix ?? ""}${plain}${year === null ? "" : `-${year}`}`;
    let id = stem;
    for (let n = 1; taken.has(id); n += 1) id = `${stem}${String.fromCharCode(97 + n)}`;
    taken.add(id);
    idOf.set(citation, id);
    studies.push({
      study_id: id,
      provenance: recipe.study.provenance,
      citation,
      doi: null,
      year: year === null ? null : Number(year),
      licence: recipe.source.licence,
      transcription: recipe.study.transcription,
      remarks: recipe.study.remarks ?? null,
    });
  }
  return { idOf, studies };
}
