import { readFileSync } from "node:fs";
import { locoKeys } from "@rideon/sim-core";
import { valueIn } from "../read/index.js";
import type { Reading } from "../read/plan.js";
import { BEARINGS, type Bearings } from "./units.js";

const ASSUMED = locoKeys.resistance.keys.bearings.default.value;

/** Those of a plan's loco and, where the whole train was measured, of its cars: each kind once. */
export function bearingsIn({ loco, plan }: Pick<Reading, "loco" | "plan">, whole: boolean): Bearings[] {
  const own = loco.resistance?.bearings ?? ASSUMED;
  const cars = whole ? (plan.cars ?? []).map(({ bearings }) => bearings ?? own) : [];
  return [...new Set([own, ...cars])];
}

/** Those of a loco's file; none where it cannot be read, which is told by who writes into it. */
export function bearingsOfFile(path: string): Bearings[] {
  try {
    const told = valueIn(readFileSync(path, "utf8"), ["resistance", "bearings"]);
    const kind = told === undefined ? ASSUMED : BEARINGS.find((each) => each === told);
    return kind === undefined ? [] : [kind];
  } catch {
    return [];
  }
}
