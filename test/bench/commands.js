// How long every command takes on the demo as a whole process, start-up included: the least and the middle of several rounds,
// each round asking all of them once, and how many times as long as Node takes to do nothing. Never inside the test runner.
//   npm run bench                        node test/bench/commands.js 9     nine rounds
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { cpus, tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const ROUNDS = Math.max(1, Number(process.argv[2] ?? 5));
const RIDEON = fileURLToPath(new URL("../../packages/sim-cli/bin/rideon.js", import.meta.url));
const SITE = fileURLToPath(new URL("../../tracks/ostlemere/", import.meta.url));
const out = mkdtempSync(join(tmpdir(), "rideon-bench-"));

const LINES = [
  "--help",
  "run plan.yaml --sped 4",
  "check plan.yaml --sure",
  "run plan.yaml --sure",
  "laps plan.yaml --sure",
  "laps plan.yaml --sure --set duration=4h --set loco.battery.in_parallel=2",
  "climb plan.yaml --sure",
  "gears plan.yaml --sure",
  "brakes plan.yaml --sure",
  "limits plan.yaml --sure",
  "size plan.yaml --sure",
  "parts plan.yaml",
  "wiring plan.yaml",
  "trial plan.yaml",
  "levels book.csv",
  "pull pulls.csv --mass 381kg",
  "coastdown runs.csv",
  "battery battery.csv plan.yaml",
  "compare log.csv plan.yaml",
  `report plan.yaml --sure --out ${out}`,
  "run plan.yaml",
  "laps plan.yaml",
  "sweep plan.yaml --vary passengers=0..8 --vary rail=dry,wet --ask climb",
];

const took = new Map([["node -e 0", []], ...LINES.map((line) => [line, []])]);
for (let round = 0; round < ROUNDS; round++) {
  for (const [line, times] of took) {
    const args = line === "node -e 0" ? ["-e", "0"] : [RIDEON, ...line.split(" ")];
    const before = process.hrtime.bigint();
    spawnSync(process.execPath, args, { cwd: SITE, stdio: "ignore" });
    times.push(Number(process.hrtime.bigint() - before) / 1e9);
  }
}
rmSync(out, { recursive: true });

const middle = (times) => times.toSorted((a, b) => a - b)[times.length >> 1];
const nothing = middle(took.get("node -e 0"));
console.log(`\nwhole processes, ${ROUNDS} rounds, Node ${process.version}, ${cpus().length} × ${cpus()[0]?.model}`);
console.log("  least  middle   times Node's own");
for (const [line, times] of took)
  console.log(
    `${Math.min(...times)
      .toFixed(2)
      .padStart(
        7,
      )} ${middle(times).toFixed(2).padStart(7)} ${(middle(times) / nothing).toFixed(1).padStart(7)}   ${line.replace(out, "FOLDER")}`,
  );
