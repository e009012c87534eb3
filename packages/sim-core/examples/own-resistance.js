// A law of resistance of your own, in place of the shares of weight that the files have: here of plain bearings, which
// take more at a creep, before oil gets between, than at a walk. The figures are invented.
import { createPlan, runOnce } from "@rideon/sim-core";
import { loco, plan, track } from "./hazel.js";

/**
 * N on level straight track; the air is counted besides, by drag_area_m2.
 * @type {import("@rideon/sim-core").ResistanceLaw}
 */
const plainBearings = (speed_mps, { mass_kg }) => 9.80665 * mass_kg * (0.009 + 0.006 * Math.exp(-speed_mps / 0.5));

for (const own of [{}, { resistance_N: plainBearings }]) {
  const { energy_Wh, energy_balance } = runOnce(createPlan(plan, loco, track, own));
  const how = own.resistance_N ? "by the law" : "by shares of weight";
  console.log(
    `${how}: ${energy_Wh.toFixed(2)} Wh a lap, ${(energy_balance.rolling_J / 3600).toFixed(2)} Wh of it rolling`,
  );
}
