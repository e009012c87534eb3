import fc from "fast-check";
import type { LocoDefinition, PlanDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import type { WholeColumns } from "../../packages/sim-core/src/parts/track.columns.js";
import { LOCO, PLAN } from "./club.js";
import { type Post, profile } from "./profiles.js";

/** What a working is made of. */
export interface Parts {
  columns: WholeColumns;
  plan: PlanDefinition;
  loco: LocoDefinition;
}

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined });

/** Up to eight stretches, no steeper than 1 in 15; a circuit comes back to the height it began at by one more. */
function anyTrack(kind: "circuit" | "end-to-end"): fc.Arbitrary<WholeColumns> {
  const stretch = fc.record({
    length_m: between(3, 60),
    sine: fc.oneof(fc.constant(0), between(-1 / 30, 1 / 30), between(-1 / 15, 1 / 15)),
    radius_m: maybe(between(8, 60)),
    limit_mps: maybe(between(0.6, 4)),
  });
  return fc.array(stretch, { minLength: 2, maxLength: 8 }).map((stretches) => {
    let [along_m, height_m] = [0, 0];
    const posts = stretches.map(({ length_m, sine, radius_m, limit_mps }): Post => {
      const post: Post = [along_m, height_m, radius_m, limit_mps];
      along_m += length_m;
      height_m += sine * length_m;
      return post;
    });
    posts.push([along_m, height_m]);
    const home_m = along_m + 20 + 20 * Math.abs(height_m);
    posts.push([home_m, kind === "circuit" ? 0 : height_m]);
    return profile(posts);
  });
}

const anyBrake = fc.record({
  rail_force_N: between(20, 400),
  delay_s: between(0, 0.5),
  build_up_s: between(0, 1),
  braked_share: between(0.2, 1),
});

const anyLoco: fc.Arbitrary<LocoDefinition> = fc
  .record({
    mass_kg: between(60, 250),
    driven_axles: fc.integer({ min: 1, max: 2 }),
    rolling: between(0.003, 0.015),
    breakaway: between(1, 2.5),
    power_W: between(200, 1500),
    efficiency: between(0.55, 0.9),
    free: between(0.02, 0.3),
    ratio: between(5, 22),
    gear: between(0.6, 1),
    brush_drop_V: between(0, 0.6),
    limit: between(0.8, 4),
    ramp_s: fc.oneof(fc.constant(0), between(0, 6)),
    batteryLimit: maybe(between(0.5, 2)),
    capacity_Ah: between(3, 100),
    chemistry: fc.constantFrom("lead-acid", "lifepo4"),
    polarisation: maybe(fc.record({ resistance_ohm: between(1e-4, 0.02), time_s: between(2, 300) })),
    breaker: maybe(fc.record({ rating_A: between(5, 100), curve: fc.constantFrom("B", "C", "D") })),
    protection: maybe(fc.record({ current_A: between(10, 150), low_voltage_V: between(18, 23) })),
    magnet: fc.constantFrom("ferrite", "neodymium"),
    electric_brake: fc.constantFrom("none", "rheostatic", "regenerative"),
    brake_resistance_ohm: between(0, 1),
    heights: maybe(fc.record({ coupling_height_m: between(0.1, 0.25), gravity_height_m: between(0.1, 0.4) })),
    driven_end: fc.constantFrom("front", "rear"),
    brake: maybe(anyBrake),
  })
  .map((x) => {
    const current_A = x.power_W / 24 / x.efficiency;
    const free_A = Math.min(x.free, (1 - x.efficiency) / 2) * current_A;
    return {
      ...LOCO,
      mass_kg: x.mass_kg,
      wheels: { ...LOCO.wheels, driven_axles: x.driven_axles, driven_end: x.driven_end, ...x.heights },
      resistance: { rolling: x.rolling, breakaway: x.rolling * x.breakaway },
      motor: {
        nameplate: { voltage_V: 24, current_A, speed_radps: 270, power_W: x.power_W, no_load_current_A: free_A },
        magnet: x.magnet,
        brush_drop_V: x.brush_drop_V,
      },
      gears: [{ ratio: x.ratio, efficiency: x.gear }],
      controller: {
        motor_current_limit_A: x.limit * current_A,
        ramp_s: x.ramp_s,
        electric_brake: x.electric_brake,
        ...(x.electric_brake === "rheostatic" ? { brake_resistance_ohm: x.brake_resistance_ohm } : {}),
        ...(x.batteryLimit === undefined ? {} : { battery_current_limit_A: x.batteryLimit * current_A }),
      },
      battery: {
        chemistry: x.chemistry,
        ...(x.chemistry === "lead-acid" ? { in_series: 2 } : {}),
        each: {
          voltage_V: x.chemistry === "lead-acid" ? 12 : 24,
          capacity: [{ capacity_C: x.capacity_Ah * 3600 }],
          ...(x.polarisation ? { polarisation: x.polarisation } : {}),
        },
        ...(x.protection ? { protection: x.protection } : {}),
      },
      wiring: x.breaker ? { breaker: x.breaker } : {},
      ...(x.brake ? { brakes: [x.brake] } : {}),
    } as LocoDefinition;
  });

/** A working of any train on any line, by lever or to a speed. */
export const anyParts: fc.Arbitrary<Parts> = fc
  .record({
    kind: fc.constantFrom("circuit" as const, "end-to-end" as const),
    at_ends: fc.constantFrom("propel" as const, "run-round" as const, "turn" as const),
    rail: fc.constantFrom("dry" as const, "wet" as const, "greasy" as const),
    wind_mps: between(-6, 6),
    air_temperature_degC: between(-5, 40),
    charge: between(0.3, 1),
    cars: fc.array(
      fc
        .record({ mass_kg: between(20, 120), length_m: between(1, 3), seats: fc.constant(3), brake: maybe(anyBrake) })
        .map(({ brake, ...car }) => (brake ? { ...car, brakes: [brake] } : car)),
      { maxLength: 3 },
    ),
    passengers: fc.integer({ min: 0, max: 6 }),
    lever: maybe(between(0.1, 1)),
    speed_mps: between(0.5, 4),
    loco: anyLoco,
  })
  .chain((x) =>
    anyTrack(x.kind).map((columns) => {
      const { lever: _lever, ...base } = PLAN;
      const plan: PlanDefinition = {
        ...base,
        air_temperature_degC: x.air_temperature_degC,
        charge: x.charge,
        track: { kind: x.kind, at_ends: x.at_ends, rail: x.rail, wind_mps: x.wind_mps },
        cars: x.cars,
        passengers: x.cars.length === 0 ? 0 : x.passengers,
        ...(x.lever === undefined ? { speed_mps: x.speed_mps } : { lever: x.lever }),
      };
      return { columns, plan, loco: x.loco };
    }),
  );

export const OUTCOMES = ["completed", "stalled", "slipping", "flat", "overran", "ran_away", "tripped", "burnt_out"];
