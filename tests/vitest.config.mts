import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    root: new URL("..", import.meta.url).pathname,
    include: ["tests/**/*.test.ts"],
    // Kernel and browser tests start real processes; the pure rooms finish far below this.
    testTimeout: 60_000,
    hookTimeout: 60_000,
    // Left alone, vitest keeps one processor for itself: on two, half the machine would stand idle.
    maxWorkers: "100%",
    reporters: ["default", "./tests/closing-line.ts"],
  },
});
