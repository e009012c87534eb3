// Writes what the port in C takes from the core at run time: `numbers.h`, with the types of all figures, the places of the
// state, the margins and the core's own constants, and `numbers.bin`, with the figures of a plan. Nothing is typed twice.
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const CORE = new URL("../../../packages/sim-core/dist/", import.meta.url);
const from = (file) => import(new URL(file, CORE));

/** Constants of the core by the file they stand in: read from its text, since most of them are nobody else's. */
const CONSTANTS = {
  "parts/constants.js": ["COPPER_pK"],
  "margins.js": ["ROUNDING_mps2", "BURNT_OUT_degC"],
  "run.js": ["LOOKS_AT_BOOKS_s", "ROUNDING", "ONE_DAY_s"],
  "loop/step.js": ["LONGEST_s", "SHARE", "SHORTEST_s"],
  "loop/stepper.js": ["LANDING_s", "BENT_WITHIN", "MOST_A_SECOND", "MOST_STEPS"],
  "loop/bends.js": ["ALIKE", "PASSED_m"],
  "loop/events.js": ["MOST_AT_ONCE"],
  "driver/driver.js": [
    ...["CLOSES_GAP_s", "BREAKAWAY_HAND", "TOO_FAST", "BORNE_s", "CREEP_mps"],
    ...["AT_SPEED", "ROLLING_ALONG", "LEVER_ROUNDING"],
  ],
  "driver/approach.js": ["SHARE_USED"],
  "driver/lever.js": ["DRIVER_s", "LEAST_LEVER"],
  "driver/hands.js": ["GRIP_SHARE"],
  "driver/limits.js": ["LOOKS_AHEAD_m"],
  "record/balance.js": ["LEAST_J", "LEAST_SHARE"],
  "record/sound.js": ["RESIDUAL", "ON_THE_WAY"],
};

export function constant(file, name) {
  const text = readFileSync(fileURLToPath(new URL(file, CORE)), "utf8");
  const [, over, under = "1"] = new RegExp(`const ${name} = ([\\d.e+-]+)(?: / ([\\d.e+-]+))?;`).exec(text) ?? [];
  const value = Number(over) / Number(under);
  if (!Number.isFinite(value)) throw new Error(`${file} has no number ${name} any more: the port has to follow it`);
  return value;
}

/** Of an object the figures named, in that order. */
function figures(object, names) {
  return Object.fromEntries(
    names.split(" ").map((name) => {
      const value = object[name];
      if (typeof value !== "number" && !(value instanceof Float64Array))
        throw new Error(`the core has no figure ${name} any more: the port has to follow it`);
      return [name, value];
    }),
  );
}

/** All that the port reads, by the names of its types. What it has no physics for is told by a number other than 0. */
export function numbersOf(plan, start, toldEvery_s) {
  const { train, track } = plan;
  const { motor, controller, battery, transfer } = train;
  return {
    Plan: {
      ...figures(plan, "speed_mps charge wind_mps air_degC acceleration_mps2 serviceBraking_mps2 duration_s"),
      stops: plan.stops.length,
    },
    Train: {
      ...figures(
        train,
        "loco radius_m ends_m gravity_Npm curving_Nprad length_m translating_kg rolling_N rolling_Nspm",
      ),
      ...figures(train, "breakaway_N airFactor driven_N locoRolling_N locoBody_kg locoTranslating_kg motorPath_ohm"),
      ...figures(train, "rim_kg beforeLastMesh_kg effective_kg motorCable_ohm source_ohm batteryCable_ohm standing_A"),
      ...figures(train, "availableFull_C boundFull_C"),
      law: train.law === undefined ? 0 : 1,
      brakes: train.brakes.length,
      breaking: train.breaking.length,
      protection: train.protection.fitted ? 1 : 0,
      adhesion: { Adhesion: { held: train.adhesion.static, sliding: train.adhesion.sliding } },
      transfer: { Transfer: figures(transfer, "end coupling_m gravity_m base_m") },
      motor: {
        Motor: {
          ...figures(motor, "resistance20_ohm current_A flux_NmpA brush_V drag_Nm dragPerSpeed_Nms fluxPerKelvin_pK"),
          series: motor.kind === "series" ? 1 : 0,
        },
      },
      heat: { Heat: figures(train.heat, "winding_JpK case_JpK windingToCase_KpW caseToAir_KpW fan_radps limit_degC") },
      gears: { Gears: figures(train.gears, "ratio efficiency") },
      meshes: { Meshes: figures(train.meshes, "turning_kg efficiency") },
      controller: {
        Controller: {
          ...figures(controller, "motorLimit_A batteryLimit_A on_ohm cutout_V ramp_s"),
          brakes: controller.electricBrake === "none" ? 0 : 1,
        },
      },
      battery: {
        Battery: {
          ...figures(battery, "wells_C availableShare exponentRate_ps label_C span kneeShare resistance_ohm"),
          ...figures(battery, "polarisation_ohm polarisation_s"),
          rested: { Table: figures(battery.rested, "x y") },
        },
      },
      breaker: { Breaker: figures(train.breaker, "rating_A imageSquare tau_s magnetic_A") },
    },
    Track: {
      ...figures(track, "length_m distance_m height_m turned_rad heightArea_m2 limit_mps leaning"),
      circuit: track.kind === "circuit" ? 1 : 0,
    },
    start,
    toldEvery_s,
  };
}

/** C's types for such a tree, and the lines that read one in the order in which its numbers are written. */
function typesOf(tree, name, types, reads, numbers, path = "n->") {
  const fields = Object.entries(tree).map(([key, value]) => {
    const nested = /^[A-Z]/.test(key) ? [key, value] : Object.entries(value).find(([inner]) => /^[A-Z]/.test(inner));
    if (nested) {
      const field = nested[0] === key ? key.toLowerCase() : key;
      typesOf(nested[1], nested[0], types, reads, numbers, `${path}${field}.`);
      return `  ${nested[0]} ${field};`;
    }
    const column = typeof value !== "number";
    reads.push(`  ${path}${key} = ${column ? "column" : "number"}(in);`);
    numbers.push(...(column ? [value.length, ...value] : [value]));
    return `  ${column ? "Column" : "double"} ${key};`;
  });
  types.push(`typedef struct {\n${fields.join("\n")}\n} ${name};`);
}

/** Writes both files for a plan that begins in `start`; the port tells a state at the first look of every so many seconds. */
export async function writeNumbers(folder, plan, start, toldEvery_s) {
  const { MARGINS } = await from("margins.js");
  const state = await from("state.js");
  const places = Object.entries(state).filter(([, place]) => typeof place === "number");
  const [types, reads, numbers] = [[], [], []];
  typesOf(numbersOf(plan, start, toldEvery_s), "Numbers", types, reads, numbers);
  const header = `#pragma once
#include <stdio.h>
#include <stdlib.h>
enum { ${places.map(([name, place]) => `${name} = ${place}`).join(", ")} };
enum { ${MARGINS.map((name) => `AT_${name}`).join(", ")}, MARGINS };
#define MARGIN_WORDS { ${MARGINS.map((name) => `"${name}"`).join(", ")} }
enum { ${state.LIMITS.map((name) => `BY_${name}`).join(", ")} };
${Object.entries(CONSTANTS)
  .flatMap(([file, names]) => names.map((name) => `#define ${name} ((double)${constant(file, name)})`))
  .join("\n")}
typedef struct {
  const double *at;
  int count;
} Column;
${types.join("\n")}
static inline double number(FILE *in) {
  double x;
  if (fread(&x, sizeof x, 1, in) != 1) exit(2);
  return x;
}
static inline Column column(FILE *in) {
  const int count = (int)number(in);
  double *at = malloc(count * sizeof *at);
  for (int i = 0; i < count; i++) at[i] = number(in);
  return (Column){at, count};
}
static inline void readNumbers(Numbers *n, FILE *in) {
${reads.join("\n")}
}
`;
  writeFileSync(join(folder, "numbers.h"), header);
  writeFileSync(join(folder, "numbers.bin"), Float64Array.from(numbers));
}
