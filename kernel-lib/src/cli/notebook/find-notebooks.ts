import { existsSync, readdirSync, statSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { isStudy, projectRoot, studyInputs } from "../../face/project";
import { NotebookProblem } from "../../notebook";
import { enterStudy, readyForKernels } from "../study/enter-study";

/** The notebooks that files and folders stand for, a folder's in the order of their names. */
export function findNotebooks(places: readonly string[]): string[] {
  const found = places.flatMap((place) => {
    if (!existsSync(place))
      throw new NotebookProblem(
        `${place} does not exist. Enter a notebook (*.ipynb) or a folder of notebooks.`,
      );
    if (!statSync(place).isDirectory()) return [place];
    return readdirSync(place)
      .filter(
        (name) =>
          name.endsWith(".ipynb") && !name.endsWith(".partial.ipynb") && !name.startsWith("."),
      )
      .sort()
      .map((name) => join(place, name));
  });
  if (found.length === 0)
    throw new NotebookProblem(
      `${places.join(", ")} holds no notebook (*.ipynb). Enter a notebook or a folder of notebooks.`,
    );
  return found;
}

/** Notebooks, and the files and folders that they read. */
export interface NotebooksAndInputs {
  readonly files: readonly string[];
  readonly inputs: readonly string[];
}

/**
 * The notebooks that files and folders stand for, and what they read. The folder of a study stands
 * for its notebooks, and becomes the working folder: what is written goes there.
 * @param places default: the folder `notebooks`
 */
export function notebooksAndInputs(
  places: readonly string[],
  inputs: readonly string[] | undefined,
): NotebooksAndInputs {
  const [place, ...more] = places;
  const study = place !== undefined && more.length === 0 && isStudy(place);
  if (study) enterStudy(place);
  const files = findNotebooks(study || place === undefined ? ["notebooks"] : places);
  const root = rootOf(dirname(resolve(files[0] ?? ".")));
  if (root !== undefined && isStudy(root)) readyForKernels(root);
  return { files, inputs: inputs ?? (root === undefined ? ["datasets"] : studyInputs(root)) };
}

/** The study's folder around a notebook, where there is one. */
function rootOf(folder: string): string | undefined {
  try {
    return projectRoot(folder);
  } catch {
    return undefined;
  }
}
