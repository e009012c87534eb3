import { defineConfig } from "vitest/config";

// What takes minutes, or a network: the packages as others install them, and long files against a clock.
export default defineConfig({
  test: {
    include: ["test/long/**/*.test.ts"],
    globalSetup: "./test/support/folders.ts",
    provide: { command: new URL("./packages/sim-cli/bin/rideon.js", import.meta.url).pathname },
    testTimeout: 600_000,
    hookTimeout: 900_000,
    // One after the other: they measure.
    fileParallelism: false,
    reporters: process.env["CI"] ? ["default", ["json", { outputFile: ".cache/vitest.long.json" }]] : ["default"],
  },
});
