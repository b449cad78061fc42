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
 * %APPDATA%\jupyter, elsewhere $XDG_DATA_HOME/jupyter or ~/.local/share/jupyter.
 */
export function jupyterDataFolder({ platform, environment, home }: Surroundings = thisMachine()): string {
  const path = platform === "win32" ? win32 : posix;
  const named = environment["JUPYTER_DATA_DIR"];
  if (named) return named;
  if (platform === "darwin") return path.join(home, "Library", "Jupyter");
  if (platform === "win32") {
    const roaming = environment["APPDATA"];
    return roaming ? path.join(roaming, "jupyter") : path.join(environment["JUPYTER_CONFIG_DIR"] ?? path.join(home, ".jupyter"), "data");
  }
  return path.join(environment["XDG_DATA_HOME"] || path.join(home, ".local", "share"), "jupyter");
}
