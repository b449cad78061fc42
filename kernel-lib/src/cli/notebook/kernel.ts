import type { Command } from "commander";
import { answering } from "../use/answering";
import { helpNotes } from "../use/help";
import { formatOption } from "../use/option-declarations";
import { oneOf } from "../use/invalid-input";
import { KERNEL_DISPLAY_NAME, installKernel, kernelStatus, removeKernel } from "../../notebook";
import { say } from "../use/printing";

/** `code-comparison kernel install`. */
export async function installCommand(): Promise<number> {
  const file = await installKernel();
  say(`Kernel "${KERNEL_DISPLAY_NAME}" is installed: ${file}`);
  say("To remove it: code-comparison kernel remove");
  return 0;
}

/** `code-comparison kernel remove`. */
export async function removeCommand(): Promise<number> {
  say(
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
    say(JSON.stringify(status, null, 2));
  } else {
    say(
      `Jupyter: ${status.jupyter ?? "not found on the path (not needed to run and review notebooks)"}`,
    );
    say(`Jupyter data folder: ${status.dataFolder}`);
    say(`Kernels that Jupyter finds: ${status.kernels.join(", ") || "none"}`);
    say(
      `"${KERNEL_DISPLAY_NAME}": ${status.installed ? "installed" : "not installed. To install it: code-comparison kernel install"}`,
    );
    for (const problem of status.problems) say(`  ${problem}`);
  }
  return status.installed && status.problems.length === 0 ? 0 : 1;
}

/** Adds `kernel install`, `kernel remove` and `kernel status` to the command line. */
export function registerKernelCommand(program: Command): void {
  const kernel = program
    .command("kernel")
    .description(
      `install, check or remove the Jupyter kernel "${KERNEL_DISPLAY_NAME}" (no Python needed)`,
    );
  kernel
    .command("install")
    .description("write the kernel into your Jupyter data folder")
    .addHelpText("after", helpNotes({ examples: ["kernel install"], exit: "0 installed" }))
    .action(answering(installCommand));
  kernel
    .command("remove")
    .description("remove the kernel from your Jupyter data folder")
    .addHelpText(
      "after",
      helpNotes({ examples: ["kernel remove"], exit: "0 removed, or not installed" }),
    )
    .action(answering(removeCommand));
  kernel
    .command("status")
    .description(
      "report whether Jupyter and the kernel are installed, and whether the kernel would start",
    )
    .addOption(formatOption(["text", "json"]))
    .addHelpText(
      "after",
      helpNotes({
        examples: ["kernel status --format json"],
        exit: "0 the kernel is installed and would start; 1 otherwise",
      }),
    )
    .action(answering(statusCommand));
}
