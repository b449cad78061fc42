import { existsSync, readFileSync, readdirSync } from "node:fs";
import { copyFile, rm, rmdir } from "node:fs/promises";
import { delimiter, dirname, join } from "node:path";
import { writeWhole } from "../format";
import { MEMORY_ENVIRONMENT, kernelArguments, preloadFile } from "../kernel-client";
import { jupyterDataFolder, kernelFolders, thisMachine } from "./data-folder";

/** The name under which Jupyter knows the kernel, and the name it shows. */
export const KERNEL_NAME = "code-comparison";
export const KERNEL_DISPLAY_NAME = "Code comparison (TypeScript)";

interface KernelSpec {
  readonly argv: readonly string[];
  readonly display_name: string;
  readonly language: string;
  readonly interrupt_mode: "signal";
  readonly env: Readonly<Record<string, string>>;
  readonly metadata: { readonly debugger: false };
}

/** The kernelspec: this Node, our preload, tslab. */
export function kernelSpec(): KernelSpec {
  return {
    argv: [process.execPath, ...kernelArguments("{connection_file}")],
    display_name: KERNEL_DISPLAY_NAME,
    language: "typescript",
    interrupt_mode: "signal",
    env: MEMORY_ENVIRONMENT,
    metadata: { debugger: false },
  };
}

function specFolder(dataFolder: string): string {
  return join(dataFolder, "kernels", KERNEL_NAME);
}

/** Under these names Jupyter looks for a kernel's logo. */
const LOGOS = ["logo-32x32.png", "logo-64x64.png", "logo-svg.svg"] as const;

/**
 * Writes the kernelspec and its logo into Jupyter's data folder; returns the spec's file. Doing it
 * again changes nothing.
 */
export async function installKernel(dataFolder: string = jupyterDataFolder()): Promise<string> {
  const file = join(specFolder(dataFolder), "kernel.json");
  await writeWhole(file, `${JSON.stringify(kernelSpec(), null, 2)}\n`);
  const drawn = join(dirname(preloadFile()), "logo");
  for (const logo of LOGOS) await copyFile(join(drawn, logo), join(dirname(file), logo));
  return file;
}

/**
 * Takes the kernelspec away again, and the folders around it that are empty then; false when there
 * was none.
 */
export async function removeKernel(dataFolder: string = jupyterDataFolder()): Promise<boolean> {
  const folder = specFolder(dataFolder);
  if (!existsSync(folder)) return false;
  await rm(folder, { recursive: true });
  // Only an empty folder can be removed so: one that holds anything else stays.
  for (const around of [dirname(folder), dataFolder])
    if (
      !(await rmdir(around).then(
        () => true,
        () => false,
      ))
    )
      break;
  return true;
}

export interface KernelStatus {
  readonly dataFolder: string;
  readonly installed: boolean;
  /** Why the installed kernel would not start, or differs from what would be installed now. */
  readonly problems: readonly string[];
  /** Names of all kernels that Jupyter finds, but for those in the folder of its own Python. */
  readonly kernels: readonly string[];
  /** The `jupyter` command found on the path; absent when there is none. */
  readonly jupyter?: string;
}

/** Whether the kernel is installed and would start, and whether Jupyter is there to use it. */
export function kernelStatus(dataFolder: string = jupyterDataFolder()): KernelStatus {
  const file = join(specFolder(dataFolder), "kernel.json");
  const kernels = [...new Set(kernelFolders(thisMachine(), dataFolder).flatMap(kernelsIn))].sort();
  const jupyter = findJupyter();
  return {
    dataFolder,
    installed: existsSync(file),
    problems: existsSync(file) ? specProblems(file) : [],
    kernels,
    ...(jupyter ? { jupyter } : {}),
  };
}

/** A folder counts as a kernel when it holds a kernel.json, as for Jupyter. */
function kernelsIn(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder).filter((name) => existsSync(join(folder, name, "kernel.json")));
}

function specProblems(file: string): string[] {
  let argv: unknown;
  try {
    argv = (JSON.parse(readFileSync(file, "utf8")) as Partial<KernelSpec>).argv;
  } catch (error) {
    return [`${file} is no valid JSON (${(error as Error).message}); install the kernel again`];
  }
  const given = Array.isArray(argv) ? argv.map(String) : [];
  const lost = given.filter(
    (argument) => /[\\/]/.test(argument) && !argument.startsWith("-") && !existsSync(argument),
  );
  if (lost.length > 0)
    return lost.map((path) => `${path} is no longer there; install the kernel again`);
  const same = JSON.stringify(given) === JSON.stringify(kernelSpec().argv);
  return same
    ? []
    : [
        "the installed kernel starts another Node or another copy of the library than this one; install it again to use this one",
      ];
}

function findJupyter(): string | undefined {
  const names = process.platform === "win32" ? ["jupyter.exe", "jupyter.cmd"] : ["jupyter"];
  const folders = (process.env["PATH"] ?? "").split(delimiter).filter((folder) => folder !== "");
  return folders
    .flatMap((folder) => names.map((name) => join(folder, name)))
    .find((candidate) => existsSync(candidate));
}
