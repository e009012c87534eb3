// The core's own side of the comparison with C: the same day, states on the way through it, and the derivative and a
// Runge-Kutta step by themselves on states of that day.
import { readPlan } from "@rideon/sim-cli/read";
import { createPlan, laps } from "@rideon/sim-core";
import rk4 from "ode-rk4";
import { drive } from "../../../packages/sim-core/dist/driver/driver.js";
import { DRIVER_s } from "../../../packages/sim-core/dist/driver/lever.js";
import { motion } from "../../../packages/sim-core/dist/motion.js";
import { run } from "../../../packages/sim-core/dist/run.js";
import * as at from "../../../packages/sim-core/dist/state.js";
import { startWorking } from "../../../packages/sim-core/dist/working.js";

const reading = readPlan("tracks/ostlemere/plan.yaml", { sets: ["duration=4 h", "loco.battery.in_parallel=2"] });
export const plan = createPlan(reading.plan, reading.loco, reading.track);
/** A state is told at the first look of every so many seconds. */
export const TOLD_EVERY_s = 60;
const SAMPLES = 1000;
/** The time, the lever and whether it pulls stand before the state of a sample. */
const BEFORE = 3;
const WIDE = BEFORE + at.SIZE;

export const startingState = () => startWorking(plan).y;
export const wholeDay = () => laps(plan);

/** The day's states on the way and at its end, each after its time; its steps; and samples for the parts. */
export function lookedThrough() {
  const states = [];
  const samples = [];
  let [told_s, sampled_s, steps] = [0, 0, 0];
  const w = run(plan, {
    laps: Number.POSITIVE_INFINITY,
    driver(each) {
      if (each.time_s >= told_s) {
        states.push(each.time_s, ...each.y);
        told_s += TOLD_EVERY_s;
      }
      drive(each);
    },
    observers: [
      {
        step({ mode, time_s, lever, y }) {
          steps++;
          if (time_s < sampled_s || mode.train !== 1) return;
          samples.push(time_s, lever, mode.powered ? 1 : 0, ...y);
          sampled_s += plan.duration_s / SAMPLES;
        },
        event() {},
      },
    ],
  });
  states.push(w.time_s, ...w.y);
  const count = samples.length / WIDE;
  return { states: Float64Array.from(states), samples: Float64Array.from(samples), count, steps };
}

/** Goes through the samples; the sum shows that both languages did the same. */
export function passOver(samples, part) {
  const w = startWorking(plan);
  w.mode.train = w.mode.rim = 1;
  const count = samples.length / WIDE;
  const found = new Float64Array(at.SIZE);
  const each = Array.from({ length: count }, (_, i) => samples.subarray(i * WIDE, (i + 1) * WIDE));
  const ys = each.map((sample) => sample.subarray(BEFORE));
  const integrator = rk4(found, (dydt, y, time_s) => motion(w, dydt, y, time_s), 0, DRIVER_s);
  return () => {
    let sum = 0;
    for (let i = 0; i < count; i++) {
      const time_s = each[i][0];
      w.lever = each[i][1];
      w.mode.powered = each[i][2] !== 0;
      if (part === "motion") motion(w, found, ys[i], time_s);
      else {
        found.set(ys[i]);
        integrator.t = time_s;
        integrator.step();
      }
      sum += found[at.SPEED] + found[at.WINDING];
    }
    return sum;
  };
}

/** The processor's own time that something takes, ns. */
export function cpu_ns(does) {
  const from = process.cpuUsage();
  does();
  const { user, system } = process.cpuUsage(from);
  return (user + system) * 1000;
}
