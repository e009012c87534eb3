import { readFile, rm } from "node:fs/promises";
import { relative } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

/**
 * The command and the program of its threads in a few files, each question in its own: reading the some four hundred files
 * of command line and core one by one takes longer than a short question. Other people's packages stay where they are.
 */

const DIST = fileURLToPath(new URL("../dist/", import.meta.url));

/** Packages of other people that the two depend on. */
const others = (
  await Promise.all(
    ["../package.json", "../../sim-core/package.json"].map(async (path) =>
      Object.keys(JSON.parse(await readFile(new URL(path, import.meta.url), "utf8")).dependencies),
    ),
  )
)
  .flat()
  .filter((name) => !name.startsWith("@rideon/"));

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

// Their names change with what is in them: those of an earlier build would be left, and packed.
await rm(`${DIST}command`, { recursive: true, force: true });
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
  // With what stands below them, such as csv-parse/sync.
  external: others.flatMap((name) => [name, `${name}/*`]),
  plugins: [filesFindWhatIsBesideThem],
  logLevel: "warning",
});
