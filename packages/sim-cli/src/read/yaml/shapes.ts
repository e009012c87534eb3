import {
  type Bounds,
  type CapacityKey,
  type CapacityRate,
  doubtTimes,
  quantity,
  quoted,
  readDoubtful,
  readQuantity,
  share,
  type VoltageTableKey,
} from "@rideon/sim-core";
import { isMap, isSeq, type Node } from "yaml";
import { pairsOf } from "./pairs.js";
import { refuse, type Slot, textOf, textsOf, type Walk } from "./slot.js";
import { attempt, mayBeInDoubt, within } from "./values.js";
import { resolved, type YamlFile } from "./yaml.js";

/** `[12, 36]`. */
export function readTeeth(file: YamlFile, slot: Slot): readonly [driving: number, driven: number] | undefined {
  const texts = textsOf(file, slot.node) ?? [];
  const [driving, driven] = texts.map((text) => (/^\d{1,4}$/.test(text) ? Number(text) : 0));
  if (texts.length === 2 && driving && driven) return [driving, driven];
  return refuse(file, slot, "two whole numbers of teeth are wanted, driving and driven; write it like [12, 36]");
}

/** `75 Ah`, or by discharge time `{ 20 h: 75 Ah, 5 h: 64 Ah }`. */
export function readCapacity(walk: Walk, slot: Slot, key: CapacityKey): CapacityRate[] | undefined {
  const { file } = walk;
  if (!isMap(slot.node)) {
    const text = textOf(file, slot, key.example);
    const say = (message: string) => refuse(file, slot, message);
    const typed = text === undefined ? undefined : attempt(() => readDoubtful(text, "charge", key.example), say);
    const capacity_C = typed && within(typed, key, text ?? "", say);
    if (!typed || capacity_C === undefined || !mayBeInDoubt(typed, key, text ?? "", say)) return undefined;
    // Of a table of numbers, doubt is of all alike: a share.
    if (typed.doubt) walk.doubts.set(`${walk.root}.${slot.path}`, doubtTimes(typed.doubt, 1 / capacity_C));
    return [{ capacity_C }];
  }
  if (slot.node.items.length === 0) return refuse(file, slot, `there is no value; write it like ${key.example}`);
  const rates: CapacityRate[] = [];
  for (const { name, key: head, value } of pairsOf(file, slot.node, slot.path)) {
    const rate: Slot = { path: slot.path, node: head, head };
    const amount: Slot = { path: `${slot.path}.${name}`, node: resolved(file, value) ?? null, head };
    const time_s = measured(file, rate, name, "time", RATE);
    const capacity_C = measured(file, amount, textOf(file, amount, "75 Ah"), "charge", key);
    if (time_s === undefined || capacity_C === undefined) continue;
    if (rates.some((each) => each.time_s === time_s)) refuse(file, rate, `${quoted(name)} is given twice`);
    rates.push({ time_s, capacity_C });
  }
  return rates;
}

/** Discharge times that a battery may be rated at: from a minute to two months. */
const RATE: Bounds = { min: 60, max: 5e6 };

function measured(file: YamlFile, slot: Slot, text: string | undefined, dimension: "charge" | "time", bounds: Bounds) {
  if (text === undefined) return undefined;
  const say = (message: string) => refuse(file, slot, message);
  const typed = attempt(() => readQuantity(text, dimension, dimension === "charge" ? "75 Ah" : "20 h"), say);
  return typed && within(typed, bounds, text, say);
}

type Rested = readonly [share: number, volts: number];

/** `[[0, 11.9 V], [50 %, 12.2 V], [1, 12.7 V]]`: the shares of the charge rise. */
export function readVoltageTable(file: YamlFile, slot: Slot, key: VoltageTableKey): Rested[] | undefined {
  const like = `; write it like ${key.example}`;
  if (!isSeq(slot.node) || slot.node.items.length < 2) {
    return refuse(file, slot, `two or more pairs of charge and volts are wanted${like}`);
  }
  const table: Rested[] = [];
  for (const found of slot.node.items as (Node | null)[]) {
    const pair: Slot = { path: slot.path, node: resolved(file, found) ?? null, head: slot.node };
    const [charge, volts, ...more] = textsOf(file, pair.node) ?? [];
    if (charge === undefined || volts === undefined || more.length > 0) {
      refuse(file, pair, `each pair is a share of the charge and its volts${like}`);
      continue;
    }
    const row = attempt(
      (): Rested => [share(charge, "50 %"), quantity(volts, "voltage", "12.2 V")],
      (message) => refuse(file, pair, message),
    );
    if (!row) continue;
    if (row[0] < 0 || row[0] > 1 || row[1] <= 0) refuse(file, pair, "shares go from 0 to 1, and volts are more than 0");
    else if (row[0] <= (table.at(-1)?.[0] ?? -1)) refuse(file, pair, "the shares of the charge rise from pair to pair");
    else table.push(row);
  }
  return table;
}
