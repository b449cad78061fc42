import { afterAll } from "vitest";
import { KernelClient } from "../../kernel-lib/src/notebook/kernel-client";

/**
 * One kernel for those runs of a test file that are not about a fresh one: starting it takes longer
 * than such a run. A run that ends its kernel leaves this one alive; what its cells declared is
 * still there for the next, which works in its own folder.
 */
export function sharedKernel(): (folder: string) => Promise<KernelClient> {
  let started: Promise<KernelClient> | undefined;
  afterAll(async () => void (await (await started)?.kill()));
  return async (folder) => {
    const kernel = await (started ??= KernelClient.start({ workingDirectory: folder }));
    await kernel.execute(`process.chdir(${JSON.stringify(folder)})`, () => undefined, false);
    return Object.create(kernel, {
      shutdown: { value: () => Promise.resolve() },
    }) as KernelClient;
  };
}
