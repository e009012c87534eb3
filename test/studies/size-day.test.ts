import { describe, expect, it } from "vitest";
import type { LocoDefinition, PlanDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import type { WholeColumns } from "../../packages/sim-core/src/parts/track.columns.js";
import { laps } from "../../packages/sim-core/src/studies/laps.js";
import { createSizing, type SizeLoco } from "../../packages/sim-core/src/studies/size/input.js";
import { size } from "../../packages/sim-core/src/studies/size/size.js";
import { createPlan } from "../../packages/sim-core/src/train/plan.js";
import { CIRCUIT, LOCO, PLAN } from "../support/club.js";
import { hill, profile } from "../support/profiles.js";

// Law: the reserve is the share of the label's charge that is left. A battery sized for some hours has it left when the
// train has run them, in the simulation that `laps` tells of, unless how fast it is drawn or the cut-out ask for more.
const WITHIN = 0.02;

const { motor: _m, gears: _g, controller: _c, battery: _b, wiring: _w, ...BARE } = LOCO;
const { lever: _, ...DRIVEN } = PLAN;
const HOUR_s = 3600;

const STATION: WholeColumns = { ...CIRCUIT, place: CIRCUIT.place.map((_, i) => (i === 3 ? "Station" : "")) };
const BRAKED = { ...BARE, brakes: [{ rail_force_N: 300 }] };
const LIMITED = profile([
  [0, 0],
  [100, 0, undefined, 1],
  [200, 0],
  [500, 0],
]);

const DAYS: [string, Partial<PlanDefinition>, WholeColumns, SizeLoco][] = [
  ["a hilly circuit, two hours", { duration_s: 2 * HOUR_s }, CIRCUIT, BARE],
  ["a steep circuit, rushed down", { duration_s: 2 * HOUR_s, speed_mps: 1.2 }, hill(0.02, 300), BARE],
  [
    "a stop in every lap",
    { duration_s: 2 * HOUR_s, stops: [{ place: "Station", dwell_s: 60, passengers: 5 }] },
    STATION,
    BRAKED,
  ],
  ["a limit on the way", { duration_s: 2 * HOUR_s, speed_mps: 2 }, LIMITED, BRAKED],
  ["out and back", { duration_s: 2 * HOUR_s, track: { kind: "end-to-end" } }, hill(0.004, 500), BARE],
  ["in the cold", { duration_s: 2 * HOUR_s, air_temperature_degC: -5 }, CIRCUIT, BARE],
  ["in a hurry", { duration_s: HOUR_s / 4 }, CIRCUIT, BARE],
];

describe.each(DAYS)("%s", (name, given, columns, loco) => {
  const plan: PlanDefinition = { ...DRIVEN, speed_mps: 1.5, ...given };
  const answer = size(createSizing(plan, loco, columns));
  it.each([
    ["lead-acid", 24, 0.5],
    ["lifepo4", 12, 0.2],
  ] as const)("a %s battery of %d V comes down to its reserve", (chemistry, voltage_V, reserve) => {
    const row = answer.supplies.find((each) => each.voltage_V === voltage_V)!;
    const [capacity_Ah, decidedBy] =
      chemistry === "lead-acid"
        ? [row.lead_acid_capacity_Ah, row.lead_acid_decided_by]
        : [row.lifepo4_capacity_Ah, row.lifepo4_decided_by];
    const built: LocoDefinition = {
      ...loco,
      motor: {
        nameplate: {
          voltage_V,
          current_A: row.motor_continuous_current_A,
          speed_radps: (answer.motor_speed_rpm * Math.PI) / 30,
          power_W: answer.motor_continuous_power_W,
        },
      },
      gears: [{ ratio: answer.ratio, efficiency: answer.gear_efficiency, driven_inertia_kgm2: 0 }],
      controller: { motor_current_limit_A: row.controller_current_A },
      battery: { chemistry, each: { voltage_V, capacity: [{ capacity_C: capacity_Ah! * HOUR_s }] } },
      wiring: {
        battery_cable: { area_mm2: row.battery_cable_mm2! },
        motor_cable: { area_mm2: row.motor_cable_mm2! },
      },
    };
    const day = laps(createPlan(plan, built, columns));
    expect(answer.day_not_run).toBeNull();
    expect(day.ended_by).toBe("duration");
    if (decidedBy === "reserve") expect(Math.abs(day.state_of_charge_end - reserve)).toBeLessThan(WITHIN);
    else expect(day.state_of_charge_end).toBeGreaterThan(reserve);
    // In a quarter of an hour no battery is emptied so far without its cut-out.
    if (name === "in a hurry") expect(decidedBy).not.toBe("reserve");
    if (chemistry === "lead-acid" && name !== "in a hurry") expect(decidedBy).toBe("reserve");
  });
});

it("where the loco built to the figures does not run, the steady lap stands in, and that is said", () => {
  // A fall that it cannot be stopped on, without a brake, before the end of the line.
  const line = profile([
    [0, 20],
    [900, 20],
    [1000, 15],
  ]);
  const plan: PlanDefinition = { ...DRIVEN, speed_mps: 1.5, track: { kind: "end-to-end" } };
  const answer = size(createSizing(plan, BARE, line));
  expect(answer.day_not_run).toBe("overran");
  expect(answer.rules.join()).toContain("did not run: overran");
  for (const row of answer.supplies) expect(row.lead_acid_capacity_Ah).toBeGreaterThan(0);
});
