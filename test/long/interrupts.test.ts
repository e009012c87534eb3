import { join } from "node:path";
import { setTimeout } from "node:timers/promises";
import { describe, expect, test } from "vitest";
import { ended, SITE, start, withPipe } from "../cli/command.js";

const PLAN = join(SITE, "plan.yaml");

describe("interrupted", () => {
  /** Long enough for the command to be waiting, or at work. */
  const BEGUN_ms = 3000;

  test.skipIf(process.platform === "win32").each([
    ["SIGINT", 130, "waits for its plan", ["run", "-"], undefined],
    ["SIGTERM", 143, "waits for its plan", ["size", "-"], undefined],
    ["SIGINT", 130, "waits for a filled sheet", ["trial", PLAN, "--readings", "-"], undefined],
    ["SIGTERM", 143, "waits for a pipe", ["check"], withPipe],
    ["SIGTERM", 143, "runs a day", ["laps", PLAN, "--step", "0.001"], undefined],
  ] as const)("by %s it ends with %d, at once, while it %s", async (signal, status, _, args, folder) => {
    const child = start(args, folder ? { cwd: folder() } : {});
    const end = ended(child);
    await setTimeout(BEGUN_ms);
    child.kill(signal);
    const before_ms = Date.now();
    expect(await end).toMatchObject({ status, stdout: "" });
    expect(Date.now() - before_ms).toBeLessThan(3000);
  });
});
