// How many bytes the core's JavaScript makes in memory, a step of the day and a call of the derivative: what the heap has grown
// by, with so large a place for new objects that nothing is collected meanwhile. Node tells of every collection; a reading with
// one in it does not count. The compiler's own work ends in the rounds before, so the least reading is told.
//   node --min-semi-space-size=512 --max-semi-space-size=512 test/bench/c/born.js     (c.js does so)
import { PerformanceObserver } from "node:perf_hooks";
import { lookedThrough, passOver, wholeDay } from "./core.js";

const ROUNDS = 8;
let collections = 0;
new PerformanceObserver((list) => {
  collections += list.getEntries().length;
}).observe({ entryTypes: ["gc"] });
const heardOf = () => new Promise((done) => setTimeout(done, 20));

async function born(does) {
  let least = Number.POSITIVE_INFINITY;
  for (let round = 0; round < ROUNDS; round++) {
    await heardOf();
    const before = collections;
    const from = process.memoryUsage().heapUsed;
    does();
    const bytes = process.memoryUsage().heapUsed - from;
    await heardOf();
    if (collections === before) least = Math.min(least, bytes);
  }
  return least;
}

const PASSES = 200;
const { samples, count, steps } = lookedThrough();
const pass = passOver(samples, "motion");
const passes = () => {
  for (let i = 0; i < PASSES; i++) pass();
};
const told = (bytes, by) => (Number.isFinite(bytes) ? `${(bytes / by).toFixed(0)} bytes` : "what cannot be told");
const aStep = told(await born(wholeDay), steps);
const aCall = told(await born(passes), PASSES * count);
console.log(
  `JavaScript makes ${aStep} a step of the day, ${aCall} a derivative: growth of the heap, nothing collected meanwhile`,
);
