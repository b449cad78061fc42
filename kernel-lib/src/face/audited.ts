import { bondStressByStudy, type BondStressByStudy } from "../comparison";
import { TEST_COLUMNS, type Dataset, type TestTable } from "../dataset";
import { predictionNeeds, type CodeDefinition, type PredictionNeed } from "../provisions";
import { readRows, type ReadRows } from "../tables";

/** Cylinder strength to which bond stresses are brought before studies are compared, MPa. */
export const REFERENCE_MPa = 30;

/** Blank in most rows by their nature: a blank says nothing. */
const MEANT_TO_BE_BLANK = ["excluded", "remarks"];

/** Columns that a row may leave blank. */
export const BLANK_ALLOWED: readonly string[] = TEST_COLUMNS.filter(
  ({ name, required }) => !required && !MEANT_TO_BE_BLANK.includes(name),
).map(({ name }) => name);

/** What an audit looks at. */
export interface AuditedData {
  readonly data: Dataset;
  /** The tests that the study looks at. */
  readonly chosen: TestTable;
  /** Why the others are not among them, in words. */
  readonly condition: string;
  /** Codes whose inputs are asked for. */
  readonly codes: readonly CodeDefinition[];
}

/** The data of an audit with what is found in them; each finding is computed once, when asked. */
export class Audited {
  #needs: readonly PredictionNeed[] | null = null;
  #rows: readonly ReadRows[] | null = null;
  #bond: readonly BondStressByStudy[] | null = null;

  constructor(private readonly given: AuditedData) {}

  get data(): Dataset {
    return this.given.data;
  }

  get chosen(): TestTable {
    return this.given.chosen;
  }

  get codeWords(): string {
    return this.given.codes.map(({ id }) => id).join(", ");
  }

  get rows(): readonly ReadRows[] {
    const { data, chosen, condition } = this.given;
    this.#rows ??= readRows(data, chosen, condition);
    return this.#rows;
  }

  get needs(): readonly PredictionNeed[] {
    const { codes, chosen } = this.given;
    this.#needs ??= codes.flatMap((code) => predictionNeeds(code, chosen));
    return this.#needs;
  }

  get bondStress(): readonly BondStressByStudy[] {
    this.#bond ??= bondStressByStudy(this.chosen, REFERENCE_MPa);
    return this.#bond;
  }
}
