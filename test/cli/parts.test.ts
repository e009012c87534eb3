import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { rideon, SITE, siteFolder } from "./command.js";

const oneLine = (text: string) => text.replaceAll(/\s+/g, " ");

describe("parts", () => {
  test("tells what will not do first, what is needed with the figure to order by, and the rules", async () => {
    const { status, stdout } = await rideon(["parts", join(SITE, "plan.yaml")]);
    expect(status).toBe(0);
    const text = oneLine(stdout);
    expect(text).toMatch(/^This will not do as it is: motor cable; 17 lines of parts are not in them yet\./);
    expect(text).toMatch(
      /chain 1 08B, 52 links, for 139 mm between centres, the least that will do; 12\.7 mm more for each two links more/,
    );
    expect(text).toMatch(/dead-man's switch 19 A for ever, 29 V of direct current, breaks 200 A/);
    expect(text).toMatch(/charger for lead-acid, 4\.9 A, 28\.8 V/);
    expect(text).toMatch(/breaker or fuse 50 A: its rating will do; it must break 2200 A of direct current at 29 V/);
    expect(text).toContain("ASME's code for transmission shafting");
    expect(text).toContain("decided by your club's");
    expect(text).toMatch(/Next: .* trial/);
  });
  test("tells the ballast that restarts it on wet rail, where it goes and what it costs, or that none is wanted", async () => {
    const text = oneLine((await rideon(["parts", join(SITE, "plan.yaml")])).stdout);
    expect(text).toMatch(
      /Ballast 7\d kg over the front axle would let it start again with 6 passengers on the steepest bit, 1 in 71\.1/,
    );
    expect(text).toMatch(/It costs: 4\d laps to the reserve where there were 4\d, a winding at 5\d(\.\d)? °C at most/);
    const braked = oneLine((await rideon(["parts", join(SITE, "saturday.yaml")])).stdout);
    expect(braked).toContain("Not on this list: chains or rods from axle to axle, and the axles beyond the first");
    expect(text).toContain("Not on this list: the axles that the motor does not turn");
    expect(braked).toContain("Ballast None is wanted: with 8 passengers it starts again");
  });
  test("tells what shafts and couplings carry where all is asked for", async () => {
    const text = oneLine((await rideon(["parts", join(SITE, "plan.yaml"), "--all"])).stdout);
    expect(text).toMatch(
      /layshaft 8\.\d+ N m at worst, with the wheels slipping \(5\.\d+ N m in the working, 21\.\d N m at the current limit/,
    );
    // 15.904 mm is told no less.
    expect(text).toContain("16 mm of S235JR is the least");
    expect(text).toMatch(/1, at the loco's buffer beam pulls 14\d N at 8\.4 m, past Wharf Lane/);
    expect(text).toContain("What the motor's maker allows on the end of its shaft comes first.");
  });
  test("tells what another loco would have otherwise, and nothing else of it", async () => {
    const { stdout } = await rideon(["parts", join(SITE, "plan.yaml"), "--beside", join(SITE, "teasel-braked.yaml")]);
    const text = oneLine(stdout);
    expect(text).toMatch(
      /What the other loco would have otherwise .* shaft, layshaft now 16 mm or thicker, S235JR \(needed\); then 22 mm or thicker/,
    );
    expect(text).toContain("brake now none; then 224 N");
    expect(text).toContain("Of the other loco, not on this list: chains or rods from axle to axle");
    const same = await rideon(["parts", join(SITE, "plan.yaml"), "--beside", join(SITE, "loco.yaml")]);
    expect(oneLine(same.stdout)).toContain("What the other loco would have otherwise Nothing.");
    const none = await rideon(["parts", join(SITE, "plan.yaml"), "--beside", "nix.yaml"]);
    expect([none.status, none.stderr]).toEqual([
      2,
      "rideon: error: --beside nix.yaml: loco: nix.yaml: there is no such file\n",
    ]);
  });
  test("a switch rated for alternating volts alone will not do, whatever it carries", async () => {
    const { stdout } = await rideon([
      ...["parts", join(SITE, "plan.yaml"), "--set", "loco.wiring.isolator={ rating: 30 A, ac_voltage: 250 V }"],
    ]);
    expect(oneLine(stdout)).toContain(
      "isolator, main circuit 30 A for ever: will NOT do; it must carry 19 A for ever and break 200 A of direct current at 29 V",
    );
  });
  test("a train that stalls is told as that before its list is", async () => {
    const { stdout } = await rideon(["parts", join(SITE, "gala.yaml")]);
    expect(oneLine(stdout)).toContain("But the train as planned stalls, and does not get round. Put that right first");
    expect(oneLine(stdout)).toContain("isolator amps it must carry not known yet, 29 V of direct current");
    expect(oneLine(stdout)).not.toMatch(/: (?:its rating )?will do/);
    expect(oneLine(stdout)).not.toContain("2600 rpm: will do");
  });
  test("writes a sheet for the shop, a line a part", async () => {
    const folder = siteFolder();
    const out = join(folder, "shop");
    const { stdout } = await rideon(["parts", join(folder, "plan.yaml"), "--json", "--out", out]);
    const lines = readFileSync(join(out, "parts.csv"), "utf8").trim().split("\n");
    expect(lines[0]).toBe("part,count,status,order_by,judged,margin,rule");
    expect(lines).toHaveLength(1 + JSON.parse(stdout).lines.length);
  });
});
