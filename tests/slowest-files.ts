import type { TestModule } from "vitest/node";

/**
 * The files that took longest, as lines to print: seconds spent importing and running each, longest
 * first.
 */
export function slowestFiles(modules: readonly TestModule[], most = 10): string {
  const timed = modules.map((module) => {
    const { collectDuration, setupDuration, duration } = module.diagnostic();
    return {
      file: module.relativeModuleId,
      seconds: (collectDuration + setupDuration + duration) / 1000,
    };
  });
  const longest = timed.sort((a, b) => b.seconds - a.seconds).slice(0, most);
  const lines = longest.map(({ file, seconds }) => `${seconds.toFixed(1).padStart(7)} s  ${file}`);
  return [
    `The ${longest.length} slowest of ${modules.length} files (importing and running):`,
    ...lines,
  ].join("\n");
}
