import { readFile } from "node:fs/promises";
import { relative } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

/**
 * The command and the program of its threads in a few files, each question in its own: reading the some four hundred files
 * of command line and core one by one takes longer than a short question. Other people's packages stay where they are.
 */

const DIST = fileURLToPath(new URL("../dist/", import.meta.url));

/** All stand in one folder, so that what a file looks for beside itself is found from there. */
const filesFindWhatIsBesideThem = {
  name: "files find what is beside them",
  setup: ({ onLoad }) =>
    onLoad({ filter: /[\\/]sim-cli[\\/]dist[\\/].*\.js$/ }, async ({ path }) => {
      const own = `../${relative(DIST, path).replaceAll("\\", "/")}`;
      const text = await readFile(path, "utf8");
      // The program of threads is among the few files.
      const place = own === "../work/thread.js" ? "./work/thread.js" : own;
      return {
        contents: text.replaceAll("import.meta.url", `new URL(${JSON.stringify(place)}, import.meta.url).href`),
      };
    }),
};

await build({
  entryPoints: ["main.js", "worker.js", "signals.js"].map((file) => `${DIST}${file}`),
  outdir: `${DIST}command`,
  chunkNames: "[name]-[hash]",
  bundle: true,
  splitting: true,
  format: "esm",
  platform: "node",
  target: "node20",
  keepNames: true,
  external: [
    "ode-rk4",
    "pure-rand",
    "pure-rand/*",
    "simple-statistics",
    "commander",
    "csv-parse/sync",
    "csv-stringify/sync",
    "d3-scale",
    "yaml",
  ],
  plugins: [filesFindWhatIsBesideThem],
  logLevel: "warning",
});
