import { spawnSync } from "node:child_process";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { installKernel, jupyterDataFolder, kernelStatus, removeKernel } from "../../kernel-lib/src/notebook";
import { scratchFolder } from "./notebook-in-scratch";

describe("Jupyter's data folder", () => {
  // The rules of jupyter_core.paths.jupyter_data_dir.
  test.each([
    ["the variable goes first", "linux", { JUPYTER_DATA_DIR: "/d", XDG_DATA_HOME: "/x" }, "/d"],
    ["Linux", "linux", {}, "/home/u/.local/share/jupyter"],
    ["Linux with XDG_DATA_HOME", "linux", { XDG_DATA_HOME: "/x" }, "/x/jupyter"],
    ["macOS", "darwin", {}, "/home/u/Library/Jupyter"],
    ["Windows", "win32", { APPDATA: "C:\\Users\\u\\AppData\\Roaming" }, "C:\\Users\\u\\AppData\\Roaming\\jupyter"],
  ] as const)("%s", (_name, platform, environment, expected) => {
    expect(jupyterDataFolder({ platform, environment, home: "/home/u" })).toBe(expected);
  });

  const PYTHON = "/usr/bin/python3";
  const hasJupyter = existsSync(PYTHON) && spawnSync(PYTHON, ["-c", "import jupyter_core"]).status === 0;
  if (!hasJupyter) console.log("skipped: comparison with jupyter_core, as python3-jupyter-core is not installed");
  test.skipIf(!hasJupyter)("is what jupyter_core itself says here", () => {
    for (const extra of [{ JUPYTER_DATA_DIR: "/data" }, { JUPYTER_DATA_DIR: "", XDG_DATA_HOME: "/share" }, { JUPYTER_DATA_DIR: "", XDG_DATA_HOME: "" }]) {
      const environment: NodeJS.ProcessEnv = { ...process.env, ...extra, JUPYTER_PLATFORM_DIRS: "0" };
      const said = spawnSync(PYTHON, ["-W", "ignore", "-c", "from jupyter_core.paths import jupyter_data_dir; print(jupyter_data_dir())"], { env: environment, encoding: "utf8" }).stdout.trim();
      expect(jupyterDataFolder({ platform: process.platform, environment, home: process.env["HOME"] ?? "" })).toBe(said);
    }
  });
});

describe("the kernelspec", () => {
  test("install, again, status, remove, again", async () => {
    const folder = scratchFolder();
    expect(kernelStatus(folder)).toMatchObject({ installed: false, kernels: [] });
    const file = await installKernel(folder);
    const once = readFileSync(file, "utf8");
    expect(await installKernel(folder)).toBe(file);
    expect(readFileSync(file, "utf8")).toBe(once);
    const { argv } = JSON.parse(once) as { argv: string[] };
    expect(argv).toContain("{connection_file}");
    expect(argv.filter((argument) => argument.startsWith("/")).every((path) => existsSync(path))).toBe(true);
    expect(kernelStatus(folder)).toMatchObject({ installed: true, problems: [], kernels: ["code-comparison"] });
    expect(await removeKernel(folder)).toBe(true);
    expect(await removeKernel(folder)).toBe(false);
    expect(existsSync(join(folder, "kernels", "code-comparison"))).toBe(false);
  });

  test("status tells a lost file and a spoilt spec", async () => {
    const folder = scratchFolder();
    const file = await installKernel(folder);
    writeFileSync(file, readFileSync(file, "utf8").replace("preload.cjs", "gone.cjs"));
    expect(kernelStatus(folder).problems.join()).toContain("gone.cjs is no longer there");
    writeFileSync(file, "{");
    expect(kernelStatus(folder).problems.join()).toContain("no valid JSON");
  });
});
