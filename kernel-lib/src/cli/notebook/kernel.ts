import type { Command } from "commander";
import { answering } from "../use/answering";
import { formatOption } from "../use/option-declarations";
import { oneOf } from "../use/wrong-use";
import { KERNEL_DISPLAY_NAME, installKernel, kernelStatus, removeKernel } from "../../notebook";

/** `code-comparison kernel install`. */
export async function installCommand(): Promise<number> {
  const file = await installKernel();
  console.log(`Kernel "${KERNEL_DISPLAY_NAME}" is installed: ${file}`);
  console.log("Undo it with: code-comparison kernel remove");
  return 0;
}

/** `code-comparison kernel remove`. */
export async function removeCommand(): Promise<number> {
  console.log(
    (await removeKernel())
      ? `Kernel "${KERNEL_DISPLAY_NAME}" is removed.`
      : `Kernel "${KERNEL_DISPLAY_NAME}" was not installed.`,
  );
  return 0;
}

/**
 * `code-comparison kernel status`. Exit code 1 when the kernel is not installed or would not start.
 */
export async function statusCommand(options: { readonly format?: string }): Promise<number> {
  const format = oneOf("format", options.format ?? "text", ["text", "json"]);
  const status = kernelStatus();
  if (format === "json") {
    console.log(JSON.stringify(status, null, 2));
  } else {
    console.log(
      `Jupyter: ${status.jupyter ?? "not found on the path (notebooks still run and are reviewed without it)"}`,
    );
    console.log(`Jupyter's data folder: ${status.dataFolder}`);
    console.log(`Kernels that Jupyter finds: ${status.kernels.join(", ") || "none"}`);
    console.log(
      `"${KERNEL_DISPLAY_NAME}": ${status.installed ? "installed" : "not installed; run: code-comparison kernel install"}`,
    );
    for (const problem of status.problems) console.log(`  ${problem}`);
  }
  return status.installed && status.problems.length === 0 ? 0 : 1;
}

/** Adds `kernel install`, `kernel remove` and `kernel status` to the command line. */
export function registerKernelCommand(program: Command): void {
  const kernel = program
    .command("kernel")
    .description(
      `make the kernel "${KERNEL_DISPLAY_NAME}" known to Jupyter, look after it, or take it away (needs no Python)`,
    );
  kernel
    .command("install")
    .description("write the kernel into your Jupyter data folder")
    .addHelpText("after", "\nExample:\n  code-comparison kernel install\n\nExit code: 0 installed.")
    .action(answering(installCommand));
  kernel
    .command("remove")
    .description("take the kernel out of it again")
    .addHelpText(
      "after",
      "\nExample:\n  code-comparison kernel remove\n\nExit code: 0 removed, or was not there.",
    )
    .action(answering(removeCommand));
  kernel
    .command("status")
    .description("say whether Jupyter and the kernel are there, and whether the kernel would start")
    .addOption(formatOption(["text", "json"]))
    .addHelpText(
      "after",
      "\nExample:\n  code-comparison kernel status --format json\n\nExit code: 0 the kernel is there and would start, 1 it is not or would not, 2 wrong use.",
    )
    .action(answering(statusCommand));
}
