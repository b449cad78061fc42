// Time and memory of the whole packet. Run after a build: node tests/bench/export-packet.mjs
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../..", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "packet-"));
// The peak is read inside the process at its end: a parent only sees the largest of all its
// children.
const command = `process.argv.splice(1, 0, "code-comparison"); process.on("exit", () => console.error("peak " + process.resourceUsage().maxRSS)); require(${JSON.stringify(join(root, "kernel-lib/dist/cli/main.js"))})`;
const runs = [];
for (let i = 0; i < 3; i += 1) {
  const start = performance.now();
  const { status, stderr } = spawnSync(
    process.execPath,
    ["-e", command, "--", "export", "--out", folder],
    { cwd: root, encoding: "utf8" },
  );
  if (status !== 0) throw new Error(stderr);
  runs.push({
    seconds: (performance.now() - start) / 1000,
    megabytes: (Number(/peak (\d+)/.exec(stderr)?.[1]) * 1024) / 1e6,
  });
}
rmSync(folder, { recursive: true });
console.log(
  `export: the full packet, least of ${runs.length}  ${Math.min(...runs.map(({ seconds }) => seconds)).toFixed(1)} s  (limit 20)`,
);
console.log(
  `export: largest peak memory of ${runs.length}  ${Math.max(...runs.map(({ megabytes }) => megabytes)).toFixed(0)} MB  (limit 500)`,
);
