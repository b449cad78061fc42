// npm run bench [name...]: every bench, or those whose name holds one of the words, one after the
// other.
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";

const folder = fileURLToPath(new URL(".", import.meta.url));
const built = fileURLToPath(new URL("../../kernel-lib/dist/index.js", import.meta.url));
if (!existsSync(built)) {
  console.error("kernel-lib is not built: run npm run build first");
  process.exit(2);
}

const words = process.argv.slice(2);
const all = readdirSync(folder)
  .filter((file) => file.endsWith(".mjs") && file !== "run.mjs")
  .sort();
const chosen =
  words.length === 0 ? all : all.filter((file) => words.some((word) => file.includes(word)));
if (chosen.length === 0) {
  console.error(
    `no bench is named like ${words.join(" or ")}; there are ${all.map((file) => file.replace(".mjs", "")).join(", ")}`,
  );
  process.exit(2);
}

const LIMIT = 300_000;
const failed = [];
for (const file of chosen) {
  console.log(`\n== ${file.replace(".mjs", "")}`);
  const start = performance.now();
  // One process each: no bench warms up, slows down or ends another.
  const { status, signal, error } = spawnSync(process.execPath, [folder + file], {
    stdio: "inherit",
    timeout: LIMIT,
  });
  if (status !== 0) failed.push(file);
  const ending =
    status === 0
      ? ""
      : `, failed (${error?.code === "ETIMEDOUT" ? `stopped after ${LIMIT / 1000} s` : (signal ?? `exit code ${status}`)})`;
  console.log(`   ${((performance.now() - start) / 1000).toFixed(1)} s${ending}`);
}
console.log(
  `\n${chosen.length - failed.length} of ${chosen.length} benches ran to their end${failed.length > 0 ? `; failed: ${failed.join(", ")}` : ""}`,
);
process.exit(failed.length > 0 ? 1 : 0);
