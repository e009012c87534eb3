// What a run costs against posts, vehicles and hours, and what cases cost on one worker and on two: each as a ratio against
// what it is measured beside, in the same minute. Processor time, so that a busy machine tells much the same.
//   npm run bench
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { readPlan } from "@rideon/sim-cli/read";
import { createPlan, laps, runOnce } from "@rideon/sim-core";

const SITE = fileURLToPath(new URL("../../tracks/ostlemere/", import.meta.url));
const reading = readPlan(join(SITE, "plan.yaml"), { sets: ["loco.battery.in_parallel=8"] });
const { plan: own, loco, track } = reading;

/** Least of three of the processor's own milliseconds, after one that warms up. */
function cpu_ms(does) {
  does();
  const times = [1, 2, 3].map(() => {
    const from = process.cpuUsage();
    does();
    const { user, system } = process.cpuUsage(from);
    return (user + system) / 1000;
  });
  return Math.min(...times);
}

/** The same line with so many posts: those it has, and between them as many more, on the straight. */
function withPosts(count) {
  const { distance_m, height_m } = track;
  const last = distance_m.at(-1);
  const d = Array.from({ length: count }, (_, i) => (last * i) / (count - 1));
  let k = 0;
  const h = d.map((x) => {
    while (k + 2 < distance_m.length && distance_m[k + 1] < x) k++;
    return height_m[k] + ((height_m[k + 1] - height_m[k]) * (x - distance_m[k])) / (distance_m[k + 1] - distance_m[k]);
  });
  h[count - 1] = height_m.at(-1);
  return { distance_m: d, height_m: h };
}

const table = (heading, rows) => {
  console.log(`\n${heading}`);
  const [, first] = rows[0];
  for (const [name, ms, per = 1] of rows)
    console.log(
      `${String(name).padStart(9)} ${ms.toFixed(1).padStart(9)} ms ${(ms / first / per).toFixed(2).padStart(7)}`,
    );
};

table(
  "posts of the line, a lap of it: times that of ten posts (the making of the plan left out)",
  [10, 100, 1000, 10_000, 100_000].map((count) => {
    const plan = createPlan({ ...own, laps: 3 }, loco, withPosts(count));
    return [count, cpu_ms(() => runOnce(plan))];
  }),
);
table(
  "the making of the plan: times that of ten posts, by the post",
  [10, 100, 1000, 10_000, 100_000].map((count) => {
    const columns = withPosts(count);
    return [count, cpu_ms(() => createPlan(own, loco, columns)), count / 10];
  }),
);
const [car] = own.cars;
table(
  "cars behind the loco: times that of one, by the car",
  [1, 2, 4, 8].map((count) => {
    const plan = createPlan(
      { ...own, laps: 3, passengers: 0, cars: Array(count).fill({ ...car, count: 1, length_m: 1 }) },
      loco,
      track,
    );
    return [count, cpu_ms(() => runOnce(plan)), count];
  }),
);
table(
  "hours of running: times that of one, by the hour",
  [1, 2, 4, 8].map((hours) => {
    const { laps: _, ...held } = own;
    const plan = createPlan({ ...held, duration_s: 3600 * hours, passengers: 0 }, loco, track);
    return [hours, cpu_ms(() => laps(plan)), hours];
  }),
);

const rideon = fileURLToPath(new URL("../../packages/sim-cli/bin/rideon.js", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "rideon-bench-"));
const CASES = 60;
const wall_s = (workers) => {
  const from = performance.now();
  const args = [
    "sweep",
    join(SITE, "plan.yaml"),
    "--vary",
    `loco.mass=${140}..${139 + CASES} kg`,
    "--ask",
    "laps",
    "--quiet",
  ];
  spawnSync(process.execPath, [rideon, ...args, "--workers", String(workers), "--out", join(folder, String(workers))], {
    stdio: "ignore",
  });
  return (performance.now() - from) / 1000;
};
const [one_s, two_s] = [wall_s(1), wall_s(2)];
rmSync(folder, { recursive: true });
console.log(
  `\n${CASES} cases of laps: ${one_s.toFixed(1)} s on one worker, ${two_s.toFixed(1)} s on two: ${(one_s / two_s).toFixed(2)} times`,
);
console.log(
  `a case: ${((1000 * one_s) / CASES).toFixed(0)} ms of one worker; a thousand on two ${((1000 * two_s) / CASES).toFixed(0)} s`,
);
