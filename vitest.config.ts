import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    setupFiles: ["tests/seed.ts"],
    // In the long run a law may be tried for minutes.
    testTimeout: process.env.BOOTHKEEP_LONG === "1" ? 600_000 : 60_000,
    // A process that a file starts first may wait long for its turn on a busy machine.
    hookTimeout: 120_000,
    // The suite must stay under two minutes on a two-core machine; a third worker works while others wait for a process.
    // In the long run those processes are many by themselves.
    maxWorkers: process.env.BOOTHKEEP_LONG === "1" ? 2 : 3,
    // Files of one worker share what they import: no test mocks a module or leaves anything behind.
    isolate: false,
  },
});
