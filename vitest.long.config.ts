import { defineConfig } from "vitest/config";

const MEASURES = ["test/long/interrupts.test.ts", "test/long/profiles.test.ts"];

// What takes minutes, or a network: the packages as others install them, thousands of made-up cases, and long files against
// a clock. Those come first, one after the other.
export default defineConfig({
  test: {
    globalSetup: "./test/support/folders.ts",
    provide: { command: new URL("./packages/sim-cli/bin/rideon.js", import.meta.url).pathname },
    testTimeout: 900_000,
    hookTimeout: 1_200_000,
    reporters: process.env["CI"] ? ["default", ["json", { outputFile: ".cache/vitest.long.json" }]] : ["default"],
    projects: [
      {
        extends: true,
        test: {
          name: "measures",
          include: MEASURES,
          fileParallelism: false,
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: {
          name: "long",
          include: ["test/long/**/*.test.ts"],
          exclude: MEASURES,
          maxWorkers: "100%",
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
