import { homedir } from "node:os";
import { posix, win32 } from "node:path";

export interface Surroundings {
  readonly platform: NodeJS.Platform;
  readonly environment: Readonly<Record<string, string | undefined>>;
  readonly home: string;
}

/** The machine we run on. */
export function thisMachine(): Surroundings {
  return { platform: process.platform, environment: process.env, home: homedir() };
}

/**
 * The user's Jupyter data folder, found as Jupyter itself finds it (jupyter_core's
 * `jupyter_data_dir`): JUPYTER_DATA_DIR; else on macOS ~/Library/Jupyter, on Windows
 * %APPDATA%\jupyter, elsewhere $XDG_DATA_HOME/jupyter or ~/.local/share/jupyter. When
 * JUPYTER_PLATFORM_DIRS is set, on macOS ~/Library/Application Support/jupyter and on Windows
 * %LOCALAPPDATA%\jupyter.
 */
export function jupyterDataFolder(
  { platform, environment, home }: Surroundings = thisMachine(),
): string {
  const path = pathRules(platform);
  const named = environment["JUPYTER_DATA_DIR"];
  if (named) return named;
  const platformFolders = isSet(environment["JUPYTER_PLATFORM_DIRS"]);
  if (platform === "darwin")
    return platformFolders
      ? path.join(home, "Library", "Application Support", "jupyter")
      : path.join(home, "Library", "Jupyter");
  if (platform === "win32") {
    if (platformFolders)
      return path.join(
        environment["LOCALAPPDATA"] || path.join(home, "AppData", "Local"),
        "jupyter",
      );
    const roaming = environment["APPDATA"];
    return roaming
      ? path.join(roaming, "jupyter")
      : path.join(environment["JUPYTER_CONFIG_DIR"] || path.join(home, ".jupyter"), "data");
  }
  return path.join(environment["XDG_DATA_HOME"] || path.join(home, ".local", "share"), "jupyter");
}

/**
 * The folders in which Jupyter looks for kernels, first the user's own (jupyter_core's
 * `jupyter_path("kernels")`, but for the folder of the Python it runs in, which only it knows).
 */
export function kernelFolders(
  surroundings: Surroundings = thisMachine(),
  dataFolder = jupyterDataFolder(surroundings),
): string[] {
  const { platform, environment } = surroundings;
  const path = pathRules(platform);
  const extra = (environment["JUPYTER_PATH"] ?? "")
    .split(path.delimiter)
    .filter((folder) => folder !== "");
  const programData = environment["PROGRAMDATA"];
  const system =
    platform === "win32"
      ? programData
        ? [path.join(programData, "jupyter")]
        : []
      : ["/usr/local/share/jupyter", "/usr/share/jupyter"];
  return [...new Set([...extra, dataFolder, ...system])].map((folder) =>
    path.join(folder, "kernels"),
  );
}

function pathRules(platform: NodeJS.Platform): typeof posix {
  return platform === "win32" ? win32 : posix;
}

/** As Jupyter reads a yes or no from the environment. */
function isSet(value: string | undefined): boolean {
  return (
    value !== undefined &&
    value !== "" &&
    !["no", "n", "false", "off", "0", "0.0"].includes(value.toLowerCase())
  );
}
