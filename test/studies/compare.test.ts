import { describe, expect, test } from "vitest";
import { InputError } from "../../packages/sim-core/src/errors.js";
import { cellsOf, loggedIn } from "../../packages/sim-core/src/field/compare/cells.js";
import { journeyOf } from "../../packages/sim-core/src/field/compare/journey.js";
import { placeLog } from "../../packages/sim-core/src/field/compare/place.js";
import { predict } from "../../packages/sim-core/src/field/compare/predict.js";
import { compare, createPlan, type LogColumns, limits, logSays } from "../../packages/sim-core/src/index.js";
import type { PlanFiles } from "../../packages/sim-core/src/studies/limits/limits.js";
import { CIRCUIT, filesOf, LOCO } from "../support/club.js";
import { logOf, rowsOf } from "../support/logs.js";
import { profile } from "../support/profiles.js";

const WHOLE = { share: 1, steepest: true };
const FILES = filesOf();
const ROLLING = { ...LOCO.resistance, rolling: 0.012 };
const HEAVIER = filesOf({ resistance: ROLLING });
const ROWS = rowsOf(FILES, 1);
const ROUGH = rowsOf(HEAVIER, 3);

const of = (answer: ReturnType<typeof compare>, name: string) => answer.quantities.find((each) => each.name === name)!;
/** The differences in the mean, and what they were taken from: without anybody's doubt, and so soon. */
function biasesOf({ plan: definition, loco, track, tables }: PlanFiles, log: LogColumns) {
  const plan = createPlan(definition, loco, track, tables);
  const placed = placeLog(log, plan.track, 0);
  const journey = journeyOf(log, placed, plan.track.length_m);
  const cells = cellsOf(journey, plan.track.length_m);
  const logged = loggedIn(cells, log, placed, journey);
  const predicted = predict(plan, journey, cells, undefined);
  const bias = (name: "battery_current" | "temperature") => {
    const off = [...logged[name]]
      .map((each, i) => each - predicted.cells[name][i]!)
      .filter((each) => !Number.isNaN(each));
    return off.reduce((sum, each) => sum + each, 0) / off.length;
  };
  return { placed, journey, predicted, battery_current: bias("battery_current"), temperature: bias("temperature") };
}
const refused = (ask: () => unknown): string => {
  try {
    ask();
  } catch (error) {
    if (error instanceof InputError) return error.problems.map(({ path, message }) => `${path}: ${message}`).join("\n");
    throw error;
  }
  return "";
};
const pick = (log: LogColumns, keep: (i: number) => boolean): LogColumns => {
  const kept = Array.from({ length: log.time_s.length }, (_, i) => i).filter(keep);
  return Object.fromEntries(
    Object.entries(log).map(([name, column]) => [name, Float64Array.from(kept, (i) => (column as Float64Array)[i]!)]),
  ) as unknown as LogColumns;
};

describe("a log of the sums' own run", () => {
  const answer = compare(FILES, logOf(ROWS));

  test("agrees with them, to what a driver's hand and a log of one reading a second leave", () => {
    expect(answer.outcome).toBe("completed");
    for (const { name, bias, rms, within_doubt, predicted } of answer.quantities) {
      expect(within_doubt, name).toBe(true);
      expect(Math.abs(bias), name).toBeLessThan(0.01 * Math.abs(predicted) + 0.01);
      expect(rms, name).toBeLessThan(0.03 * Math.abs(predicted) + 0.02);
    }
    expect(answer.explained_by).toEqual([]);
  });
  test("goes as far as the log, from where it begins", () => {
    expect(Math.abs(answer.came_m / answer.distance_m - 1)).toBeLessThan(0.002);
    expect(answer.from_m).toBe(0);
    expect(answer.distance_m).toBeCloseTo(240, 0);
  });
  test("tells the steadiest piece with its lever, for a sheet of the first outing", () => {
    const { steady } = answer;
    const at = ROWS.reduce((near, row) =>
      Math.abs(row.chainage_m - steady!.at_m) < Math.abs(near.chainage_m - steady!.at_m) ? row : near,
    );
    expect(Math.abs(steady!.duty / at.duty - 1)).toBeLessThan(0.03);
    expect(Math.abs(steady!.battery_current_A! / at.battery_current_A - 1)).toBeLessThan(0.05);
  });
});

describe("where the train was, and not the clock, says what is held beside what", () => {
  const current = biasesOf(FILES, logOf(ROUGH)).battery_current;

  test("a clock may begin anywhere", () => {
    const log = logOf(ROUGH);
    const later = biasesOf(FILES, { ...log, time_s: Float64Array.from(log.time_s, (each) => each + 86_000) });
    expect(later.battery_current).toBeCloseTo(current, 3);
  });
  test("a wheel that slips is put right by the lap marks", () => {
    const log = logOf(ROUGH);
    const laps = ROUGH.flatMap(({ lap }, i) =>
      i === 0 || lap !== ROUGH[i - 1]!.lap || i === ROUGH.length - 1 ? [i] : [],
    );
    const slipping = { ...log, distance: Float64Array.from(ROUGH, ({ distance_m }) => 1.06 * distance_m + 77), laps };
    const { battery_current, placed } = biasesOf(FILES, slipping);
    expect(placed.laps).toBe(3);
    expect(placed.scale).toBeCloseTo(1 / 1.06, 2);
    expect(Math.abs(battery_current / current - 1)).toBeLessThan(0.05);
  });
  test("so may a lap run more slowly than the others: each place is driven as it was", () => {
    const slow = rowsOf(filesOf({ resistance: ROLLING }, { speed_mps: 0.9 }), 1);
    const fast = rowsOf(HEAVIER, 1);
    const offset = slow.at(-1)!;
    const both = [
      ...slow,
      ...fast.slice(1).map((row) => ({
        ...row,
        time_s: row.time_s + offset.time_s,
        distance_m: row.distance_m + offset.distance_m,
      })),
    ];
    const distance = Float64Array.from(both, ({ distance_m }) => distance_m);
    const share = biasesOf(FILES, { ...logOf(both), distance }).battery_current / current;
    // Slower it draws less, and less more.
    expect(share).toBeGreaterThan(0.6);
    expect(share).toBeLessThan(1.1);
  });
  test("uneven times and gaps leave the rest as it was", () => {
    const log = pick(logOf(ROUGH), (i) => (i < 100 || i > 140) && i % 7 !== 3);
    const distance = Float64Array.from(
      log.time_s,
      (time) => ROUGH.find(({ time_s }) => time_s + 1000 === time)!.distance_m,
    );
    const { battery_current, journey } = biasesOf(FILES, { ...log, distance });
    expect(journey.gaps).toHaveLength(1);
    expect(journey.gaps[0]!.for_s).toBeGreaterThan(40);
    expect(Math.abs(battery_current / current - 1)).toBeLessThan(0.1);
  });
  test("readings that are blank are no readings", () => {
    const log = logOf(ROUGH);
    const holes = {
      ...log,
      battery_current: Float64Array.from(log.battery_current as Float64Array, (each, i) =>
        i % 2 === 0 ? each : Number.NaN,
      ),
    };
    expect(Math.abs(biasesOf(FILES, holes).battery_current / current - 1)).toBeLessThan(0.05);
  });
  test("stops are waited for", () => {
    const calling = filesOf({ resistance: ROLLING }, { stops: [{ place: "half", dwell_s: 40 }] });
    const named = { ...CIRCUIT, place: CIRCUIT.place!.map((_, i) => (i === 3 ? "half" : "")) };
    const rows = rowsOf({ ...calling, track: named }, 2);
    const { predicted, journey, temperature } = biasesOf({ ...FILES, track: named }, logOf(rows));
    expect(predicted.outcome).toBe("completed");
    expect(journey.stands.map(({ for_s }) => Math.round(for_s / 10))).toEqual([4, 4]);
    expect(Math.abs(temperature)).toBeLessThan(1);
  });
});

describe("what differs", () => {
  const rough = logOf(ROUGH, { speed_mps: 0.03, current_A: 0.3, voltage_V: 0.02 });
  const answer = compare(FILES, rough);

  test("is told with what would explain it: the figure that was changed, and to what", () => {
    const rolling = answer.explained_by.find(({ path }) => path === "loco.resistance.rolling");
    expect(rolling?.would_be).toBeGreaterThan(0.0108);
    expect(rolling?.would_be).toBeLessThan(0.0132);
    expect(rolling?.share).toBeGreaterThan(0.6);
  });
  test("beyond the doubt of both is told as that", () => {
    const far = compare(
      FILES,
      logOf(rowsOf(filesOf({ resistance: { ...LOCO.resistance, rolling: 0.03, breakaway: 0.04 } }), 1)),
    );
    expect(of(far, "battery_current").within_doubt).toBe(false);
    expect(of(far, "battery_current").bias).toBeGreaterThan(of(far, "battery_current").doubt);
  });
  test("can be fitted: the interval holds what it was, and tells how well it is told from another", () => {
    const loose = { ...FILES, doubts: { "loco.battery.each.resistance": { spread: "normal", half: 0.003 } } } as const;
    const fit = compare(loose, rough, { fit: ["loco.resistance.rolling", "loco.battery.each.resistance"] });
    const [rolling, resistance] = fit.fitted!;
    expect(rolling!.value).toBeGreaterThan(0.0112);
    expect(rolling!.value).toBeLessThan(0.0128);
    expect(rolling!.low).toBeLessThan(0.012);
    expect(rolling!.high).toBeGreaterThan(0.012);
    expect(resistance!.low).toBeLessThan(LOCO.battery.each.resistance_ohm!);
    expect(resistance!.high).toBeGreaterThan(LOCO.battery.each.resistance_ohm!);
    expect(Math.abs(fit.correlation![0]![1]!)).toBeLessThan(0.9);
    expect(fit.correlation![0]![0]).toBeCloseTo(1, 10);
  });
  test("is not fitted where the log cannot tell two apart, or tells nothing", () => {
    const short = logOf(ROWS, { speed_mps: 0.03, current_A: 0.3, voltage_V: 0.02 });
    expect(refused(() => compare(FILES, short, { fit: ["loco.gears.1.teeth"] }))).toMatch(
      /^options\.fit: loco\.gears\.1\.teeth is no figure that this log could tell; those that move most of what it reads are /,
    );
    expect(
      refused(() => compare(FILES, short, { fit: ["loco.resistance.rolling", "loco.resistance.rolling"] })),
    ).toContain("stands there twice");
    expect(
      refused(() => compare(FILES, short, { fit: ["loco.resistance.rolling", "loco.resistance.rolling_per_speed"] })),
    ).toMatch(/not told apart by this log|tells no more of it/);
    expect(refused(() => compare(FILES, short, { fit: ["loco.length"] }))).toContain(
      "tells no more of it than is known",
    );
  });
});

describe("agreement is judged along the line too", () => {
  const begun = compare(FILES, logOf(ROUGH), { from_m: 60 });

  test("so that a log that is laid wrongly does not agree, though its mean does", () => {
    const drawn = of(begun, "battery_current");
    expect(drawn.mean_within_doubt).toBe(true);
    expect(drawn.within_doubt).toBe(false);
    expect(Math.abs(drawn.worst.difference)).toBeGreaterThan(drawn.worst.doubt);
    expect(begun.agrees).toBe(false);
  });
  test("and says where it would lie better: where it did begin", () => {
    const off_m = Math.abs(((begun.better_from_m! + 120) % 240) - 120);
    expect(off_m).toBeLessThan(12);
    expect(compare(FILES, logOf(ROUGH)).better_from_m).toBeNull();
  });
  test("and is no ground to fit anything on", () => {
    const fit = () => compare(FILES, logOf(ROUGH), { from_m: 60, fit: ["loco.resistance.rolling"] });
    expect(refused(fit)).toMatch(/options\.fit: whatever is fitted, .* still differs by .* Look whether --from/);
  });
  test("nor is a run that by the sums never came so far", () => {
    const overfull = filesOf({}, { passengers: 30 });
    expect(refused(() => compare(overfull, logOf(ROWS), { fit: ["loco.resistance.rolling"] }))).toMatch(
      /^options\.fit: by the sums the train comes \d+ m of the 240 m that the log goes/,
    );
  });
  test("the worst place is the one farthest beyond what is left open there", () => {
    for (const { name, worst } of begun.quantities)
      for (const place of begun.places) {
        const at = place.quantities.find((each) => each.name === name);
        if (!at) continue;
        const wider =
          worst.doubt /
          begun.places.find(({ from_m }) => from_m === worst.from_m)!.quantities.find((each) => each.name === name)!
            .doubt;
        expect(Math.abs(at.logged - at.predicted) / (wider * at.doubt)).toBeLessThanOrEqual(
          Math.abs(worst.difference) / worst.doubt + 1e-9,
        );
      }
  });
  test("a train that by the sums runs away from its driver is told so, and is compared by its speed alone there", () => {
    const steep = filesOf({ resistance: { ...LOCO.resistance, rolling: 0.002, breakaway: 0.003 } });
    const answer = compare(steep, logOf(ROUGH));
    expect(answer.strayed!.predicted_mps).toBeGreaterThan(answer.strayed!.logged_mps + 0.1);
    expect(answer.agrees).toBe(false);
    const there = answer.places.find(({ from_m }) => Math.abs(from_m - answer.strayed!.at_m) < 1e-6);
    expect(there!.quantities.map(({ name }) => name)).not.toContain("battery_current");
    expect(answer.compared_m).toBeLessThan(answer.distance_m - answer.strayed!.for_m + 20);
  });
});

describe("what a log says enters the limits", () => {
  const plan = { ...FILES.plan, laps: 5 };
  const own = limits({ ...FILES, plan });
  const with_ = (agrees: boolean, draws: number | null) =>
    limits({ ...FILES, plan, logged: { agrees, covers: WHOLE, draws, rolls: 1, stiffens: 1 } });

  test("more drawn is fewer laps, by as much; less drawn promises nothing", () => {
    const twice = with_(true, 3);
    expect(twice.laps_to_plan_for).toBeLessThan(own.laps_to_plan_for / 2);
    expect(twice.laps_to_plan_for).toBeGreaterThan(own.laps_to_plan_for / 4);
    expect(with_(true, 0.5).laps_to_plan_for).toBe(own.laps_to_plan_for);
    const left = twice.day.at(-1)!;
    expect(left.lap).toBeLessThanOrEqual(twice.laps_to_plan_for + 1);
  });
  test("the charge after the last lap planned for is that of the reserve, with the volts of that charge", () => {
    const reserve = createPlan(plan, FILES.loco, FILES.track).train.battery.reserve;
    const logged = with_(true, 1.6);
    const last = logged.day.at(-1)!;
    const first = logged.day[0]!;
    expect(last.lap).toBe(logged.laps_to_plan_for);
    // A lap more would go below it.
    expect(last.state_of_charge).toBeGreaterThanOrEqual(reserve - 0.01);
    expect(last.state_of_charge - (1 - first.state_of_charge)).toBeLessThan(reserve + 0.01);
    expect(last.lowest_battery_voltage_V).toBeLessThan(first.lowest_battery_voltage_V);
    const plain = own.day.find(({ lap }) => lap === 1)!;
    expect(first.lowest_battery_voltage_V).toBeLessThan(plain.lowest_battery_voltage_V);
  });
  test("what was drawn more makes the motor hotter, by its square at least, and never cooler", () => {
    const hottest = (of: typeof own) => Math.max(...of.day.map((row) => row.peak_winding_temperature_C));
    const bare = limits({
      ...FILES,
      plan,
      logged: { agrees: true, covers: WHOLE, draws: 1.0001, rolls: 1, stiffens: 1 },
    });
    expect(hottest(bare)).toBeGreaterThanOrEqual(hottest(own) - 0.01);
    const more = with_(true, 1.24);
    // Lap by lap, where both have one.
    const air_degC = plan.air_temperature_degC!;
    const same = more.day.find(({ lap }) => lap === 1)!;
    const first = own.day.find(({ lap }) => lap === 1)!;
    expect(same.peak_winding_temperature_C).toBeGreaterThan(first.peak_winding_temperature_C);
    expect(hottest(more) - air_degC).toBeGreaterThan(hottest(own) - air_degC);
  });
  test("a motor that is too hot with what the log drew is found so", () => {
    const hot = filesOf({ motor: { ...LOCO.motor, heat: { ...LOCO.motor.heat, mass_kg: 2.5 } } });
    const working = (draws: number) =>
      limits({ ...hot, logged: { agrees: true, covers: WHOLE, draws, rolls: 1, stiffens: 1 } }).aboard.find(
        ({ limit }) => limit === "working",
      )!;
    expect(working(1).lifted_by === "cooling_or_gearing" && working(1).most === null).toBe(false);
    expect(working(3)).toMatchObject({ lifted_by: "cooling_or_gearing" });
  });
  test("a charge that lasts by the sums alone does not last by the log", () => {
    const asked = { ...plan, laps: own.laps_to_plan_for };
    expect(limits({ ...FILES, plan: asked }).charge_lasts).toBe(true);
    expect(
      limits({ ...FILES, plan: asked, logged: { agrees: true, covers: WHOLE, draws: 1.5, rolls: 1, stiffens: 1 } })
        .charge_lasts,
    ).toBe(false);
  });
  test("a log that does not agree lets nobody ride by these sums", () => {
    const off = with_(false, 1);
    expect(off.may_carry).toBe(false);
    expect(off.aboard.find(({ limit }) => limit === "log")).toMatchObject({ most: null, lifted_by: "sums_that_agree" });
    expect(with_(true, 1).most_aboard).toBe(own.most_aboard);
  });
  test("by the battery's current, or else the motor's", () => {
    const { quantities } = compare(FILES, logOf(ROUGH));
    const says = logSays({ agrees: true, covers: WHOLE, quantities, rolls: 1, stiffens: 1 });
    const drawn = quantities.find(({ name }) => name === "battery_current")!;
    expect(says.draws).toBeCloseTo(drawn.logged / drawn.predicted, 12);
    expect(logSays({ agrees: null, covers: WHOLE, quantities: [], rolls: null, stiffens: null })).toEqual({
      agrees: null,
      covers: WHOLE,
      draws: null,
      rolls: null,
      rolls_about: null,
      stiffens: null,
    });
  });
});

describe("how much of the line a log tells of", () => {
  const MEAN_A = ROWS.reduce((sum, row) => sum + row.battery_current_A, 0) / ROWS.length;
  const covers = (keep: (row: (typeof ROWS)[number]) => boolean) => {
    const { agrees, covers } = compare(FILES, logOf(ROWS.filter(keep)));
    return { agrees, ...covers };
  };

  test("is all of it for a lap", () => {
    const { agrees, share, steepest, enough } = covers(() => true);
    expect({ agrees, steepest, enough }).toEqual({ agrees: true, steepest: true, enough: true });
    expect(share).toBeGreaterThan(0.75);
  });
  test("of half a lap it is half: it tells too little to agree, though nothing differs", () => {
    const half = covers(({ distance_m }) => distance_m < 105);
    expect(half.agrees).toBeNull();
    expect(half.enough).toBe(false);
    expect(half.share).toBeLessThan(105 / 240 + 0.05);
    // The fall at 1 in 50 lies behind.
    expect(half.steepest).toBe(false);
  });
  test("is none of it by volts alone that sag no more than is left open: a battery that gave nothing would pass as well", () => {
    const { time_s, speed, battery_voltage } = logOf(ROWS);
    const rested_V = Math.max(...ROWS.map((row) => row.battery_voltage_V));
    for (const volts of [battery_voltage!, Float64Array.from(ROWS, () => rested_V)]) {
      const { agrees, covers, compared_m, quantities } = compare(FILES, {
        time_s,
        speed: speed!,
        battery_voltage: volts,
      });
      expect(quantities.every(({ within_doubt }) => within_doubt)).toBe(true);
      expect({ agrees, steepest: covers.steepest }).toEqual({ agrees: null, steepest: false });
      expect(covers.share).toBe(0);
      expect(compared_m).toBeGreaterThan(100);
    }
  });
  test("is all of it by volts that sag by far more than a voltmeter is off", () => {
    const weak = filesOf({ battery: { ...LOCO.battery, each: { ...LOCO.battery.each, resistance_ohm: 0.1 } } });
    const { time_s, speed, battery_voltage } = logOf(rowsOf(weak, 1));
    const { agrees, covers } = compare(weak, { time_s, speed: speed!, battery_voltage: battery_voltage! });
    expect({ agrees, ...covers }).toMatchObject({ agrees: true, steepest: true });
  });
  test("leaves out the steepest bits where the amps are blank there, though volts were logged", () => {
    const { time_s, speed, battery_voltage, battery_current } = logOf(ROWS);
    const bank = (i: number) => ROWS[i]!.battery_current_A > MEAN_A;
    const blank = Float64Array.from(ROWS, (row, i) => (bank(i) ? Number.NaN : row.battery_current_A));
    const log = { time_s, speed: speed!, battery_voltage: battery_voltage! };
    expect(compare(FILES, { ...log, battery_current: battery_current! }).agrees).toBe(true);
    const { agrees, covers } = compare(FILES, { ...log, battery_current: blank });
    expect({ agrees, steepest: covers.steepest }).toEqual({ agrees: null, steepest: false });
  });
  test("and what differs differs however little of the line it is", () => {
    const log = logOf(
      ROWS.filter(({ distance_m }) => distance_m < 105),
      { gain: 1.5 },
    );
    expect(compare(FILES, log).agrees).toBe(false);
  });
});

describe("a log that drew less", () => {
  // All seats taken, so that all are told with as many aboard.
  const braked = filesOf({ brakes: [{ rail_force_N: 400 }] }, { passengers: 6 });
  const own = limits(braked);
  const by = (rolls: number | null, draws = 0.75) =>
    limits({ ...braked, logged: { agrees: true, covers: WHOLE, draws, rolls, stiffens: 1 } });
  const stop = (of: ReturnType<typeof limits>, who: string) =>
    of.stops.find((row) => row.who === who && row.rail === of.counted.rail_stopping)!;

  test("leaves rolling no stiffer than it truly was, by half of what the files have", () => {
    const free = filesOf({ resistance: { ...LOCO.resistance, rolling: 0.006 } });
    const { rolls } = compare(FILES, logOf(rowsOf(free, 1), { current_A: 0.2, seed: 4 }));
    expect(rolls).toBeLessThan(0.6);
    expect(rolls).toBeGreaterThan(0.1);
  });
  test("and one that drew as much or more leaves it where it was", () => {
    expect(compare(FILES, logOf(ROWS)).rolls).toBeGreaterThan(0.9);
    expect(compare(FILES, logOf(ROWS, { gain: 0.25 })).rolls).toBe(1);
  });
  test("stops and runs on by that: longer, farther", () => {
    const freer = by(0.4);
    expect(freer.counted.rolling_by_log).toBe(true);
    expect(freer.counted.rolling_stopping).toBeCloseTo(0.4 * own.counted.rolling_stopping, 10);
    expect(stop(freer, "driver").distance_m!).toBeGreaterThan(stop(own, "driver").distance_m!);
    const far = (row: ReturnType<typeof stop>) => row.distance_m ?? Number.POSITIVE_INFINITY;
    expect(far(stop(freer, "nobody"))).toBeGreaterThan(far(stop(own, "nobody")));
    // Laps are pulled, and less drawn promises none.
    expect(freer.laps_to_plan_for).toBe(own.laps_to_plan_for);
  });
  test("says where it cannot tell how freely it rolls", () => {
    const { time_s, speed } = logOf(ROWS);
    expect(compare(FILES, { time_s, speed: speed! }).rolls).toBeNull();
    expect(by(null).counted.rolling_told).toBe(false);
    expect(by(1).counted.rolling_told).toBe(true);
    expect(own.counted.rolling_told).toBe(true);
  });
});

describe("a log that drew more", () => {
  const heavy = filesOf({ brakes: [{ rail_force_N: 400 }] }, { passengers: 6 });
  const own = limits(heavy);
  const by = (stiffens: number | null, draws = 1.3) =>
    limits({ ...heavy, logged: { agrees: true, covers: WHOLE, draws, rolls: 1, stiffens } });
  const restarts = ({ aboard }: ReturnType<typeof limits>) =>
    aboard.filter(({ limit }) => limit === "restart").map(({ most }) => most ?? -1);

  test("leaves rolling no freer than it truly was, by half as much again as the files have", () => {
    const stiff = filesOf({ resistance: { ...LOCO.resistance, rolling: 1.5 * LOCO.resistance!.rolling! } });
    const { stiffens, rolls } = compare(FILES, logOf(rowsOf(stiff, 1), { current_A: 0.2, seed: 4 }));
    expect(stiffens).toBeGreaterThan(1.3);
    expect(stiffens).toBeLessThan(3);
    expect(rolls).toBe(1);
  });
  test("is not explained away by an ammeter that reads too much: a heavier train would draw so too", () => {
    const answer = compare(FILES, logOf(ROWS, { gain: 0.25 }));
    expect(answer.stiffens).toBeGreaterThan(1.25);
  });
  test("and one that drew as much or less leaves it where it was", () => {
    expect(compare(FILES, logOf(ROWS)).stiffens).toBeLessThan(1.1);
    expect(compare(FILES, logOf(ROWS, { gain: -0.2 })).stiffens).toBe(1);
  });
  test("starts again by that: with fewer, and stops as before", () => {
    const stiffer = by(4);
    expect(stiffer.counted.pulling_by_log).toBe(true);
    expect(stiffer.counted.rolling_stopping).toBe(own.counted.rolling_stopping);
    expect(stiffer.counted.rolling_pulling).toBeGreaterThan(2 * own.counted.rolling_pulling);
    for (const [i, most] of restarts(stiffer).entries()) expect(most).toBeLessThan(restarts(own)[i]!);
    expect(stiffer.stops).toEqual(limits({ ...heavy, passengers: stiffer.loaded } as typeof heavy).stops);
  });
  test("changes nothing where it leaves rolling no stiffer than the files do", () => {
    const same = by(1);
    expect(same.counted.pulling_by_log).toBe(false);
    expect(same.counted.rolling_pulling).toBe(own.counted.rolling_pulling);
    expect(restarts(same)).toEqual(restarts(own));
  });
  test("says where it cannot tell how stiffly it rolls", () => {
    expect(by(null).counted.pulling_told).toBe(false);
    expect(by(1).counted.pulling_told).toBe(true);
    expect(own.counted.pulling_told).toBe(true);
  });
});

describe("trouble", () => {
  test("a loco that by the sums does not get so far is told, with what it was before", () => {
    const answer = compare(filesOf({}, { passengers: 30 }), logOf(ROWS));
    expect(answer.outcome).not.toBe("completed");
    expect(answer.came_m).toBeLessThan(0.9 * answer.distance_m);
  });
  test("a log beyond a line with two ends, or with laps on it, is refused", () => {
    const line = profile([
      [0, 0],
      [150, 1],
    ]);
    const files = {
      ...FILES,
      plan: { ...FILES.plan, track: { kind: "end-to-end" as const, rail: "dry" as const } },
      track: line,
    };
    expect(refused(() => compare(files, logOf(ROWS)))).toMatch(
      /log\.1: it runs \d+ m from 0 m on, and the line has 150 m/,
    );
    expect(refused(() => compare(files, { ...logOf(ROWS), laps: [3, 50] }))).toContain("cut the log at each end");
  });
  test("one way of such a line is compared", () => {
    const line = profile([
      [0, 0],
      [90, 1],
      [160, 1],
      [300, 0],
    ]);
    const files: PlanFiles = {
      ...FILES,
      plan: { ...FILES.plan, track: { kind: "end-to-end", rail: "dry" } },
      track: line,
    };
    const rows = rowsOf({ ...files, loco: HEAVIER.loco }, 1).filter(({ distance_m }) => distance_m < 270);
    const begins_m = rows[0]!.chainage_m;
    const answer = compare(files, logOf(rows), { from_m: begins_m });
    expect(answer.outcome).toBe("completed");
    expect(of(answer, "battery_current").bias).toBeGreaterThan(0.3);
  });
  test("what is no log is refused with the reading and what was wanted", () => {
    const log = logOf(ROWS);
    const times = Float64Array.from(log.time_s);
    times[9] = times[7]!;
    expect(refused(() => compare(FILES, { ...log, time_s: times }))).toContain("log.10: the time, ");
    const speeds = Float64Array.from(log.speed as Float64Array, (each) => 30 * each);
    expect(refused(() => compare(FILES, { ...log, speed: speeds }))).toContain(
      "is none that a train on such a line runs at",
    );
    expect(refused(() => compare(FILES, { time_s: [1, 2, 3, 4], battery_current: [1, 1, 1, 1] }))).toContain(
      "nothing tells where the train was",
    );
    const { speed: __, ...placeless } = log;
    expect(refused(() => compare(FILES, { ...placeless, distance: new Float64Array(log.time_s.length) }))).toContain(
      "20 m or more are wanted",
    );
    expect(
      refused(() =>
        compare(FILES, { ...log, distance: Float64Array.from(ROWS, ({ distance_m }) => distance_m / 1.609344) }),
      ),
    ).toMatch(/1\.6\d times its distance; that looks like/);
  });
  test("laps alone place it, roughly", () => {
    const log = logOf(ROWS);
    const { speed: __, ...bare } = log;
    const laps = [0, ROWS.length - 1];
    const answer = compare(FILES, { ...bare, laps });
    expect(answer.placed_by).toBe("laps");
    expect(of(answer, "battery_current").within_doubt).toBe(true);
  });
  test("marks that were forgotten make no other unit of the distance", () => {
    const log = logOf(ROUGH);
    const distance = Float64Array.from(ROUGH, ({ distance_m }) => 1.02 * distance_m);
    const starts = ROUGH.flatMap(({ lap }, i) => (i === 0 || lap !== ROUGH[i - 1]!.lap ? [i] : []));
    const last = ROUGH.length - 1;
    for (const laps of [
      [starts[0]!, starts[1]!, last],
      [starts[0]!, last],
    ]) {
      const placed = placeLog({ ...log, distance, laps }, { kind: "circuit", length_m: 240 }, 0);
      expect(placed.laps).toBe(3);
      expect(placed.scale).toBeCloseTo(1 / 1.02, 2);
    }
  });
  test("out and back in one log is refused, where it turns", () => {
    const log = logOf(ROWS);
    const turn = ROWS.length >> 1;
    const distance = Float64Array.from(ROWS, ({ distance_m }, i) =>
      i < turn ? distance_m : 2 * ROWS[turn]!.distance_m - distance_m,
    );
    const told = refused(() => compare(FILES, { ...log, distance }));
    expect(told).toMatch(/^log\.\d+: here it has run back by more than 10 m: cut the log where the train turns/);
    expect(Number(/\d+/.exec(told)![0])).toBeGreaterThan(turn);
    const speed = Float64Array.from(log.speed!, (each, i) => (i < turn ? each : -each));
    expect(refused(() => compare(FILES, { ...log, speed }))).toContain("cut the log where the train turns");
  });
});
