import { statSync } from "node:fs";
import { isBuiltin } from "node:module";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

/** The page's own program, of one file, from the compiled core and the page's sources. */

const at = (path) => fileURLToPath(new URL(`../${path}`, import.meta.url));
const outfile = at("dist/page/live.js");

/** Nothing of Node is used in the page; what other users of a file want of it may be left out. */
const withoutNode = {
  name: "without-node",
  setup({ onResolve }) {
    onResolve({ filter: /^node:|^[a-z_]+$/ }, ({ path }) =>
      isBuiltin(path) ? { path, external: true, sideEffects: false } : undefined,
    );
  },
};

const { metafile } = await build({
  entryPoints: [at("live/main.ts")],
  outfile,
  bundle: true,
  minify: true,
  charset: "utf8",
  format: "iife",
  target: "es2022",
  legalComments: "none",
  metafile: true,
  plugins: [withoutNode],
});

const [made] = Object.values(metafile.outputs);
const left = made.imports.filter(({ external }) => external);
if (left.length > 0) throw new Error(`the page's program still imports ${left.map(({ path }) => path).join(", ")}`);
console.log(`dist/page/live.js: ${Math.round(statSync(outfile).size / 1000)} kB`);
