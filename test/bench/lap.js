// A lap at one lever against odex (extrapolation, Hairer and Wanner), a general integrator, on the very same derivative: how
// long each takes at equal error. The truth is ours at a fiftieth of the step, and how far odex at its finest is from that is
// told. Processor time, least of several.
//   npm run bench
import { createRequire } from "node:module";
import { readPlan } from "@rideon/sim-cli/read";
import { createPlan } from "@rideon/sim-core";
import { motion } from "../../packages/sim-core/dist/motion.js";
import { run } from "../../packages/sim-core/dist/run.js";
import * as at from "../../packages/sim-core/dist/state.js";
import { breakOff, moveLever, startWorking } from "../../packages/sim-core/dist/working.js";

const { Solver } = createRequire(import.meta.url)("odex");
const { plan, loco, track } = readPlan("tracks/ostlemere/plan.yaml", { sets: [] });
const ready = createPlan(plan, loco, track);
const LEVER = 0.8;
const START = { chainage_m: 0, speed_mps: 1.6 };
const LAP_m = ready.track.length_m;
const SHOWN = [at.POSITION, at.SPEED, at.WINDING, at.CASE, at.AVAILABLE, at.DRAWN];

/** Ours: the loop, its driver's looks, margins and books. */
function ours(step_s) {
  const w = run(ready, {
    ...(step_s && { step_s }),
    start: START,
    runsOn: true,
    driver(each) {
      moveLever(each, LEVER, 100);
      if (each.y[at.POSITION] >= LAP_m) breakOff(each, "completed");
    },
  });
  return { y: Float64Array.from(w.y), seconds: w.time_s };
}

/** odex on the same derivative, for so long. */
function byOdex(tolerance, until_s) {
  const w = startWorking(ready, START);
  moveLever(w, LEVER, 100);
  const [dydt, state] = [new Float64Array(at.SIZE), new Float64Array(at.SIZE)];
  const solver = new Solver(at.SIZE);
  Object.assign(solver, { absoluteTolerance: tolerance, relativeTolerance: tolerance, maxSteps: 10_000_000 });
  const rates = (t, y) => {
    state.set(y);
    motion(w, dydt, state, t);
    return Array.from(dydt);
  };
  return solver.solve(rates, 0, Array.from(w.y), until_s).y;
}

const error = (y, truth) => Math.max(...SHOWN.map((i) => Math.abs(y[i] - truth[i]) / Math.max(1, Math.abs(truth[i]))));

function cpu_ms(does, times = 7) {
  does();
  return Math.min(
    ...Array.from({ length: times }, () => {
      const from = process.cpuUsage();
      for (let i = 0; i < 3; i++) does();
      const { user, system } = process.cpuUsage(from);
      return (user + system) / 3000;
    }),
  );
}

const { y, seconds } = ours();
const truth = ours(0.1 / 50).y;
const finest = error(byOdex(1e-12, seconds), truth);
const own = error(y, truth);
console.log(
  `\na lap of ${LAP_m} m in ${seconds.toFixed(1)} s at one lever: ours errs by ${own.toExponential(1)}; odex at 1e-12 is ${finest.toExponential(1)} off the truth`,
);
const own_ms = cpu_ms(() => ours());
for (let tolerance = 1e-4; tolerance > 1e-13; tolerance /= 10) {
  const off = error(byOdex(tolerance, seconds), truth);
  if (off > own) continue;
  const its_ms = cpu_ms(() => byOdex(tolerance, seconds));
  console.log(
    `ours ${own_ms.toFixed(1)} ms; odex at ${tolerance.toExponential(0)}, which errs by ${off.toExponential(1)}, ${its_ms.toFixed(1)} ms: ${(its_ms / own_ms).toFixed(1)} times`,
  );
  break;
}
