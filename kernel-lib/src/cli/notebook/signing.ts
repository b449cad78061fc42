import { join } from "node:path";
import {
  REVIEW_RECORD_FILE,
  makeReviewRecord,
  recordSha256,
  reportHtml,
  signatureFile,
  writeReviewRecord,
  writeSignature,
  writeWhole,
} from "../../notebook";
import type { NotebookReview, ReviewRecord, SignedReport } from "../../notebook";
import { rm } from "node:fs/promises";

/** What of the command's options bears on signing. */
export interface SigningOptions {
  readonly inputs?: readonly string[];
  readonly acceptExcused?: boolean;
  readonly key?: string;
}

/** Signs a review: record, signature where a key is given, and the report that goes with them. */
export class Signing {
  readonly file: string;
  private signed: { readonly record: ReviewRecord; readonly key?: string } | undefined;

  constructor(
    private readonly out: string,
    private readonly options: SigningOptions,
  ) {
    this.file = join(out, REVIEW_RECORD_FILE);
  }

  get done(): boolean {
    return this.signed !== undefined;
  }

  /** Writes record, signature and report; gives a line for the reviewer. */
  readonly sign = async (reviewer: string, reviews: readonly NotebookReview[]): Promise<string> => {
    const record = await this.record(reviewer, reviews);
    await writeReviewRecord(this.file, record);
    // A signature of an earlier record speaks of that one only.
    await rm(signatureFile(this.file), { force: true });
    const { key } = this.options;
    const sealed = key === undefined ? {} : { key: await writeSignature(this.file, key) };
    this.signed = { record, ...sealed };
    await writeWhole(join(this.out, "report.html"), await reportHtml(reviews, this.report()));
    const left = reviews.reduce((sum, { cells, cellCount }) => sum + cellCount - cells.length, 0);
    return `Signed by ${record.reviewer}: ${this.file}${sealed.key === undefined ? "" : `, with the key ${sealed.key}`}${left > 0 ? ` (${left} cells were not rerun, and the record says so)` : ""}`;
  };

  /** What the report of these reviews says of the signing; nothing where they have changed since. */
  async of(reviews: readonly NotebookReview[]): Promise<SignedReport | undefined> {
    if (this.signed === undefined) return undefined;
    const { notebooks, reviewer } = this.signed.record;
    const now = await this.record(reviewer, reviews);
    return JSON.stringify(now.notebooks) === JSON.stringify(notebooks) ? this.report() : undefined;
  }

  private report(): SignedReport | undefined {
    if (this.signed === undefined) return undefined;
    const { record, ...sealed } = this.signed;
    return { ...record, sha256: recordSha256(record), ...sealed };
  }

  private record(reviewer: string, reviews: readonly NotebookReview[]): Promise<ReviewRecord> {
    const { inputs = ["datasets"], acceptExcused = false } = this.options;
    return makeReviewRecord(reviews, reviewer, inputs, { acceptExcused });
  }
}
