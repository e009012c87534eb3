import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { rideon, SITE, siteFolder } from "./command.js";

const oneLine = (text: string) => text.replaceAll(/\s+/g, " ");
const told = async (...args: string[]) => oneLine((await rideon(["wiring", join(SITE, "plan.yaml"), ...args])).stdout);

describe("wiring", () => {
  test("tells what is missing or will not do first, the way of the power, and the battery last", async () => {
    const text = await told();
    expect(text).toMatch(
      /^Will not do as it is: motor cable; not in the files: isolator, dead-man's switch and reverser\. Put that right before the battery is joined\./,
    );
    expect(text).toMatch(
      /breaker 50 A; carries 13 A for ever, must break 2200 A of direct current at 29 V, its rating will do: look whether/,
    );
    expect(text).toMatch(
      /isolator carries 19 A for ever \(worst minute\), must break 200 A of direct current at 29 V, NOT in the files/,
    );
    const [before, after] = [text.indexOf("Join the motor to the controller"), text.indexOf("the last joint of all")];
    expect(before).toBeGreaterThan(0);
    expect(after).toBeGreaterThan(before);
    expect(text).toContain("The files have no isolator. Fit one that opens the whole circuit");
    expect(text).toContain("the battery gives off hydrogen then");
    expect(text).toMatch(/isolator, far side 0 V 0 V 24\.5 to 25\.3 V/);
    expect(text).toContain("across motor, lever shut 0 V 0 V 0 V");
    expect(text).toContain("A minus sign before the volts means that the two leads are changed over");
    // A cold lamp is next to a short circuit on the ohmmeter.
    expect(text.indexOf("Leave the fuses of lamps and horn out")).toBeLessThan(text.indexOf("meter on ohms"));
    expect(text).toContain("decided by your club's");
  });
  test("a dead-man's switch in the main circuit takes the capacitors' spark, one in the control circuit does not", async () => {
    expect(await told()).toContain("across the dead-man's switch until less than a volt is left");
    const control = await told("--set", "loco.wiring.dead_man={ rating: 1 A, stands: control }");
    expect(control).toContain("across the open isolator, or the contactor that joins the controller");
    expect(control).toContain("a controller that has failed pulls on");
    expect(control).toMatch(/the contactor that it drops carries 19 A for ever .*, must break 200 A of direct current/);
    expect(control).toContain("+ of the controller, the isolator and the breaker, in this order");
  });
  test("an isolator in the control circuit is none", async () => {
    const text = await told(
      "--set",
      "loco.wiring.isolator={ rating: 100 A, breaks: 1000 A, voltage: 48 V, stands: control }",
    );
    expect(text).toMatch(/^Will not do as it is: isolator and motor cable/);
    expect(text).toContain("The files have no isolator in the main circuit");
  });
  test("a series motor is turned about by its armature or its field, and is not let race", async () => {
    const text = await told("--set", "loco.motor.kind=series");
    expect(text).toContain("both together change nothing");
    expect(text).toContain("with nothing to pull it races until it bursts");
    const reversed = await told(
      ...["--set", "loco.motor.kind=series", "--set", "loco.wiring.reverser={ rating: 100 A, voltage: 48 V }"],
      ...["--set", "loco.motor.count=2"],
    );
    expect(reversed).toContain("Join the 2 motors to the controller, side by side");
    expect(reversed).toContain("The armature goes through the reverser and the field past it");
  });
  test("high volts, strings in parallel and braking that feeds back are warned of", async () => {
    const text = await told(
      ...["--set", "loco.battery.in_series=8", "--set", "loco.battery.in_parallel=2"],
      ...["--set", "loco.controller={ motor_current_limit: 75 A, electric_brake: regenerative }"],
    );
    expect(text).toContain("above 60 V of direct current who touches both poles can be killed");
    expect(text).toContain("give each a fuse of its own");
    expect(text).toContain("a breaker that is not marked with poles");
    expect(text).toContain("its electric brake may go with that: another brake must stop the train then");
    expect(text).toContain("The files have no dead-man's switch. Fit one");
  });
  test("with no breaker the first thing is to fit one", async () => {
    const { stdout, stderr } = await rideon([
      "wiring",
      join(SITE, "plan.yaml"),
      "--set",
      "loco.wiring={ accessories: 6 W }",
    ]);
    expect(stderr).not.toContain("error");
    expect(oneLine(stdout)).toContain(
      "neither breaker nor fuse. Fit one close to the battery before anything is joined to it",
    );
  });
  test("a train that stalls is told as that", async () => {
    expect(oneLine((await rideon(["wiring", join(SITE, "gala.yaml")])).stdout)).toContain(
      "But the train as planned stalls, and does not get round",
    );
  });
  test("writes a page to print that fetches nothing, with the diagram in it", async () => {
    const folder = siteFolder();
    const out = join(folder, "sheet");
    await rideon(["wiring", join(folder, "plan.yaml"), "--out", out, "--svg", join(folder, "w.svg")]);
    const page = readFileSync(join(out, "wiring.html"), "utf8");
    expect(page).toContain("script-src 'none'");
    expect(page).not.toMatch(/(?:src|href)="http/);
    const picture = readFileSync(join(folder, "w.svg"), "utf8");
    for (const symbol of [
      "battery",
      "breaker",
      "isolator",
      "dead_man",
      "controller",
      "reverser",
      "motor",
      "own-fuse",
    ]) {
      expect(picture).toContain(`data-symbol="${symbol}"`);
      expect(page).toContain(`data-symbol="${symbol}"`);
    }
  });
});
