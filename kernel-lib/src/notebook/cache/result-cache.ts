import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { writeWhole } from "../format";
import type { CellOutput } from "../format";

/** What a cell came to when it last ran. */
export interface CachedCell {
  readonly outputs: CellOutput[];
  readonly executionCount: number | null;
  /** The kernel's description of its language, which stands in the notebook's metadata. */
  readonly languageInfo: unknown;
}

/** Cells' results on disk, one file a key. A file that cannot be read counts as not there. */
export class ResultCache {
  constructor(private readonly folder: string) {}

  /**
   * All results for the keys, or undefined when one is missing: a cell cannot run without those
   * above it.
   */
  async getAll(keys: readonly string[]): Promise<CachedCell[] | undefined> {
    const found: CachedCell[] = [];
    for (const key of keys) {
      const cell = await this.get(key);
      if (!cell) return undefined;
      found.push(cell);
    }
    return found;
  }

  async put(key: string, cell: CachedCell): Promise<void> {
    await writeWhole(this.file(key), JSON.stringify(cell));
  }

  private async get(key: string): Promise<CachedCell | undefined> {
    try {
      const cell = JSON.parse(await readFile(this.file(key), "utf8")) as Partial<CachedCell>;
      return Array.isArray(cell.outputs) ? (cell as CachedCell) : undefined;
    } catch {
      return undefined;
    }
  }

  private file(key: string): string {
    return join(this.folder, key.slice(0, 2), `${key}.json`);
  }
}
