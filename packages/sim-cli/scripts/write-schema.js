// Writes the JSON Schemas that the package ships, from the built tables of keys: npm run schema.
import { writeFileSync } from "node:fs";
import { schemaOf } from "../dist/read/index.js";

for (const root of ["loco", "plan"]) {
  const file = new URL(`../schema/${root}.schema.json`, import.meta.url);
  writeFileSync(file, `${JSON.stringify(schemaOf(root), null, 2)}\n`);
}
