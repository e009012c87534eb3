import { defineConfig } from "vitest/config";

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
    exclude: ["test/long/**"],
    testTimeout: 30_000,
    reporters: process.env["CI"] ? ["default", ["json", { outputFile: ".cache/vitest.json" }]] : ["default"],
  },
});
