/** What a table of results is told beside its data. */
export interface TableText {
  readonly id: string;
  readonly title: string;
  readonly caption?: string;
  readonly notes?: readonly string[];
}
