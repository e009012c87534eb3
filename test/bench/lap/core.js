// A lap at one lever, from the first post to its mark: ours, with the plan's own driver; the truth, ours at a fiftieth of the
// driver's tenth; and what a general integrator is given for the same lap. It goes by chainage, not by time, since it then
// knows beforehand where the line bends under a coupling, and ends at the mark as ours does.
import { readPlan } from "@rideon/sim-cli/read";
import { createPlan } from "@rideon/sim-core";
import { drive } from "../../../packages/sim-core/dist/driver/driver.js";
import { DRIVER_s } from "../../../packages/sim-core/dist/driver/lever.js";
import { bendsOf } from "../../../packages/sim-core/dist/loop/bends.js";
import { run } from "../../../packages/sim-core/dist/run.js";
import * as at from "../../../packages/sim-core/dist/state.js";
import { moveLever, startWorking } from "../../../packages/sim-core/dist/working.js";

export const LEVER = 0.8;
const START = { chainage_m: 0, speed_mps: 1.6 };
/** However slow the ramp, the lever is where it is wanted from the first instant. */
const AT_ONCE_s = 100;
const TRUTH_s = DRIVER_s / 50;

const reading = readPlan("tracks/ostlemere/plan.yaml", { sets: [`lever=${LEVER}`] });
export const plan = createPlan(reading.plan, reading.loco, reading.track);
export const LAP_m = plan.track.length_m;

/** Ours: the whole loop, the driver's looks, margins and books, and landing on the mark. */
export function ours(step_s, observers = []) {
  const w = run(plan, {
    ...(step_s && { step_s }),
    laps: 1,
    start: START,
    driver(each) {
      if (each.time_s === 0) moveLever(each, LEVER, AT_ONCE_s);
      drive(each);
    },
    observers,
  });
  return { time_s: w.time_s, y: w.y };
}

/** A working at the start of the lap, its lever where it stays. */
export function atStart() {
  const w = startWorking(plan, START);
  moveLever(w, LEVER, AT_ONCE_s);
  return w;
}

/** Chainages to the mark at which the line bends under a coupling, the mark the last of them. */
export function edges_m() {
  const bends = [...bendsOf(plan.track)];
  const passed = bends.flatMap((bend) => [...plan.train.ends_m].map((end) => (bend + end) % LAP_m));
  const within = passed.filter((x) => x > 1e-6 && x < LAP_m - 1e-6).sort((a, b) => a - b);
  return [...within.filter((x, i) => i === 0 || x - within[i - 1] > 1e-6), LAP_m];
}

/** What the figures at the mark come from; the rest are books, and what nothing else hangs on. The first place is the time's. */
export const NEEDED = [at.POSITION, at.SPEED, at.AVAILABLE, at.BOUND, at.WINDING, at.CASE, at.DRAWN];
if (plan.train.battery.polarisation_ohm !== 0)
  throw new Error("polarisation is left out here, and this battery has some");

export const SHOWN = [at.SPEED, at.WINDING, at.CASE, at.AVAILABLE, at.DRAWN];
/** What is compared at the mark. */
export const shownOf = ({ time_s, y }) => [time_s, ...SHOWN.map((i) => y[i])];
/** The furthest off, as a share of the truth, below 1 as it stands. */
export const error = (shown, truth) =>
  Math.max(...truth.map((x, i) => Math.abs(shown[i] - x) / Math.max(1, Math.abs(x))));

export const truth = () => shownOf(ours(TRUTH_s));

/** The line that the others are told beside. */
export function inWords(own, own_ms, exact) {
  let steps = 0;
  ours(undefined, [{ step: () => steps++, event() {} }]);
  return `a lap of ${LAP_m} m in ${exact[0].toFixed(1)} s at one lever: ours, books and all, errs by ${own.toExponential(1)} and takes ${own_ms.toFixed(1)} ms, ${steps} steps`;
}

/** Processor time, the least of several after one that warms up, ms. */
export function cpu_ms(does, { times = 9, each = 3 } = {}) {
  does();
  return Math.min(
    ...Array.from({ length: times }, () => {
      const from = process.cpuUsage();
      for (let i = 0; i < each; i++) does();
      const { user, system } = process.cpuUsage(from);
      return (user + system) / 1000 / each;
    }),
  );
}

/** What is tried of a method, loosest first: 1e-3, 3e-4, 1e-4 … */
export const TOLERANCES = Array.from(
  { length: 20 },
  (_, i) => (i % 2 === 0 ? 1 : 10 ** 0.5) * 10 ** -(3 + Math.ceil(i / 2)),
);
