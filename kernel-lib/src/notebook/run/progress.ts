/** What a run tells while it goes on. */
export type RunProgress =
  | { readonly kind: "notebook-started"; readonly file: string; readonly cells: number }
  | {
      readonly kind: "cell-started";
      readonly file: string;
      readonly number: number;
      readonly cells: number;
      readonly title: string;
    }
  | {
      readonly kind: "cell-finished";
      readonly file: string;
      readonly number: number;
      readonly cells: number;
      readonly title: string;
      readonly status: CellRunStatus;
      readonly seconds: number;
      /** Since the notebook's start, and what is left at the pace so far. */
      readonly elapsedSeconds: number;
      readonly remainingSeconds: number;
    }
  | {
      readonly kind: "notebook-finished";
      readonly file: string;
      readonly status: "done" | "failed";
      readonly seconds: number;
    };

export type CellRunStatus = "ok" | "cached" | "error" | "timed_out" | "died" | "interrupted";
export type OnProgress = (progress: RunProgress) => void;
