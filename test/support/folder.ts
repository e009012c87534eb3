import { mkdtempSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { ReadError, type Reading, type ReadOptions, readPlan, UsageError } from "@rideon/sim-cli/read";
import { inject } from "vitest";

/** The shortest files that run. The figures are invented. */
export const LOCO = `name: Hazel
gauge: 7 1/4 in
mass: 140 kg
wheels: { diameter: 165 mm, driven_axles: 1 }
motor: { nameplate: { voltage: 24 V, current: 26.7 A, speed: 2600 rpm, power: 500 W } }
gears:
  - teeth: [11, 55]
  - teeth: [9, 30]
controller: { motor_current_limit: 50 A }
battery: { chemistry: lead-acid, in_series: 2, each: { voltage: 12 V, capacity: 75 Ah } }
`;
export const PLAN = `loco: loco.yaml
track: { profile: track.csv }
cars:
  - { mass: 60 kg, length: 1.8 m, seats: 3, count: 2 }
passengers: 4
speed: 4 mph
`;
export const TRACK = `# invented
distance_m,height_m
0,0
100,1.5
200,0
`;

const root = mkdtempSync(join(inject("folders"), "rideon-read-"));

/** A fresh folder with a plan, a loco and a track, some replaced; null leaves one out. */
export function folderWith(files: Record<string, string | Uint8Array | null> = {}): string {
  const folder = mkdtempSync(join(root, "x"));
  const all = { "plan.yaml": PLAN, "loco.yaml": LOCO, "track.csv": TRACK, ...files };
  for (const [name, text] of Object.entries(all)) if (text !== null) writeFileSync(join(folder, name), text);
  return folder;
}

/** What reading the files gives, or its errors as lines without the folder's name; anything else is thrown on. */
export function read(
  files: Record<string, string | Uint8Array | null> = {},
  options: ReadOptions = {},
): Reading | string[] {
  const folder = folderWith(files);
  try {
    return readPlan(join(folder, "plan.yaml"), options);
  } catch (error) {
    if (!(error instanceof ReadError || error instanceof UsageError)) throw error;
    return error.message.replaceAll(`${folder}/`, "").split("\n");
  }
}

/** The reading of files that are in order. */
export function readWell(files: Record<string, string | null> = {}, options: ReadOptions = {}): Reading {
  const found = read(files, options);
  if (Array.isArray(found)) throw new Error(found.join("\n"));
  return found;
}

/** The errors of a loco file in which `was` has become `is`. */
export function errorsOf(was: string, is: string): string[] {
  const whole = LOCO.replace(was, is);
  if (whole === LOCO) throw new Error(`${was} is not in the loco file`);
  const found = read({ "loco.yaml": whole });
  return Array.isArray(found) ? found : [];
}
