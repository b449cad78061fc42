/**
 * A notebook, or a request about one, that cannot be worked with; the message says why in plain
 * words.
 */
export class NotebookProblem extends Error {
  override readonly name = "NotebookProblem";
}
