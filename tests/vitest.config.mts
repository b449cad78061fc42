import { defineConfig } from "vitest/config";

// Rooms of pure functions: their files share a process, so that the library is loaded once a
// process and not once a file.
const pure = [
  "units",
  "formula",
  "statistics",
  "regression",
  "dataset",
  "demonstration",
  "provisions",
  "comparison",
  "proposals",
  "figures",
  "tables",
  "exports",
];

export default defineConfig({
  test: {
    root: new URL("..", import.meta.url).pathname,
    // Kernel and browser tests start real processes; the pure rooms finish far below this.
    testTimeout: 60_000,
    hookTimeout: 60_000,
    // Left alone, vitest keeps one processor for itself: on two, half the machine would stand idle.
    maxWorkers: "100%",
    reporters: ["default", "./tests/closing-line.ts"],
    // Projects run in the order of their names: the long files first, the many short ones fill the
    // gaps at the end.
    projects: [
      {
        extends: true,
        test: {
          name: "a process each",
          include: ["tests/**/*.test.ts"],
          exclude: pure.map((room) => `tests/${room}/**`),
        },
      },
      {
        extends: true,
        test: {
          name: "pure rooms",
          include: pure.map((room) => `tests/${room}/**/*.test.ts`),
          isolate: false,
        },
      },
    ],
  },
});
