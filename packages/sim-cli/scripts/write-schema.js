// Writes what the tables of keys and the questions' descriptors feed: the JSON Schemas that the package ships, the
// declarations of the definitions in the core, and the tables of commands, of a sweep's figures and of keys in the README.
//   npm run schema
import { readFileSync, writeFileSync } from "node:fs";
import { figureTable } from "../dist/questions/sweep/listed.js";
import { questionTable } from "../dist/questions/table.js";
import { keyList, schemaOf } from "../dist/read/index.js";
import { definitionsText } from "../dist/read/keys/definitions.js";

for (const root of ["loco", "plan"]) {
  const file = new URL(`../schema/${root}.schema.json`, import.meta.url);
  writeFileSync(file, `${JSON.stringify(schemaOf(root), null, 2)}\n`);
}

writeFileSync(new URL("../../sim-core/src/parts/definitions.ts", import.meta.url), definitionsText());

const readme = new URL("../../../README.md", import.meta.url);
const between = (text, what, written) =>
  text.replace(new RegExp(`(?<=<!-- ${what} -->\n)[\\s\\S]*?(?=<!-- end of ${what} -->)`), () => `\n${written}\n\n`);
const tables = { questions: questionTable(), "sweep figures": figureTable(), keys: keyList() };
writeFileSync(
  readme,
  Object.entries(tables).reduce((text, [what, table]) => between(text, what, table), readFileSync(readme, "utf8")),
);
