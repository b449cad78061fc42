import { existsSync, readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { NotebookProblem } from "../../notebook";

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
