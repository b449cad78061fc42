import { KernelClient } from "../kernel-client";
import type { KernelStartOptions } from "../kernel-client";

/**
 * Hands out fresh kernels and keeps a spare one starting in the background, so that the next
 * notebook need not wait for it. A kernel is never used twice.
 */
export class KernelSupply {
  private readonly spares = new Map<string, Promise<KernelClient>>();

  constructor(private readonly options: Omit<KernelStartOptions, "workingDirectory"> = {}) {}

  /** A fresh kernel working in the folder. */
  async take(folder: string): Promise<KernelClient> {
    const spare = this.spares.get(folder);
    this.spares.delete(folder);
    return spare ?? this.start(folder);
  }

  /** Starts a spare kernel for the folder, if none is waiting there yet. */
  prepare(folder: string): void {
    if (this.spares.has(folder)) return;
    const spare = this.start(folder);
    // Whoever takes it sees the error; a spare that nobody takes must not end the process.
    spare.catch(() => undefined);
    this.spares.set(folder, spare);
  }

  /** Ends the spares that nobody took. */
  async close(): Promise<void> {
    const spares = [...this.spares.values()];
    this.spares.clear();
    await Promise.all(
      spares.map((spare) => spare.then((kernel) => kernel.kill()).catch(() => undefined)),
    );
  }

  private start(folder: string): Promise<KernelClient> {
    return KernelClient.start({ ...this.options, workingDirectory: folder });
  }
}
