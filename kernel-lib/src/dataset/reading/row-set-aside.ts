/** A row that could not be used, as typed, with the reasons. */
export interface RowSetAside {
  readonly file: string;
  readonly row: number;
  readonly cells: ReadonlyArray<string>;
  readonly reasons: ReadonlyArray<string>;
}
