// The loco, the working and the line of the other examples. All of it is invented.

/** @type {import("@rideon/sim-core").LocoDefinition} */
export const loco = {
  name: "Hazel",
  gauge_m: 0.184,
  mass_kg: 140,
  wheels: { diameter_m: 0.165, driven_axles: 1 },
  motor: { nameplate: { voltage_V: 24, current_A: 26.7, speed_radps: 272, power_W: 500 } },
  gears: [{ teeth: [11, 55] }, { teeth: [9, 30] }],
  controller: { motor_current_limit_A: 50 },
  battery: { chemistry: "lead-acid", in_series: 2, each: { voltage_V: 12, capacity: { capacity_Ah: 75 } } },
  brakes: [{ rail_force_N: 200 }],
};

/** @type {import("@rideon/sim-core").PlanDefinition} */
export const plan = { track: {}, speed_mps: 1.8, passengers: 3, cars: [{ mass_kg: 60, length_m: 1.8, seats: 3 }] };

export const track = { distance_m: [0, 100, 200], height_m: [0, 1.6, 0] };
