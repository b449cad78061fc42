import { createRequire } from "node:module";

// node commands-in-turn.mjs <main.js> <command lines as JSON>: runs command lines one after the other,
// each as the process would: the command's own main file anew, until nothing is left to do.
const require = createRequire(import.meta.url);
const [, , main, given] = process.argv;
const lines = JSON.parse(given);
const answers = [];
const written = { stdout: "", stderr: "" };
const write = process.stdout.write.bind(process.stdout);
for (const name of ["stdout", "stderr"])
  process[name].write = (text, ...rest) => {
    written[name] += String(text);
    rest.find((one) => typeof one === "function")?.();
    return true;
  };

function next() {
  if (answers.length === lines.length) return;
  process.argv = [process.argv[0], "code-comparison", ...lines[answers.length]];
  process.exitCode = 0;
  process.stdout.removeAllListeners("error");
  delete require.cache[require.resolve(main)];
  require(main);
  // Keeps the process alive for a command that ends at once, so that its end is told as well.
  setImmediate(() => undefined);
}
process.on("beforeExit", () => {
  if (answers.length === lines.length) return;
  answers.push({ status: process.exitCode ?? 0, ...written });
  written.stdout = written.stderr = "";
  next();
});
process.on("exit", () => {
  process.exitCode = 0;
  write(JSON.stringify(answers));
});
next();
