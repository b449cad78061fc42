import { Command } from "commander";
import { vi } from "vitest";

/** Runs one command line with the commands given and returns its exit code and what it printed. */
export async function runCommand(
  registers: readonly ((program: Command) => void)[],
  words: readonly string[],
): Promise<{ code: number; out: string; err: string }> {
  const out = vi.spyOn(console, "log").mockImplementation(() => undefined);
  const err = vi.spyOn(console, "error").mockImplementation(() => undefined);
  process.exitCode = 0;
  const program = new Command().exitOverride();
  registers.forEach((register) => register(program));
  try {
    await program.parseAsync([...words], { from: "user" });
    return {
      code: Number(process.exitCode),
      out: out.mock.calls.map(String).join("\n"),
      err: err.mock.calls.map(String).join("\n"),
    };
  } finally {
    process.exitCode = 0;
    out.mockRestore();
    err.mockRestore();
  }
}
