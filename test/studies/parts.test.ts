import { describe, expect, test } from "vitest";
import { leastCharger, limits, parts, runOnce } from "../../packages/sim-core/src/index.js";
import { wiringLines } from "../../packages/sim-core/src/studies/parts/electric.js";
import { motorLine } from "../../packages/sim-core/src/studies/parts/motor.js";
import { shafts } from "../../packages/sim-core/src/studies/shafts/shafts.js";
import { createPlan } from "../../packages/sim-core/src/train/plan.js";
import { filesOf, LOCO, PLAN } from "../support/club.js";

const FILES = filesOf();
const answer = parts(FILES);
const { lines } = answer;
const line = (part: string, place: string | null = null, of = lines) =>
  of.find((each) => each.part === part && (place === null || each.place === place))!;

describe("the list", () => {
  test("has every part of the drive once, and what the files have is had", () => {
    const names = lines.map(({ part, place }) => `${part} ${place ?? ""}`.trim());
    for (const name of [
      "motor",
      "controller",
      "chain 1",
      "chain 2",
      "shaft motor",
      "shaft layshaft",
      "shaft axle",
      "battery",
    ])
      expect(names).toContain(name);
    expect(lines.filter(({ part }) => part === "sprocket").map(({ figures }) => figures.teeth)).toEqual([
      11, 45, 12, 30,
    ]);
    expect(line("battery").count).toBe(2);
    expect(line("breaker").have).toBe(true);
    expect(line("isolator").have).toBe(false);
    expect(line("brake").have).toBe(false);
  });
  test("counts what is needed and what will not do", () => {
    expect(answer.needed).toBe(answer.lines.filter(({ have }) => !have).length);
    expect(answer.wanting).toBe(answer.lines.filter(({ enough }) => enough === false).length);
  });
  test("tells shafts as shafts are judged, and the next bar that is sold", () => {
    const { rows } = shafts(createPlan(FILES.plan, FILES.loco, FILES.track));
    for (const row of rows) {
      const { figures, wanted } = line("shaft", row.shaft);
      expect(wanted.diameter_m).toBe(row.least_diameter_m);
      expect(figures.diameter_m).toBeGreaterThanOrEqual(row.least_diameter_m);
      expect(figures.diameter_m).toBeLessThan(1.3 * row.least_diameter_m + 0.001);
    }
  });
  test("a part that is given is had, and judged by what is asked of it", () => {
    const own = filesOf({
      gears: [
        { ...LOCO.gears[0]!, shaft: { diameter_m: 0.03 } },
        { ...LOCO.gears[1]!, chain: "08B", centres_m: 0.3 },
      ],
      wiring: { ...LOCO.wiring!, isolator: { rating_A: 1, breaks_A: 1, voltage_V: 48 } },
    });
    const given = parts(own).lines;
    expect(line("shaft", "motor", given)).toMatchObject({ have: true, enough: true });
    const isolator = given.find(({ part }) => part === "isolator")!;
    expect(isolator).toMatchObject({ have: true, enough: false });
    expect(isolator.margin).toBeNull();
    expect(line("chain", "2", given).figures.links! % 2).toBe(0);
    expect(line("chain", "2", given).figures.centres_m).toBeGreaterThan(0.28);
  });
  test("links with no centres given are whole and even, at the least centres that will do", () => {
    for (const { figures } of lines.filter(({ part }) => part === "chain")) {
      expect(figures.links! % 2).toBe(0);
      expect(figures.least_centres_m).toBeGreaterThan(0.05);
      // Two links more let the centres be a pitch farther apart: 12.7 mm of 08B.
      expect(figures.each_two_links_m).toBe(0.0127);
    }
  });
  test("the difference of two lists is what one has otherwise", () => {
    expect(parts(FILES, FILES).changes).toEqual([]);
    const { changes } = parts(FILES, filesOf({ gears: [{ ...LOCO.gears[0]!, teeth: [11, 40] }, LOCO.gears[1]!] }));
    const teeth = changes!.flatMap(({ before, after }) =>
      after?.part === "sprocket" && before?.figures.teeth !== after.figures.teeth
        ? [[before?.figures.teeth, after.figures.teeth]]
        : [],
    );
    expect(teeth).toEqual([[45, 40]]);
  });
  test("the brakes of the other loco are judged as limits judges them, with what would do", () => {
    const without = line("brake").figures.force_N!;
    for (const hand_force_N of [20, 300]) {
      const brake = { hand_force_N, linkage_ratio: 8, linkage_efficiency: 0.8, block_friction: 0.25 };
      const other = filesOf({ brakes: [brake] });
      const after = parts(FILES, other).changes!.find(({ after }) => after?.part === "brake")!.after!;
      const stop = limits(other).stops.find(({ who, rail }) => who === "driver" && rail === "wet")!;
      expect(after.enough).toBe(stop.outcome === "stops");
      expect(after.enough).toBe(hand_force_N === 300);
      // The same train without it wants the same.
      if (after.enough) expect(after.wanted).toEqual({});
      else expect(after.wanted.force_N).toBeCloseTo(without, 6);
      // What is as it was and will not do is told as well.
      const same = parts(other, other).changes!.map(({ after }) => after?.part);
      expect(same).toEqual(after.enough ? [] : ["brake"]);
    }
  });
  test("a bore that is in no file is wanted, and one that is is had", () => {
    const bore_m = line("shaft", "motor").figures.diameter_m!;
    expect(line("sprocket", "motor")).toMatchObject({ figures: { teeth: 11 }, wanted: { bore_m } });
    expect(line("sprocket", "motor").figures).not.toHaveProperty("bore_m");
    const own = filesOf({ gears: [{ ...LOCO.gears[0]!, shaft: { diameter_m: 0.03 } }, LOCO.gears[1]!] });
    expect(line("sprocket", "motor", parts(own).lines)).toMatchObject({ figures: { bore_m: 0.03 }, wanted: {} });
    expect(parts(FILES, own).changes!.map(({ after }) => after?.part)).toContain("sprocket");
  });
  test("a worn battery is no purchase, nor is a smaller charger for it", () => {
    const worn = filesOf({ battery: { ...LOCO.battery!, health: 0.6 } });
    const changed = parts(FILES, worn).changes!.map(({ after }) => after?.part);
    expect(changed).not.toContain("charger");
    expect(changed).not.toContain("battery");
  });
  test("the resistor of an electric brake stands there, with what it must bear; shorted there is none", () => {
    const braking = (brake_resistance_ohm: number) =>
      parts(
        filesOf({ controller: { ...LOCO.controller!, electric_brake: "rheostatic", brake_resistance_ohm } }),
      ).lines.filter(({ part }) => part === "brake_resistor");
    // 60 A through 0.25 ohm, by Joule's law.
    expect(braking(0.25)).toMatchObject([
      { have: true, figures: { resistance_ohm: 0.25 }, wanted: { current_A: 60, power_W: 900 } },
    ]);
    expect(braking(0)).toEqual([]);
  });
  test("a train that does not get round has no motor that will do", () => {
    const stalled = parts(filesOf({}, { passengers: 6, cars: [{ ...PLAN.cars![0]!, mass_kg: 900 }] }));
    expect(stalled.outcome).not.toBe("completed");
    expect(stalled.ended_by).not.toBeNull();
    expect(line("motor", null, stalled.lines)).toMatchObject({ margin: null, enough: null });
    for (const part of ["breaker", "battery_cable", "motor_cable"])
      expect([line(part, null, stalled.lines).enough, line(part, null, stalled.lines).margin]).not.toContain(true);
    for (const part of ["isolator", "dead_man", "reverser"])
      expect(line(part, null, stalled.lines).figures).not.toHaveProperty("current_A");
  });
});

describe("a breaker and its cable", () => {
  const { breaker: _, ...unguarded } = LOCO.wiring!;
  const linesOf = (area_mm2: number, wiring: typeof LOCO.wiring = unguarded) => {
    const { plan, loco, track } = filesOf({ wiring: { ...wiring, battery_cable: { length_m: 2, area_mm2 } } });
    const { protection } = runOnce(createPlan(plan, loco, track));
    return wiringLines(protection, { loco, regenerates: false, round: true });
  };
  test("a cable that nothing guards must do for the breaker to buy, and not for the working alone", () => {
    for (const area_mm2 of [1.5, 2.5, 4, 6, 10, 16]) {
      const of = linesOf(area_mm2);
      const [cable, { figures }] = [line("battery_cable", null, of), line("breaker", null, of)];
      const bought = { ...unguarded, breaker: { rating_A: figures.current_A!, curve: figures.curve! } };
      // With that breaker in the file it is judged by the protection study: what one will not have the other will not.
      const then = linesOf(area_mm2, bought);
      expect(cable.enough).toBe(line("breaker", null, then).enough && line("battery_cable", null, then).enough);
      expect(cable.enough).toBe(area_mm2 >= cable.wanted.area_mm2!);
    }
    expect(line("battery_cable", null, linesOf(1.5)).enough).toBe(false);
    expect(line("battery_cable", null, linesOf(16)).enough).toBe(true);
  });
  test("a cable whose breaker is too small must do for one that is large enough", () => {
    const small = linesOf(1.5, { ...unguarded, breaker: { rating_A: 6, curve: "C" } });
    expect(line("breaker", null, small).enough).toBe(false);
    expect(line("battery_cable", null, small).enough).toBe(false);
  });
  test("a breaker that braking feeds back through must break either way", () => {
    const { plan, loco, track } = filesOf();
    const { protection } = runOnce(createPlan(plan, loco, track));
    const back = wiringLines(protection, { loco, regenerates: true, round: true });
    expect(line("breaker", null, back).wanted.both_ways).toBe(true);
    expect(line("breaker").wanted).not.toHaveProperty("both_ways");
  });
});

describe("what is one of several", () => {
  test("two motors are two of one motor each, in parallel and in series", () => {
    for (const connection of ["parallel", "series"] as const) {
      const { plan, loco, track } = filesOf({ motor: { ...LOCO.motor!, count: 2, connection } });
      const made = createPlan(plan, loco, track);
      const motor = motorLine(made, runOnce(made));
      const { voltage_V, power_W } = LOCO.motor!.nameplate!;
      expect(motor.count).toBe(2);
      expect(motor.figures.voltage_V).toBeCloseTo(voltage_V!, 9);
      expect(motor.figures.power_W).toBeCloseTo(power_W!, 9);
      expect(motor.figures.current_A).toBeCloseTo(line("motor").figures.current_A!, 6);
    }
  });
  test("a charger is told what it charges, and its volts are those of the charge", () => {
    const { figures } = line("charger");
    const least = leastCharger(createPlan(FILES.plan, FILES.loco, FILES.track), { from: 0.5, by_h: 12 });
    expect([figures.chemistry, figures.voltage_V]).toEqual(["lead-acid", least.charger_voltage_V]);
  });
});
