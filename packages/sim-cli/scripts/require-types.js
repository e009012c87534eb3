// Types for callers that use `require`: under node16 a declaration counts as that of a CommonJS module by the package.json
// nearest to it, so that what each entry's declarations reach is copied beside one that says so. The program is the same:
// every Node that the packages are for requires ES modules.
import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const ENTRIES = { "sim-core": "index.d.ts", "sim-cli": "read/index.d.ts" };

for (const [name, entry] of Object.entries(ENTRIES)) {
  const dist = fileURLToPath(new URL(`../../${name}/dist/`, import.meta.url));
  const to = join(dist, "require");
  rmSync(to, { recursive: true, force: true });
  const reached = new Set([entry]);
  for (const file of reached) {
    const text = readFileSync(join(dist, file), "utf8").replace(/\n?\/\/# sourceMappingURL=.*\s*$/, "\n");
    for (const [, from] of text.matchAll(/(?:from|import\()\s*"(\.[^"]*)\.js"/g))
      reached.add(`${join(dirname(file), from)}.d.ts`);
    mkdirSync(dirname(join(to, file)), { recursive: true });
    writeFileSync(join(to, file), text);
  }
  writeFileSync(join(to, "package.json"), '{ "type": "commonjs" }\n');
}
