import { defineConfig } from "vitest/config";
import { END_TO_END } from "./test/support/end-to-end.js";

const source = (path: string) => new URL(path, import.meta.url).pathname;

// Tests read the sources, so that coverage is true; test/cli runs the built command as a child process.
export default defineConfig({
  resolve: {
    alias: {
      "@rideon/sim-core": source("./packages/sim-core/src/index.ts"),
      "@rideon/sim-cli/read": source("./packages/sim-cli/src/read/index.ts"),
    },
  },
  test: {
    include: ["test/**/*.test.ts"],
    exclude: ["test/long/**", ...END_TO_END],
    globalSetup: ["./test/support/folders.ts", "./test/support/command.ts"],
    // Files share what they import, and both cores of a small machine work.
    isolate: false,
    maxWorkers: "100%",
    maxConcurrency: 2,
    // Longer than anything takes on a machine that is busy with other things.
    testTimeout: 300_000,
    hookTimeout: 300_000,
    expect: { poll: { timeout: 60_000 } },
    reporters: process.env["CI"] ? ["default", ["json", { outputFile: ".cache/vitest.json" }]] : ["default"],
  },
});
