// How does a climb hang on the gearing? One loco, five driving sprockets. The figures are invented.
import { createPlan, quantity, runOnce } from "@rideon/sim-core";

for (const teeth of [9, 11, 13, 15, 17]) {
  const plan = createPlan(
    {
      track: {},
      speed_mps: quantity("4 mph", "speed"),
      passengers: 3,
      cars: [{ mass_kg: 60, length_m: 1.8, seats: 3 }],
    },
    {
      name: "Hazel",
      gauge_m: quantity("7 1/4 in", "length"),
      mass_kg: 140,
      wheels: { diameter_m: 0.165, driven_axles: 1 },
      motor: { nameplate: { voltage_V: 24, current_A: 26.7, speed_radps: 272, power_W: 500 } },
      gears: [{ teeth: [teeth, 55] }, { teeth: [9, 30] }],
      controller: { motor_current_limit_A: 50 },
      battery: { chemistry: "lead-acid", in_series: 2, each: { voltage_V: 12, capacity: { capacity_Ah: 75 } } },
    },
    { distance_m: [0, 100, 200], height_m: [0, 1.6, 0] },
  );
  const { outcome, time_s, energy_Wh, peak_motor_current_A: peak_A } = runOnce(plan);
  console.log(
    `${teeth} teeth: ${outcome} in ${time_s.toFixed(0)} s, ${energy_Wh.toFixed(1)} Wh, ${peak_A.toFixed(0)} A`,
  );
}
