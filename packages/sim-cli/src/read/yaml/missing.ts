import type { Node } from "yaml";
import { examplesOf, type Table } from "../keys/files.js";
import { inside, type Slot, standsAt, type Walk } from "./slot.js";
import { tell } from "./yaml.js";

/** The keys of a block that are there, with their nodes. */
type Given = ReadonlyMap<string, Node>;
/** Keys that a misspelt one was most likely meant for: told once, not again as missing. */
type Misspelt = ReadonlySet<string>;

/** Tells the keys that must be there and are not. */
export function checkRequired(walk: Walk, slot: Slot, { keys }: Table, given: Given, misspelt: Misspelt): void {
  for (const [name, key] of Object.entries(keys)) {
    const path = inside(slot.path, name);
    if (!key.required || given.has(name) || misspelt.has(name) || walk.mayLack.has(`${walk.root}.${path}`)) continue;
    const [example] = examplesOf(key);
    const like = example ? `, such as ${name}: ${example}` : "";
    lacking(walk, slot, [path], `${path} is missing: ${key.meaning}${like}`);
  }
}

/** Tells where two keys stand that exclude each other, or none of those of which one is needed. */
export function checkChoices(walk: Walk, slot: Slot, { oneOf = [] }: Table, given: Given, misspelt: Misspelt): void {
  for (const { of, required } of oneOf) {
    const [first, ...others] = [...given.keys()].filter((name) => of.includes(name));
    for (const other of others) {
      const rival = `${inside(slot.path, other)} cannot stand beside ${first}; keep one of them`;
      tell(walk.file, given.get(other), rival);
    }
    if (first !== undefined || !required || of.some((name) => misspelt.has(name))) continue;
    if (walk.mayLack.has(`${walk.root}.${slot.path}`)) continue;
    const names = `${of.slice(0, -1).join(", ")} or ${of.at(-1)}`;
    const paths = of.map((name) => inside(slot.path, name));
    lacking(walk, slot, paths, `${slot.path === "" ? "" : `${slot.path}: `}one of ${names} is missing`);
  }
}

/** What is not there is told at its block, or is the fault of the `--set` that took it away. */
function lacking({ file }: Walk, slot: Slot, paths: readonly string[], message: string) {
  const remover = paths.map((path) => file.removed.get(path)).find((each) => each !== undefined);
  if (remover) file.usage.push({ file: remover.label, message });
  else tell(file, standsAt(file, slot), message);
}
