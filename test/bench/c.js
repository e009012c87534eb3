// How far the core's JavaScript is from the same physics in C: test/bench/c has a port of what a four-hour day of `laps` runs on
// the demo. Both run it and must agree in every state; then both are timed, one after the other, by processor time, the least of
// several. How many bytes JavaScript makes meanwhile is told beside it. Without gcc it says so and does nothing.
//   npm run bench                        node test/bench/c.js 15     fifteen rounds
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { cpus, tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { cpu_ns, lookedThrough, passOver, plan, startingState, TOLD_EVERY_s, wholeDay } from "./c/core.js";
import { writeNumbers } from "./c/numbers.js";
import { furthest, mustBeAlike, proven } from "./c/proof.js";

const ROUNDS = Math.max(1, Number(process.argv[2] ?? 7));
const SOURCES = fileURLToPath(new URL("c/", import.meta.url));
const OPTIONS = ["-std=c11", "-O3", "-march=native", "-flto"];
/** A product that goes into a sum is rounded before, as JavaScript asks, or fused with it, where the processor can. */
const ROUNDED = { before: "-ffp-contract=off", fused: "-ffp-contract=fast" };
/** Passes over the samples that are timed as one, and how often. */
const PASSES = 20;
const TIMES = 5;
const ns = (value) => `${value.toFixed(value < 100 ? 1 : 0).padStart(8)} ns`;
const doubles = (folder, name) => new Float64Array(Uint8Array.from(readFileSync(join(folder, name))).buffer);

const gcc = spawnSync("gcc", ["--version"], { encoding: "utf8" });
if (gcc.status !== 0) console.log("\nC beside JavaScript is not timed: no gcc is found");
else {
  const folder = mkdtempSync(join(tmpdir(), "rideon-bench-"));
  try {
    await compare(folder, gcc.stdout.split("\n")[0]);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

async function compare(folder, compiler) {
  await writeNumbers(folder, plan, startingState(), TOLD_EVERY_s);
  const sources = readdirSync(SOURCES).flatMap((name) => (name.endsWith(".c") ? [join(SOURCES, name)] : []));
  for (const [kind, contract] of Object.entries(ROUNDED))
    execFileSync("gcc", [...OPTIONS, contract, "-I", folder, ...sources, "-lm", "-o", join(folder, kind)]);
  const ask = (kind, ...args) =>
    execFileSync(join(folder, kind), ["numbers.bin", ...args.map(String)], { cwd: folder, encoding: "utf8" })
      .split(" ")
      .map(Number);
  const tellDay = (kind) => {
    const [steps, derivatives] = ask(kind, "tell", "states.bin", "rest.bin");
    return { steps, derivatives, states: doubles(folder, "states.bin"), rest: doubles(folder, "rest.bin") };
  };

  const own = lookedThrough();
  const answer = wholeDay();
  writeFileSync(join(folder, "samples.bin"), own.samples);
  const its = tellDay("before");
  const { equal, worst } = proven(its, own, answer);
  console.log(
    `\nC beside JavaScript: ${answer.time_s} s of running, ${own.steps} steps, ${its.derivatives} derivatives`,
  );
  console.log(`${cpus().length} × ${cpus()[0]?.model}; Node ${process.version}; ${compiler}, ${OPTIONS.join(" ")}`);
  console.log(
    `${own.states.length} numbers of the state, once a minute and at the end, are within ${worst.toExponential(1)} of each other, ${equal} of them equal to the bit`,
  );
  console.log("                             C  JavaScript   times     C, fused");
  for (const [name, { before, js, fused }] of Object.entries(timed(ask, own)))
    console.log(`${name.padEnd(20)}${ns(before)} ${ns(js)} ${(js / before).toFixed(2).padStart(7)}  ${ns(fused)}`);
  const off = furthest(tellDay("fused").states, own.states, "states");
  console.log(
    `fused: a product is rounded with the sum it goes into (${ROUNDED.fused}); the state is then ${off.toExponential(1)} off at the most`,
  );
  tellBorn();
}

/** ns a step of the whole day, a derivative, and a Runge-Kutta step with its four derivatives: the least of all rounds. */
function timed(ask, { steps, samples, count }) {
  const least = {};
  const keep = (name, by, value) => {
    least[name] ??= {};
    least[name][by] = Math.min(least[name][by] ?? Number.POSITIVE_INFINITY, value);
  };
  const parts = Object.entries({ motion: "a derivative", step: "a Runge-Kutta step" });
  const passes = Object.fromEntries(parts.map(([part]) => [part, passOver(samples, part)]));
  for (let round = 0; round < ROUNDS; round++) {
    for (const kind of Object.keys(ROUNDED)) keep("a step of the day", kind, ask(kind, "day", 3)[0] / steps);
    keep("a step of the day", "js", cpu_ns(wholeDay) / steps);
    for (const [part, name] of parts) {
      const pass = passes[part];
      for (const kind of Object.keys(ROUNDED)) keep(name, kind, ask(kind, part, "samples.bin", TIMES, PASSES)[0]);
      mustBeAlike(ask("before", part, "samples.bin", 1, 1)[1], pass(), name);
      for (let i = 0; i < TIMES; i++) {
        const took = cpu_ns(() => {
          for (let j = 0; j < PASSES; j++) pass();
        });
        keep(name, "js", took / PASSES / count);
      }
    }
  }
  return least;
}

/** In a process of its own, whose place for new objects takes all that a day makes. */
function tellBorn() {
  const place = ["--min-semi-space-size=512", "--max-semi-space-size=512"];
  const { stdout } = spawnSync(process.execPath, [...place, join(SOURCES, "born.js")], { encoding: "utf8" });
  console.log(stdout.trim() || "how many bytes are born could not be told");
}
