import { statSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { withoutNode } from "./without-node.js";

/** The page's own program, of one file, from the compiled core and the page's sources. */

const at = (path) => fileURLToPath(new URL(`../${path}`, import.meta.url));
const outfile = at("dist/live.js");

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
console.log(`dist/live.js: ${Math.round(statSync(outfile).size / 1000)} kB`);
