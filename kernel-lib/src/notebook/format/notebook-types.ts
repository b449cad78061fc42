/** A MIME bundle: one value in several representations, keyed by MIME type. */
export type MimeBundle = Record<string, unknown>;

/** Text as nbformat stores it: whole, or cut into lines that keep their line ends. */
export type MultilineText = string | string[];

export interface StreamOutput {
  output_type: "stream";
  name: string;
  text: MultilineText;
}

export interface DisplayOutput {
  output_type: "display_data";
  data: MimeBundle;
  metadata: Record<string, unknown>;
}

export interface ResultOutput {
  output_type: "execute_result";
  data: MimeBundle;
  metadata: Record<string, unknown>;
  execution_count: number | null;
}

export interface ErrorOutput {
  output_type: "error";
  ename: string;
  evalue: string;
  traceback: string[];
}

/** An output of a code cell, as nbformat 4 stores it. */
export type CellOutput = StreamOutput | DisplayOutput | ResultOutput | ErrorOutput;

interface CellBase {
  id: string;
  metadata: Record<string, unknown>;
  source: MultilineText;
}

export interface CodeCell extends CellBase {
  cell_type: "code";
  execution_count: number | null;
  outputs: CellOutput[];
}

export interface TextCell extends CellBase {
  cell_type: "markdown" | "raw";
  attachments?: Record<string, unknown>;
}

export type NotebookCell = CodeCell | TextCell;

/** A notebook of nbformat 4.5. */
export interface Notebook {
  nbformat: 4;
  nbformat_minor: 5;
  metadata: Record<string, unknown>;
  cells: NotebookCell[];
}
