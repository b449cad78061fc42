import { emptyDataset } from "../../dataset";
import { STUDY_FILE, USUAL_SETTINGS, type StudySettings } from "../../face/study-settings";
import { notebookTemplates } from "./notebook-templates";

/**
 * The files of a new study, by path: settings, a data set to fill in, the notebooks.
 * @param name of the folder, which becomes the study's id and first title
 */
export function newStudy(name: string): Readonly<Record<string, string>> {
  const settings: StudySettings = {
    title: name,
    data: ["data"],
    ...USUAL_SETTINGS,
    fractile: 0.05,
    confidence: 0.9,
  };
  const below = (folder: string, files: Readonly<Record<string, string>>): [string, string][] =>
    Object.entries(files).map(([file, content]) => [`${folder}/${file}`, content]);
  return Object.fromEntries([
    [STUDY_FILE, `${JSON.stringify(settings, null, 2)}\n`],
    ...below("data", emptyDataset(name)),
    ...below("notebooks", notebookTemplates()),
    [".gitignore", "exports/\nnode_modules/\n.cache/\n*.partial.ipynb\n"],
  ]);
}
