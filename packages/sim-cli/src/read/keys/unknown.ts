import type { Keys } from "@rideon/sim-core";
import { FILES, type Root } from "./files.js";

/** Where a key of this name belongs: `wheels`, `the plan file`; nothing where no table knows it. */
function homeOf(name: string, root: Root): string | undefined {
  const own = blockWith(name, FILES[root].keys, []);
  if (own !== undefined) return own === "" ? `the top of the ${root} file` : own;
  const other = root === "loco" ? "plan" : "loco";
  const there = blockWith(name, FILES[other].keys, []);
  return there === undefined ? undefined : `the ${other} file${there === "" ? "" : `, under ${there}`}`;
}

function blockWith(name: string, keys: Keys, path: readonly string[]): string | undefined {
  if (Object.hasOwn(keys, name)) return path.join(".");
  for (const [block, key] of Object.entries(keys)) {
    if (key.kind !== "map" && key.kind !== "list") continue;
    const found = blockWith(name, key.keys, [...path, block]);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** What is said of a key that no table has here; `near` is the one it was likely meant for. */
export function unknownKey(path: string, name: string, near: string | undefined, root: Root): string {
  const home = near === undefined ? homeOf(name, root) : undefined;
  const hint = near !== undefined ? `; did you mean ${near}?` : home !== undefined ? `; it belongs in ${home}` : "";
  return `${path.slice(0, 200)} is not a key${hint}`;
}
