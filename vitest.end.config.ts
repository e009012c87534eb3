import { defineConfig, mergeConfig } from "vitest/config";
import { END_TO_END } from "./test/support/end-to-end.js";
import normal from "./vitest.config.js";

// One after another with the normal tests and not beside them: both use every core.
export default defineConfig(() => {
  const config = mergeConfig(normal, {});
  config.test.include = END_TO_END;
  config.test.exclude = [];
  if (process.env["CI"]) config.test.reporters = ["default", ["json", { outputFile: ".cache/vitest.end.json" }]];
  return config;
});
