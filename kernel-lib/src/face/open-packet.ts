import { join, resolve } from "node:path";
import { readManifest, verifyManifest, type Manifest } from "../exports/manifest";
import { Table } from "../tables";
import { projectRoot } from "./project";
import { Findings } from "./results/findings";
import { count } from "./results/names";
import { Result, type Setting, type TableView } from "./results/result";

/**
 * A packet as it was received: its files, what it was made with, and whether each file is still as
 * its manifest lists it.
 * @example
 * const received = await openPacket("exports/received");
 * received.check();
 */
export class ReceivedPacket extends Result<"files" | "made with"> {
  constructor(
    protected readonly setting: Setting,
    /** The folder as given. */
    readonly folder: string,
    private readonly manifest: Manifest,
    private readonly faults: readonly string[],
  ) {
    super();
  }

  get name(): string {
    return "received-packet";
  }

  get answer(): string {
    const files = count(this.manifest.files.length, "file");
    return this.faults.length === 0
      ? `${this.folder}: ${files}, each as listed in manifest.json.`
      : `${this.folder}: ${files} listed, ${count(this.faults.length, "difference")} found.`;
  }

  /** Every file that is missing, new or not as listed; or that all are as listed. */
  check(): Findings {
    return new Findings(this.faults.length === 0 ? [this.answer] : this.faults);
  }

  protected sentences(): readonly string[] {
    return [this.answer, ...this.faults];
  }

  protected tableViews(): Readonly<Record<"files" | "made with", TableView>> {
    return {
      files: {
        title: `Files of ${this.folder}`,
        caption: this.answer,
        make: (text) =>
          new Table({
            ...text,
            rowKey: ["file"],
            columns: [
              { key: "file", title: "file", kind: "text" },
              { key: "bytes", title: "bytes", kind: "integer" },
              { key: "sha256", title: "SHA-256", kind: "text" },
            ],
            rows: this.manifest.files.map((file) => ({ ...file })),
          }),
      },
      "made with": {
        title: `Data and software of ${this.folder}`,
        caption: "Data files with their SHA-256, as the manifest lists them.",
        make: (text) =>
          new Table({
            ...text,
            rowKey: ["item"],
            columns: [
              { key: "item", title: "item", kind: "text" },
              { key: "value", title: "value", kind: "text" },
            ],
            rows: Object.entries({ ...this.manifest.madeWith, ...this.manifest.inputs }).map(
              ([item, value]) => ({ item, value }),
            ),
          }),
      },
    };
  }
}

/**
 * Opens a packet that was written or received, and compares every file with its manifest.
 * @param folder from the project's folder; default `exports/packet`
 * @throws ManifestProblem where there is no manifest or it cannot be used
 * @example (await openPacket("exports/received")).check()
 */
export async function openPacket(folder: string = "exports/packet"): Promise<ReceivedPacket> {
  const path = resolve(projectRoot(), folder);
  const manifest = await readManifest(join(path, "manifest.json"));
  return new ReceivedPacket(
    { keeps: false, invented: false, seed: 1 },
    folder,
    manifest,
    await verifyManifest(path),
  );
}
