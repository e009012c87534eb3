// A lap at one lever against odex (extrapolation, Hairer and Wanner), a general integrator, on the very same derivative: how
// long each takes at equal error. odex goes straight through or from edge to edge, with all states or without the books, each at
// the loosest tolerance at which it errs no more than ours. Processor time.
//   npm run bench
import { createRequire } from "node:module";
import { motion } from "../../packages/sim-core/dist/motion.js";
import * as at from "../../packages/sim-core/dist/state.js";
import {
  atStart,
  cpu_ms,
  edges_m,
  error,
  inWords,
  LAP_m,
  NEEDED,
  ours,
  shownOf,
  TOLERANCES,
  truth,
} from "./lap/core.js";

const { Solver } = createRequire(import.meta.url)("odex");
const FINEST = 1e-12;
const ALL = [at.POSITION, ...Array.from({ length: at.SIZE }, (_, i) => i).filter((i) => i !== at.POSITION)];
const STATES = { "all states": ALL, "no books": NEEDED };
const WAYS = { "straight through": [LAP_m], "from edge to edge": edges_m() };

/**
 * odex on the same derivative, over chainage: the first place has the time.
 * @param places those of the state that are integrated; the rest stays as it is, since nothing asks for it
 */
function byOdex(tolerance, places, edges) {
  const w = atStart();
  const [dydt, state] = [new Float64Array(at.SIZE), Float64Array.from(w.y)];
  const count = places.length;
  let derivatives = 0;
  // Plain loops, since `Array.from` with a function takes longer than all else here.
  const rates = (x_m, y) => {
    for (let i = 0; i < count; i++) state[places[i]] = y[i];
    state[at.POSITION] = x_m;
    motion(w, dydt, state, y[0]);
    derivatives++;
    const perSpeed = 1 / state[at.SPEED];
    const rate = new Array(count);
    for (let i = 0; i < count; i++) rate[i] = dydt[places[i]] * perSpeed;
    rate[0] = perSpeed;
    return rate;
  };
  let y = places.map((place) => w.y[place]);
  let from_m = y[0];
  y[0] = 0;
  for (const to_m of edges) {
    const solver = new Solver(count);
    Object.assign(solver, { absoluteTolerance: tolerance, relativeTolerance: tolerance, maxSteps: 10_000_000 });
    y = solver.solve(rates, from_m, y, to_m).y;
    from_m = to_m;
  }
  places.forEach((place, i) => {
    state[place] = y[i];
  });
  return { shown: shownOf({ time_s: y[0], y: state }), derivatives };
}

const exact = truth();
const own = error(shownOf(ours()), exact);
const own_ms = cpu_ms(() => ours());
console.log(`\n${inWords(own, own_ms, exact)}`);
for (const [states, places] of Object.entries(STATES))
  for (const [way, edges] of Object.entries(WAYS)) {
    const tolerance = TOLERANCES.find((each) => error(byOdex(each, places, edges).shown, exact) <= own);
    if (tolerance === undefined)
      throw new Error(`odex ${way} never errs as little as ours: the two do not do the same`);
    const { shown, derivatives } = byOdex(tolerance, places, edges);
    const its_ms = cpu_ms(() => byOdex(tolerance, places, edges));
    console.log(
      `odex, ${states}, ${way}: ${(its_ms / own_ms).toFixed(1)} times as long, ${its_ms.toFixed(1)} ms and ${derivatives} derivatives at ${tolerance.toExponential(0)}, which errs by ${error(shown, exact).toExponential(1)}`,
    );
  }
const finest = error(byOdex(FINEST, ALL, WAYS["from edge to edge"]).shown, exact);
console.log(`odex at its finest is ${finest.toExponential(1)} off what both are held to`);
