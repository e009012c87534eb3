import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";
import type { TestProject } from "vitest/node";

declare module "vitest" {
  export interface ProvidedContext {
    /** The command's own program. */
    command: string;
  }
}

const PACKAGE = fileURLToPath(new URL("../../packages/sim-cli/", import.meta.url));
const THREAD = join(PACKAGE, "dist", "work", "thread.js");

/**
 * The built command in a few files in place of some three hundred: reading them is a third of what a short question takes,
 * and tests ask hundreds. The long tests ask it as it is built, and as it is installed.
 */
export default async function setup(project: TestProject): Promise<() => void> {
  const folder = mkdtempSync(join(tmpdir(), "rideon-command-"));
  await build({
    entryPoints: ["main.js", "worker.js", "signals.js"].map((file) => join(PACKAGE, "dist", file)),
    ...{ outdir: join(folder, "dist"), chunkNames: "chunks/[name]-[hash]" },
    ...{ bundle: true, splitting: true, format: "esm", platform: "node", keepNames: true, logLevel: "warning" },
    banner: { js: "import { createRequire as r } from 'node:module'; const require = r(import.meta.url);" },
    plugins: [
      {
        name: "files find what they look for beside them",
        setup: ({ onLoad }) =>
          onLoad({ filter: /[\\/]sim-cli[\\/]dist[\\/].*\.js$/ }, async ({ path }) => {
            // The program of threads is among the few files, everything else is where it was.
            const place = path === THREAD ? join(folder, relative(PACKAGE, path)) : path;
            const text = await readFile(path, "utf8");
            return { contents: text.replaceAll("import.meta.url", JSON.stringify(pathToFileURL(place).href)) };
          }),
      },
    ],
  });
  mkdirSync(join(folder, "bin"));
  writeFileSync(join(folder, "package.json"), '{ "type": "module" }');
  const command = join(folder, "bin", "rideon.js");
  copyFileSync(join(PACKAGE, "bin", "rideon.js"), command);
  project.provide("command", command);
  return () => rmSync(folder, { recursive: true, force: true });
}
