// How long a four-hour day of `laps` takes, core alone: plain Node on the built code, never inside the test runner.
//   npm run bench
import { readPlan } from "@rideon/sim-cli/read";
import { createPlan, laps } from "@rideon/sim-core";

const reading = await readPlan("tracks/ostlemere/plan.yaml", { sets: ["duration=4 h", "loco.battery.in_parallel=2"] });
const plan = createPlan(reading.plan, reading.loco, reading.track);
for (let run = 1; run <= 5; run++) {
  const start = performance.now();
  const answer = laps(plan);
  console.log(
    `${(performance.now() - start).toFixed(0)} ms for ${answer.laps_to_end} laps, ${answer.time_s.toFixed(0)} s`,
  );
}
