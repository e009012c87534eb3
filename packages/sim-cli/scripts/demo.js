// The demo of `npm start`: one working of an invented train, and what to try next.
import { main } from "../dist/main.js";

const site = "tracks/ostlemere";
await main(["run", `${site}/plan.yaml`]);
if (!process.exitCode) {
  const next = [
    ["laps", "plan.yaml", "how many laps a charge lasts"],
    ["climb", "plan.yaml", "how many passengers it restarts with on the steepest bit"],
    ["run", "gala.yaml", "why the gala train stands on Heron Bank"],
    ["run", "gala.yaml --set loco.wheels.driven_axles=2", "and with the second axle chained up"],
    ["check", "plan.yaml", "what is assumed, and where from"],
  ];
  console.log("\nTry next:");
  for (const [command, plan, why] of next)
    console.log(`  ${why}:\n    npm run -s rideon -- ${command} ${site}/${plan}`);
  console.log("  your own loco, plan and track:\n    npm run -s rideon -- new my-line");
}
