// Writes what the tables of keys feed: the JSON Schemas that the package ships, and the list of keys in the README.
//   npm run schema
import { readFileSync, writeFileSync } from "node:fs";
import { keyList, schemaOf } from "../dist/read/index.js";

for (const root of ["loco", "plan"]) {
  const file = new URL(`../schema/${root}.schema.json`, import.meta.url);
  writeFileSync(file, `${JSON.stringify(schemaOf(root), null, 2)}\n`);
}

const readme = new URL("../../../README.md", import.meta.url);
const [before, , after] = readFileSync(readme, "utf8").split(/(?<=<!-- keys -->\n)([\s\S]*?)(?=<!-- end of keys -->)/);
writeFileSync(readme, `${before}\n${keyList()}\n\n${after}`);
