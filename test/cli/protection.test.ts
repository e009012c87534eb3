import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { rideon, SITE } from "./command.js";

const PLAN = join(SITE, "plan.yaml");

/** The lines under `Protection`, as one. */
async function protectionOf(command: string, ...args: string[]): Promise<string> {
  const { status, stdout } = await rideon([command, PLAN, "--all", ...args]);
  expect(status).toBe(0);
  return (/^Protection\n([\s\S]*?)\n\n/m.exec(stdout)?.[1] ?? "").replaceAll(/\s+/g, " ");
}

describe.concurrent("protection in words", () => {
  test.each(["run", "check"])(
    "%s: a stalled motor that the breaker does not protect, in its own numbers",
    async (command) => {
      const [text, { protection }] = await Promise.all([
        protectionOf(command),
        rideon([command, PLAN, "--json"]).then(({ stdout }) => JSON.parse(stdout)),
      ]);
      const { stall } = protection;
      expect(text).toContain(
        `${stall.motor_current_A} A in the motor is only ${stall.battery_current_A.toPrecision(3)} A from the battery`,
      );
      expect(text).toContain("the 50 A breaker never trips");
      expect(text).toContain("A breaker in the battery lead does NOT protect a stalled motor");
    },
  );

  test("only what was run is asked of breaker and cables", async () => {
    expect(await protectionOf("run")).toMatch(
      /asked here for [\d.]+ A rms.*would do here a breaker of \d+ A, curve [BCD]/,
    );
    expect(await protectionOf("check")).not.toMatch(/asked here|would do here/);
  });

  test("each switch, what it bears and what is asked of it", async () => {
    const dead_man = "loco.wiring.dead_man={ rating: 100 A, ac_voltage: 250 V }";
    const isolator = "loco.wiring.isolator={ rating: 125 A, breaks: 800 A, voltage: 48 V }";
    const text = await protectionOf("run", "--set", dead_man, "--set", isolator);
    expect(text).toMatch(/isolator carries 125 A for ever; it breaks [\d.]+ A of direct current at 28.8 V/);
    expect(text).toMatch(/dead-man's switch carries 100 A for ever; it is NOT known to be rated for the 28.8 V/);
    expect(text).toMatch(/it is NOT known to break [\d.]+ A of direct current at 28.8 V/);
    expect(text).toMatch(/should the controller fail fully on, it may NOT break the [\d.]+ A of a stall/);
  });

  test("what is wrong stands in capitals", async () => {
    const set = (...pairs: string[]) => pairs.flatMap((pair) => ["--set", pair]);
    expect(await protectionOf("check", ...set("loco.wiring.breaker=null"))).toContain("NONE is in the sums");
    expect(await protectionOf("check", ...set("loco.wiring.breaker.rating=100 A"))).toContain(
      "LESS than the 100 A of the breaker: it burns first",
    );
    expect(await protectionOf("run", ...set("loco.wiring.breaker.rating=13 A"))).toMatch(
      /its rms is MORE than 0\.8 of the rating; 1 in 71\.1 takes [\d.]+ A, which it does NOT hold/,
    );
    expect(await protectionOf("check", ...set("loco.wiring.battery_cable.area=4 mm^2"))).toContain(
      "LESS than the 50 A",
    );
    expect(await protectionOf("check", ...set("loco.controller.motor_current_limit=40 A"))).toContain(
      "and a stall takes 40 A",
    );
    const fused = set("loco.wiring.breaker=null", "loco.wiring.fuse.rating=60 A");
    expect(await protectionOf("check", ...fused)).toMatch(
      /fuse 60 A: holds 60 A.*the fuse must be made to break the \d+ A close to the battery/,
    );
    const fed = set("loco.controller.electric_brake=regenerative");
    expect(await protectionOf("check", ...fed)).toContain("it may NOT break what braking feeds back");
  });
});
