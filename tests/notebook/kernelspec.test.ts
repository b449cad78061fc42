import { spawnSync } from "node:child_process";
import { existsSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, test } from "vitest";
import {
  installKernel,
  jupyterDataFolder,
  kernelFolders,
  kernelStatus,
  removeKernel,
} from "../../kernel-lib/src/notebook";
import { scratchFolder } from "./notebook-in-scratch";

describe("Jupyter's data folder", () => {
  // The rules of jupyter_core.paths.jupyter_data_dir.
  test.each([
    ["the variable goes first", "linux", { JUPYTER_DATA_DIR: "/d", XDG_DATA_HOME: "/x" }, "/d"],
    ["Linux", "linux", {}, "/home/u/.local/share/jupyter"],
    ["Linux with XDG_DATA_HOME", "linux", { XDG_DATA_HOME: "/x" }, "/x/jupyter"],
    ["macOS", "darwin", {}, "/home/u/Library/Jupyter"],
    [
      "Windows",
      "win32",
      { APPDATA: "C:\\Users\\u\\AppData\\Roaming" },
      "C:\\Users\\u\\AppData\\Roaming\\jupyter",
    ],
    ["Windows without APPDATA", "win32", {}, "\\home\\u\\.jupyter\\data"],
    [
      "Windows without APPDATA, with a configuration folder",
      "win32",
      { JUPYTER_CONFIG_DIR: "D:\\c" },
      "D:\\c\\data",
    ],
    [
      "the variable goes first on Windows",
      "win32",
      { JUPYTER_DATA_DIR: "D:\\j", APPDATA: "C:\\a", JUPYTER_PLATFORM_DIRS: "1" },
      "D:\\j",
    ],
    // platformdirs.user_data_dir("jupyter", appauthor=False)
    [
      "Linux with the platform's folders",
      "linux",
      { JUPYTER_PLATFORM_DIRS: "1" },
      "/home/u/.local/share/jupyter",
    ],
    [
      "macOS with the platform's folders",
      "darwin",
      { JUPYTER_PLATFORM_DIRS: "yes" },
      "/home/u/Library/Application Support/jupyter",
    ],
    [
      "macOS with the platform's folders refused",
      "darwin",
      { JUPYTER_PLATFORM_DIRS: "False" },
      "/home/u/Library/Jupyter",
    ],
    [
      "Windows with the platform's folders",
      "win32",
      { LOCALAPPDATA: "C:\\l", APPDATA: "C:\\r", JUPYTER_PLATFORM_DIRS: "1" },
      "C:\\l\\jupyter",
    ],
  ] as const)("%s", (_name, platform, environment, expected) => {
    expect(jupyterDataFolder({ platform, environment, home: "/home/u" })).toBe(expected);
  });

  const PYTHON = "/usr/bin/python3";
  const hasJupyter =
    existsSync(PYTHON) && spawnSync(PYTHON, ["-c", "import jupyter_core"]).status === 0;
  if (!hasJupyter)
    console.log("skipped: comparison with jupyter_core, as python3-jupyter-core is not installed");
  test.skipIf(!hasJupyter)("is what jupyter_core itself says here", () => {
    const settings = [
      { JUPYTER_DATA_DIR: "/data" },
      { JUPYTER_DATA_DIR: "", XDG_DATA_HOME: "/share" },
      { JUPYTER_DATA_DIR: "", XDG_DATA_HOME: "" },
      { JUPYTER_DATA_DIR: "", XDG_DATA_HOME: "/share", JUPYTER_PLATFORM_DIRS: "1" },
    ];
    for (const extra of settings) {
      const environment: NodeJS.ProcessEnv = {
        ...process.env,
        JUPYTER_PLATFORM_DIRS: "0",
        ...extra,
      };
      const said = spawnSync(
        PYTHON,
        [
          "-W",
          "ignore",
          "-c",
          "from jupyter_core.paths import jupyter_data_dir; print(jupyter_data_dir())",
        ],
        { env: environment, encoding: "utf8" },
      ).stdout.trim();
      expect(
        jupyterDataFolder({
          platform: process.platform,
          environment,
          home: process.env["HOME"] ?? "",
        }),
      ).toBe(said);
    }
  });
});

describe("the folders in which Jupyter looks for kernels", () => {
  // The rules of jupyter_core.paths.jupyter_path.
  test.each([
    [
      "linux",
      { JUPYTER_PATH: "/a:/b" },
      [
        "/a/kernels",
        "/b/kernels",
        "/home/u/.local/share/jupyter/kernels",
        "/usr/local/share/jupyter/kernels",
        "/usr/share/jupyter/kernels",
      ],
    ],
    [
      "darwin",
      {},
      [
        "/home/u/Library/Jupyter/kernels",
        "/usr/local/share/jupyter/kernels",
        "/usr/share/jupyter/kernels",
      ],
    ],
    [
      "win32",
      { APPDATA: "C:\\r", PROGRAMDATA: "C:\\p", JUPYTER_PATH: "D:\\a;D:\\b" },
      ["D:\\a\\kernels", "D:\\b\\kernels", "C:\\r\\jupyter\\kernels", "C:\\p\\jupyter\\kernels"],
    ],
  ] as const)("%s", (platform, environment, expected) => {
    expect(kernelFolders({ platform, environment, home: "/home/u" })).toEqual(expected);
  });
});

describe("the kernelspec", () => {
  test("install, again, status, remove, again", async () => {
    const folder = scratchFolder();
    expect(kernelStatus(folder)).toMatchObject({ installed: false });
    expect(kernelStatus(folder).kernels).not.toContain("code-comparison");
    const file = await installKernel(folder);
    const once = readFileSync(file, "utf8");
    expect(await installKernel(folder)).toBe(file);
    expect(readFileSync(file, "utf8")).toBe(once);
    const { argv } = JSON.parse(once) as { argv: string[] };
    expect(argv).toContain("{connection_file}");
    expect(
      argv.filter((argument) => argument.startsWith("/")).every((path) => existsSync(path)),
    ).toBe(true);
    expect(kernelStatus(folder)).toMatchObject({
      installed: true,
      problems: [],
      kernels: expect.arrayContaining(["code-comparison"]) as string[],
    });
    expect(await removeKernel(folder)).toBe(true);
    expect(await removeKernel(folder)).toBe(false);
    expect(existsSync(join(folder, "kernels", "code-comparison"))).toBe(false);
  });

  test("the logo is there, as large as its names say", async () => {
    const folder = scratchFolder();
    const at = dirname(await installKernel(folder));
    for (const size of [32, 64]) {
      const png = readFileSync(join(at, `logo-${size}x${size}.png`));
      // PNG (ISO/IEC 15948), 5.2 and 11.2.2: signature, then IHDR with width and height.
      expect(png.subarray(0, 8).toString("latin1")).toBe("\x89PNG\r\n\x1a\n");
      expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([size, size]);
    }
    expect(readFileSync(join(at, "logo-svg.svg"), "utf8")).toContain("<svg ");
  });

  test("remove leaves nothing of its own, and nothing else away", async () => {
    const alone = join(scratchFolder(), "data");
    await installKernel(alone);
    await removeKernel(alone);
    expect(existsSync(alone)).toBe(false);
    const shared = scratchFolder();
    await installKernel(shared);
    writeFileSync(join(shared, "other.txt"), "");
    await removeKernel(shared);
    expect(readdirSync(shared)).toEqual(["other.txt"]);
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
