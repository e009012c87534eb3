import { type ChildProcess, execFileSync, spawn, spawnSync } from "node:child_process";
import { chmodSync, cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { hostname } from "node:os";
import { join } from "node:path";
import { setTimeout } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import { recipe } from "../support/recipes.js";

// The README's recipes for many machines, run as they stand there: GNU parallel, and a Slurm cluster of this one machine.
// That for Kubernetes is held to the published types in test/house/recipes.test.ts.

const ROOT = fileURLToPath(new URL("../../", import.meta.url));
const folder = mkdtempSync(join(inject("folders"), "machines-"));
const site = join(folder, "line");
const env = { ...process.env, PATH: `${join(folder, "bin")}:${process.env["PATH"]}` };

const there = (...programs: string[]): boolean =>
  programs.every((program) => spawnSync("sh", ["-c", `command -v ${program}`]).status === 0);

/** Whatever is wanting here is wanting in silence, but where a whole check may leave nothing out. */
function mayRun(...programs: string[]): boolean {
  if (there(...programs)) return true;
  if (process.env["CLUSTER_TESTS"] === "required")
    throw new Error(`${programs.join(", ")} are wanted and not all there`);
  console.log(
    `not run: ${programs.join(", ")} are not all there (Debian: apt-get install slurmctld slurmd munge parallel)`,
  );
  return false;
}

const sh = (line: string): string =>
  execFileSync("bash", ["-c", line], { cwd: site, env, encoding: "utf8", stdio: "pipe" });
const read = (...path: string[]): string => readFileSync(join(site, ...path), "utf8");
const rowsOf = (path: string): number => (existsSync(join(site, path)) ? read(path).split("\n").length - 3 : -1);

let whole: string;

beforeAll(() => {
  mkdirSync(join(folder, "bin"));
  const command = join(folder, "bin", "rideon");
  writeFileSync(command, `#!/bin/sh\nexec ${process.execPath} ${inject("command")} "$@"\n`);
  chmodSync(command, 0o755);
  cpSync(join(ROOT, "tracks", "ostlemere"), site, { recursive: true });
  const [, asked = ""] = /rideon (sweep plan\.yaml [\s\S]*?)\\\n/.exec(recipe("slurm")) ?? [];
  sh(`rideon ${asked} --out one --quiet`);
  whole = read("one", "sweep.csv");
});

test.skipIf(!mayRun("parallel"))("GNU parallel works out the shares, and together they are the whole", () => {
  sh(recipe("parallel"));
  expect(read("results", "sweep.csv")).toBe(whole);
  rmSync(join(site, "shares"), { recursive: true });
  rmSync(join(site, "results"), { recursive: true });
});

describe.skipIf(!mayRun("slurmctld", "slurmd", "sbatch", "munged"))("a Slurm job array", () => {
  const cluster = join(folder, "cluster");
  const slurm = { ...env, SLURM_CONF: join(cluster, "slurm.conf") };
  const daemons: ChildProcess[] = [];
  const ask = (...command: [string, ...string[]]): string => {
    const [program, ...args] = command;
    return execFileSync(program, args, { cwd: site, env: slurm, encoding: "utf8", stdio: "pipe" }).trim();
  };
  const until = async (what: string, holds: () => boolean): Promise<void> => {
    for (let tries = 0; !holds(); tries++) {
      if (tries > 600) throw new Error(`waited a minute for ${what}`);
      await setTimeout(100);
    }
  };
  const ended = () => until("the queue to be empty", () => ask("squeue", "--noheader") === "");

  beforeAll(async () => {
    for (const each of ["state", "spool", "log"]) mkdirSync(join(cluster, each), { recursive: true });
    const host = hostname().split(".")[0];
    const munge = join(cluster, "munge");
    mkdirSync(munge, { mode: 0o755 });
    writeFileSync(join(munge, "key"), Buffer.alloc(128, 7), { mode: 0o400 });
    writeFileSync(
      join(cluster, "slurm.conf"),
      [
        `ClusterName=local\nSlurmctldHost=${host}(127.0.0.1)\nSlurmUser=root\nSlurmdUser=root`,
        `AuthType=auth/munge\nAuthInfo=socket=${munge}/socket`,
        `StateSaveLocation=${cluster}/state\nSlurmdSpoolDir=${cluster}/spool`,
        `SlurmctldLogFile=${cluster}/log/ctld.log\nSlurmdLogFile=${cluster}/log/d.log`,
        `SlurmctldPidFile=${cluster}/ctld.pid\nSlurmdPidFile=${cluster}/d.pid`,
        "ProctrackType=proctrack/pgid\nTaskPlugin=task/none\nSchedulerType=sched/backfill",
        "SchedulerParameters=batch_sched_delay=0,sched_interval=1,sched_min_interval=0",
        "SelectType=select/cons_tres\nSelectTypeParameters=CR_Core\nReturnToService=2\nMpiDefault=none",
        "JobAcctGatherType=jobacct_gather/none",
        `NodeName=${host} NodeAddr=127.0.0.1 CPUs=2 State=UNKNOWN`,
        `PartitionName=all Nodes=${host} Default=YES MaxTime=INFINITE State=UP\n`,
      ].join("\n"),
    );
    const start = (program: string, ...args: string[]) =>
      daemons.push(spawn(program, args, { env: slurm, stdio: "ignore" }));
    start(
      "munged",
      ...["--foreground", "--force", `--key-file=${munge}/key`, `--socket=${munge}/socket`],
      ...[`--pid-file=${munge}/pid`, `--log-file=${munge}/log`, `--seed-file=${munge}/seed`],
    );
    await until("munged", () => existsSync(join(munge, "socket")));
    start("slurmctld", "-D", "-c");
    start("slurmd", "-D", "-N", host ?? "");
    await until("the cluster to be idle", () => {
      const { stdout } = spawnSync("sinfo", ["--noheader", "-o", "%t"], { env: slurm, encoding: "utf8" });
      return stdout.trim() === "idle";
    });
  });

  afterAll(async () => {
    // Jobs of a test that failed would outlive the cluster.
    if (existsSync(join(cluster, "ctld.pid"))) {
      spawnSync("scancel", ["--user", "root"], { env: slurm, timeout: 10_000 });
      const left = () => spawnSync("squeue", ["--noheader"], { env: slurm, timeout: 10_000 }).stdout?.toString();
      for (let tries = 0; tries < 100 && left(); tries++) await setTimeout(100);
    }
    for (const each of daemons.toReversed()) {
      const gone = new Promise((resolve) => each.once("exit", resolve));
      each.kill("SIGTERM");
      await Promise.race([gone, setTimeout(5000)]);
      each.kill("SIGKILL");
    }
  });

  test("works out the shares; one that was killed is run again, and together they are the whole", async () => {
    writeFileSync(join(site, "sweep.sh"), recipe("slurm"));
    const job = ask("sbatch", "--parsable", "sweep.sh");
    await until("the second share to begin", () => rowsOf("shares/sweep-2-of-4.csv") >= 1);
    ask("scancel", "--signal=KILL", `${job}_2`);
    await ended();
    const gather = () =>
      spawnSync("rideon", ["sweep", "--gather", "shares/sweep-*-of-4.csv", "--out", "results"], { cwd: site, env });
    expect(rowsOf("shares/sweep-2-of-4.csv")).toBeLessThan(4);
    expect(String(gather().stderr)).toMatch(/missing: shares\/sweep-2-of-4\.csv ends at \d+/);
    ask("sbatch", "--parsable", "--array=2", "sweep.sh");
    await ended();
    expect(gather().status).toBe(0);
    expect(read("results", "sweep.csv")).toBe(whole);
  });
});
