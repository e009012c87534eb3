// A motor of your own: a compound-wound one, whose flux is partly its field winding's. What is wanted of any motor is its
// resistance, its flux at a few currents (newton metres an amp, which is volts for each rad/s), drag and rating.
import { createPlan, runOnce } from "@rideon/sim-core";
import { loco, plan, track } from "./hazel.js";

/** @param {number} current_A */
const flux_NmpA = (current_A) => 0.05 + 0.05 * (1 - Math.exp(-current_A / 25));

/** @type {import("@rideon/sim-core").MotorFigures} */
const motor = {
  resistance_ohm: 0.14,
  flux: [0, 5, 10, 20, 30, 40, 60, 80].map((current_A) => [current_A, flux_NmpA(current_A)]),
  drag_Nm: 0.2,
  dragPerSpeed_Nms: 1e-4,
  rated: { voltage_V: 24, current_A: 26.7, speed_radps: (24 - 0.14 * 26.7) / flux_NmpA(26.7), power_W: 480 },
};

const ready = createPlan(plan, { ...loco, motor: { inertia_kgm2: 0.0025 } }, track, { motor });
const { outcome, time_s, peak_motor_current_A: peak_A } = runOnce(ready);
console.log(`${outcome} in ${time_s.toFixed(0)} s, at most ${peak_A.toFixed(0)} A in the motor`);
