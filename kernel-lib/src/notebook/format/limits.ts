/**
 * What a notebook may hold before we refuse to work with it. A study's notebook stays far below.
 */
export const LIMITS = {
  /** Size of a notebook file. */
  notebookBytes: 64 * 1024 * 1024,
  /** Cells in a notebook. */
  cells: 2000,
  /** Characters of outputs kept for one cell; the rest is cut, and the cut is said. */
  outputCharacters: 8 * 1024 * 1024,
} as const;
