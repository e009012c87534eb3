// A lap at one lever against scipy's LSODA and DOP853: how long each takes at equal error, on the derivative in plain Python
// (lap/motion.py), which is held to the core's first. What Python itself costs is told apart: how long a derivative takes in
// either language, and what the method's derivatives would take in JavaScript, the method's own work left out. Without a python3
// that has scipy it says so and does nothing.
//   npm run bench
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { motion } from "../../packages/sim-core/dist/motion.js";
import * as at from "../../packages/sim-core/dist/state.js";
import { constant, numbersOf } from "./c/numbers.js";
import * as lap from "./lap/core.js";

const PYTHON = "python3";
const ALIKE = 1e-12;
/** A way on which scipy comes no nearer to the truth than this is another lap. */
const SAME_LAP = 1e-9;
const PLACES = lap.NEEDED;

const has = spawnSync(PYTHON, ["-c", "from scipy.integrate import ode, odeint"]);
if (has.status !== 0) console.log("\nscipy is not timed: no python3 that has it is found");
else compare();

function compare() {
  const truth = lap.truth();
  const error = lap.error(lap.shownOf(lap.ours()), truth);
  const samples = sampled();
  const asked = { ...figures(), ...question(truth, error), samples };
  const found = spawnSync(PYTHON, [fileURLToPath(new URL("lap/lap.py", import.meta.url))], {
    input: JSON.stringify(asked),
    encoding: "utf8",
    env: { ...process.env, OMP_NUM_THREADS: "1", OPENBLAS_NUM_THREADS: "1", PYTHONDONTWRITEBYTECODE: "1" },
    maxBuffer: 1e8,
  });
  if (found.status !== 0) throw new Error(`scipy came to nothing: ${found.stderr}`);
  const { scipy, python, derivativeOff, derivative_ns, rows } = JSON.parse(found.stdout);
  if (!(derivativeOff < ALIKE))
    throw new Error(`the derivative in Python is ${derivativeOff} off: it has to follow the core`);
  const own_ms = lap.cpu_ms(() => lap.ours());
  const js_ns = ofDerivative_ns(samples);
  console.log(`\n${lap.inWords(error, own_ms, truth)}`);
  console.log(
    `scipy ${scipy}, Python ${python}, without books: a derivative takes ${(derivative_ns / 1000).toFixed(1)} µs, in JavaScript ${(js_ns / 1000).toFixed(2)} µs, the two within ${derivativeOff.toExponential(1)} at ${samples.length} states`,
  );
  for (const row of rows) tell(row, own_ms, js_ns);
}

function tell({ method, way, finest, tolerance, error, derivatives, ms }, own_ms, js_ns) {
  const name = `${method}, ${way}`;
  if (!(finest < SAME_LAP)) throw new Error(`${name}: at its finest it is ${finest} off the truth`);
  if (tolerance === null)
    return console.log(`${name}: errs more than ours at any tolerance, ${finest.toExponential(1)} at its finest`);
  const alone = (derivatives * js_ns) / 1e6 / own_ms;
  console.log(
    `${name}: ${(ms / own_ms).toFixed(0)} times as long, ${ms.toFixed(0)} ms and ${derivatives} derivatives at ${tolerance.toExponential(0)}, which errs by ${error.toExponential(1)}; those derivatives alone in JavaScript ${alone.toFixed(2)} times as long`,
  );
}

/** The core's figures of plan, train and line, as the port to C reads them, by their names. */
function figures() {
  const { Plan, Train, Track } = numbersOf(lap.plan, new Float64Array(0), 0);
  if (Train.brakes + Train.law + Plan.stops !== 0 || Train.motor.Motor.series !== 0 || Train.heat.Heat.fan_radps !== 0)
    throw new Error("this plan wants more than the derivative in Python has");
  return {
    plan: named(Plan),
    train: named(Train),
    track: named(Track),
    lever: lap.LEVER,
    copper_pK: constant("parts/constants.js", "COPPER_pK"),
  };
}

function named(tree) {
  return Object.fromEntries(Object.entries(tree).map(([name, value]) => [name, plainly(value)]));
}

function plainly(value) {
  if (typeof value === "number") return value;
  if (value instanceof Float64Array) return [...value];
  return named(Object.values(value)[0]);
}

function question(truth, error) {
  const { y } = lap.atStart();
  return {
    start: PLACES.map((place) => (place === at.POSITION ? 0 : y[place])),
    shown: [at.POSITION, ...lap.SHOWN].map((place) => PLACES.indexOf(place)),
    ways: { "straight through": [lap.LAP_m], "from edge to edge": lap.edges_m() },
    tolerances: lap.TOLERANCES,
    truth,
    error,
  };
}

/** Chainage, state and the core's derivative over chainage, at the end of every fifth step of the lap. */
function sampled() {
  const samples = [];
  let steps = 0;
  const w = lap.atStart();
  const dydt = new Float64Array(at.SIZE);
  const step = ({ time_s, y }) => {
    if (steps++ % 5 !== 0) return;
    motion(w, dydt, y, time_s);
    const rates = PLACES.map((place) => (place === at.POSITION ? 1 : dydt[place]) / y[at.SPEED]);
    samples.push([y[at.POSITION], PLACES.map((place) => (place === at.POSITION ? time_s : y[place])), rates]);
  };
  lap.ours(undefined, [{ step, event() {} }]);
  return samples;
}

function ofDerivative_ns(samples) {
  const w = lap.atStart();
  const dydt = new Float64Array(at.SIZE);
  const states = samples.map(([head_m, few]) => {
    const y = Float64Array.from(w.y);
    PLACES.forEach((place, i) => {
      y[place] = place === at.POSITION ? head_m : few[i];
    });
    return y;
  });
  const pass = () => {
    for (let i = 0; i < states.length; i++) motion(w, dydt, states[i], samples[i][1][0]);
  };
  return (lap.cpu_ms(pass, { times: 20, each: 20 }) * 1e6) / states.length;
}
