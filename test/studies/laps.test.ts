import { describe, expect, it } from "vitest";
import type { LocoDefinition, PlanDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { laps } from "../../packages/sim-core/src/studies/laps.js";
import { CIRCUIT, clubPlan, LOCO } from "../support/club.js";

const HOUR_s = 3600;
const DRIVEN: Partial<PlanDefinition> = { speed_mps: 1.5 };
const capacity = (...rates: [hours: number, ah: number][]) =>
  rates.map(([hours, ah]) => ({ time_s: hours * HOUR_s, capacity_C: ah * HOUR_s }));
/** Without limits on the way: a light train on its own. */
const GENTLE = { mass_kg: 60 };
const battery = (
  each: Partial<LocoDefinition["battery"]["each"]>,
  chemistry: "lead-acid" | undefined = "lead-acid",
) => ({
  battery: {
    ...(chemistry ? { chemistry } : {}),
    in_series: 2,
    each: { voltage_V: 12, resistance_ohm: 0.006, ...each },
  },
});

describe("the hand check is told to differ", () => {
  const far = (plan: Partial<PlanDefinition>, loco: Partial<LocoDefinition> = {}) => {
    const day = laps(clubPlan(CIRCUIT, { ...DRIVEN, ...plan }, loco));
    const times = day.time_s / HOUR_s / day.hand_check_time_h!;
    // A reason is given just where the two are so far apart.
    expect(day.hand_check_differs !== null).toBe(times > 1.5 || times < 1 / 1.5);
    return { ...day, times };
  };
  const small = battery({ capacity: capacity([20, 30]) });

  it("not at all of a day from full", () => {
    const day = far({}, small);
    expect(["undervoltage", "empty"]).toContain(day.ended_by);
    expect(day.hand_check_differs).toBeNull();
  });

  it("where a nearly flat battery gives more than its label counts, and its charge is shown as 0", () => {
    const day = far({ charge: 0.02 }, { ...battery({ capacity: capacity([20, 75]) }), ...GENTLE });
    expect(day.hand_check_differs).toBe("beyond_label");
    expect(day.times).toBeGreaterThan(1.5);
    expect(day.charge_used_Ah).toBeGreaterThan(0.02 * 75);
    expect(day.state_of_charge_end).toBe(0);
  });

  it("where the volts give way while charge is left", () => {
    const day = far({}, { ...small, controller: { ...LOCO.controller, undervoltage_cutout_V: 24.2 } });
    expect(day.ended_by).toBe("undervoltage");
    expect(day.hand_check_differs).toBe("volts");
    expect(day.state_of_charge_end).toBeGreaterThan(0.5);
  });

  it("where something else ends the day", () => {
    const day = far({ duration_s: 600 });
    expect([day.ended_by, day.hand_check_differs]).toEqual(["duration", "not_the_battery"]);
  });

  it("and nothing where no current is drawn", () => {
    const shut = { ...LOCO.controller, standing_power_W: 0 };
    const { accessories_W: _, ...wiring } = LOCO.wiring!;
    const day = laps(clubPlan(CIRCUIT, { lever: 0.001 }, { controller: shut, wiring }));
    expect([day.ended_by, day.hand_check_time_h, day.hand_check_differs]).toEqual(["stalled", null, null]);
  });
});

describe("who was carried", () => {
  const columns = { ...CIRCUIT, place: CIRCUIT.place.map((_, i) => (i === 3 ? "Station" : "")) };
  const brakes = [{ rail_force_N: 300 }];
  const plan = { ...DRIVEN, duration_s: 900 };

  it("has no number an hour where the same riders go round and round", () => {
    expect(laps(clubPlan(columns, plan)).passengers_per_hour).toBeNull();
    const waiting = { ...plan, stops: [{ place: "Station", dwell_s: 20 }] };
    const day = laps(clubPlan(columns, waiting, { brakes }));
    expect([day.passengers_carried, day.passengers_per_hour]).toEqual([4, null]);
  });

  it("has one where people get on and off", () => {
    const day = laps(
      clubPlan(columns, { ...plan, stops: [{ place: "Station", dwell_s: 20, passengers: 5 }] }, { brakes }),
    );
    const boardings = day.events.filter(({ kind }) => kind === "boarding").length;
    expect(boardings).toBeGreaterThan(1);
    expect(day.passengers_per_hour).toBeCloseTo((4 + 5 * boardings) * 4, 9);
  });
});
