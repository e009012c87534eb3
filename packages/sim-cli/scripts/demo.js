// The demo of `npm start`: one working of an invented train, its page for a committee, and what to try next.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const rideon = fileURLToPath(new URL("../bin/rideon.js", import.meta.url));
const run = (stdio, ...args) => spawnSync(process.execPath, [rideon, ...args], { stdio }).status ?? 3;

const site = "tracks/ostlemere";
const page = ".cache/ostlemere";
process.exitCode = run("inherit", "run", `${site}/plan.yaml`);
if (process.exitCode === 0) {
  // Its warnings are those that have just been told.
  process.exitCode = run(["inherit", "inherit", "ignore"], "report", `${site}/plan.yaml`, "--out", page, "--quiet");
}
if (process.exitCode === 0) {
  console.log(`\nThe committee's page of this working: ${page}/report.html, to open in a browser or print.`);
  const next = [
    ["laps", "plan.yaml", "how many laps a charge lasts"],
    ["climb", "plan.yaml", "how many passengers it restarts with on the steepest bit"],
    ["brakes", "plan.yaml", "how far it runs on with no brake"],
    ["run", "gala.yaml", "why the gala train stands on Heron Bank"],
    ["run", "gala.yaml --set loco.wheels.driven_axles=2", "and with the second axle chained up"],
    ["check", "plan.yaml", "what is assumed, and where from"],
  ];
  console.log("\nTry next:");
  for (const [command, plan, why] of next)
    console.log(`  ${why}:\n    npm run -s rideon -- ${command} ${site}/${plan}`);
  console.log("  your own loco, plan and track:\n    npm run -s rideon -- new my-line");
}
