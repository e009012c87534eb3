import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { newNotes } from "../../packages/sim-core/src/errors.js";
import { createMotor } from "../../packages/sim-core/src/parts/motor.js";
import { motorPoint, noLoadSpeed_radps } from "../../packages/sim-core/src/parts/motor.points.js";
import type { CurveRow } from "../../packages/sim-core/src/parts/motor.tables.js";

type Definition = Parameters<typeof createMotor>[0];

const RPM_radps = Math.PI / 30;

function make(rows: readonly CurveRow[], rest: Definition = {}, voltage_V = 24) {
  const notes = newNotes();
  const definition = { inertia_kgm2: 1, curve: { file: "", voltage_V }, ...rest };
  return { motor: createMotor(definition, voltage_V, notes, { curve: rows }), notes };
}
const told = (rows: readonly CurveRow[], rest?: Definition) =>
  make(rows, rest).notes.problems.map(({ path, message }) => [path.replace("loco.motor.curve.", ""), message]);

/** The rows that a motor of known constants gives at some currents. */
function rowsOf(constants: NonNullable<Definition["constants"]>, currents: readonly number[]): CurveRow[] {
  const known = createMotor({ constants, inertia_kgm2: 1 }, 24, newNotes());
  return currents.map((current_A) => {
    const { torque_Nm, speed_radps } = motorPoint(known, 24, current_A);
    return [torque_Nm, speed_radps, current_A] as const;
  });
}
const CONSTANTS = { resistance_ohm: 0.12, torque_constant_NmpA: 0.08, drag_Nm: 0.2, drag_per_speed_Nms: 2e-4 };

describe("a permanent magnet's curve", () => {
  it("of a motor gives that motor, whatever its constants, and misses nothing", () => {
    const range = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(range(0.02, 0.5), range(0.03, 0.3), range(0, 0.5), range(0, 3e-4), (ohms, flux, drag, perSpeed) => {
        const constants = {
          resistance_ohm: ohms,
          torque_constant_NmpA: flux,
          drag_Nm: drag,
          drag_per_speed_Nms: perSpeed,
        };
        const free_A = (drag + (perSpeed * 24) / flux) / flux;
        const stall_A = 24 / ohms;
        const currents = [0.1, 0.3, 0.5, 0.8].map((share) => free_A + share * (stall_A - free_A));
        fc.pre(currents.every((current_A) => current_A < stall_A) && free_A < stall_A / 2);
        const { motor, notes } = make(rowsOf(constants, currents));
        expect(notes.problems).toEqual([]);
        expect(notes.warnings).toEqual([]);
        expect(motor.resistance20_ohm / ohms).toBeCloseTo(1, 9);
        expect(motor.flux_NmpA[0]! / flux).toBeCloseTo(1, 9);
        // What the two drags come to at the rows: one alone is told the less apart from the other, the nearer it is to 0.
        expect(motor.drag_Nm + motor.dragPerSpeed_Nms * 200).toBeCloseTo(drag + perSpeed * 200, 9);
      }),
      { seed: 1, numRuns: 100 },
    );
  });

  it("in whatever order its rows are", () => {
    const rows = rowsOf(CONSTANTS, [5, 10, 20, 40]);
    const [a, b] = [make(rows).motor, make([...rows].reverse()).motor];
    expect(b.resistance20_ohm).toBeCloseTo(a.resistance20_ohm, 12);
    expect(b.drag_Nm).toBeCloseTo(a.drag_Nm, 9);
  });

  it("is met nearest: no neighbouring set of figures comes nearer to rows that are off", () => {
    const rows = rowsOf(CONSTANTS, [5, 10, 20, 30, 40]).map(
      ([torque_Nm, speed_radps, current_A], i): CurveRow => [
        torque_Nm * (i % 2 ? 1.001 : 0.999),
        speed_radps,
        current_A,
      ],
    );
    const { motor } = make(rows);
    const greatest_Nm = Math.max(...rows.map(([torque_Nm]) => torque_Nm));
    const square = ([k = 0, ohms = 0, drag = 0, perSpeed = 0]: readonly number[]) =>
      rows.reduce(
        (sum, [torque_Nm, speed_radps, current_A]) =>
          sum +
          ((k * speed_radps + ohms * current_A) / 24 - 1) ** 2 +
          ((k * current_A - drag - perSpeed * speed_radps - torque_Nm) / greatest_Nm) ** 2,
        0,
      );
    const found = [motor.flux_NmpA[0]!, motor.resistance20_ohm, motor.drag_Nm, motor.dragPerSpeed_Nms];
    expect(Math.min(...found)).toBeGreaterThan(0);
    const least = square(found);
    for (const i of found.keys()) {
      for (const by of [0.999, 1.001])
        expect(square(found.map((f, j) => (j === i ? f * by : f)))).toBeGreaterThan(least);
    }
  });

  it("never has a drag below 0, and turns free at a speed", () => {
    // More torque at the top than k I: the unbounded fit has a drag below 0 at speed.
    const rows = rowsOf({ resistance_ohm: 0.12, torque_constant_NmpA: 0.08 }, [5, 10, 20, 40]).map(
      ([torque_Nm, speed_radps, current_A]): CurveRow => [
        torque_Nm + 1e-4 * (speed_radps - 200),
        speed_radps,
        current_A,
      ],
    );
    const { motor, notes } = make(rows);
    expect(notes.problems).toEqual([]);
    expect(motor.drag_Nm).toBeGreaterThanOrEqual(0);
    expect(motor.dragPerSpeed_Nms).toBe(0);
    expect(noLoadSpeed_radps(motor, 24)).toBeGreaterThan(250);
  });

  it("tells how far it misses, root mean square and worst, with the row; a poor fit is warned of", () => {
    const good = make(rowsOf(CONSTANTS, [5, 10, 20, 40])).notes;
    expect(good.assumed.find(({ key }) => key === "loco.motor.curve")?.value).toMatch(
      /^0.12 ohm, 0.08 N m\/A, drag 0.2 N m and 0.0002 N m s; rows missed by 0 % \(root mean square\), at worst 0 %/,
    );
    const rows = rowsOf(CONSTANTS, [5, 10, 20, 40]);
    const [torque_Nm, , current_A] = rows[1]!;
    rows[1] = [torque_Nm, rows[0]![1] - 40, current_A];
    rows[2] = [rows[2]![0], rows[1]![1] - 1, 20];
    const { warnings } = make(rows).notes;
    expect(warnings.map(({ code, path }) => [code, path])).toEqual([["curve_fit_poor", "loco.motor.curve.file"]]);
    expect(warnings[0]?.message).toMatch(/at worst \d+\.\d+ % \(row 2, 10 A: \d+ rpm where the fit gives \d+ rpm\)/);
  });

  it("takes its own volts for the rating where current or speed is given alone", () => {
    const { rated } = make(rowsOf(CONSTANTS, [5, 10, 20, 40]), { rated: { current_A: 25 } }).motor;
    expect(rated.voltage_V).toBe(24);
    expect(rated.speed_radps).toBeCloseTo((24 - 0.12 * 25) / 0.08, 8);
  });
});

describe("a series motor's curve", () => {
  const saturation = [
    [10, 60],
    [30, 90],
    [60, 100],
  ] as const;
  const known = createMotor(
    { kind: "series", inertia_kgm2: 1, saturation: { resistance_ohm: 0.1, speed_radps: 100, file: "" } },
    24,
    newNotes(),
    { saturation },
  );
  const rows = saturation.map(([current_A]): CurveRow => {
    const { torque_Nm, speed_radps } = motorPoint(known, 36, current_A);
    return [torque_Nm, speed_radps, current_A];
  });

  it("gives the motor back that made it", () => {
    const { motor, notes } = make(rows, { kind: "series" }, 36);
    expect(notes.problems).toEqual([]);
    expect(motor.resistance20_ohm).toBeCloseTo(0.1, 12);
    for (const current_A of [0, 5, 10, 25, 60, 90]) {
      const [got, wanted] = [motor, known].map((m) => motorPoint(m, 36, current_A || 1e-9).torque_Nm);
      expect(got).toBeCloseTo(wanted!, 12);
    }
  });

  it("is smoothed where torque per ampere falls, and the miss is told", () => {
    const bent = rows.map(([torque_Nm, speed_radps, current_A]): CurveRow => {
      return [current_A === 60 ? torque_Nm * 0.85 : torque_Nm, speed_radps, current_A];
    });
    const { motor, notes } = make(bent, { kind: "series" }, 36);
    expect(notes.problems).toEqual([]);
    for (const [i, flux] of motor.flux_NmpA.slice(1).entries())
      expect(flux).toBeGreaterThanOrEqual(motor.flux_NmpA[i]!);
    // 0.9 and 0.85 of 1.0 pool at their mean, 0.875: 2.9 % of the greatest torque, and as much less of the back-e.m.f.
    expect(notes.assumed.find(({ key }) => key === "loco.motor.curve")?.value).toMatch(/row [23], [36]0 A/);
  });
});

describe("what no motor can do is refused at its row", () => {
  const row = (torque_Nm: number, rpm: number, current_A: number): CurveRow => [torque_Nm, rpm * RPM_radps, current_A];
  const good = [row(0.5, 2800, 9), row(1, 2700, 16), row(2, 2450, 29)];
  it("or not, where all is well", () => {
    expect(told(good)).toEqual([]);
  });
  it.each<[string, CurveRow[], [string, string][], Definition?]>([
    ["two rows", good.slice(1), [["file", "2 rows are too few; a curve has 3 or more"]]],
    ["no row", [], [["file", "0 rows are too few; a curve has 3 or more"]]],
    [
      "speed that rises with torque",
      [good[0]!, row(1, 2900, 16), good[2]!],
      [["2.speed_rpm", "2900 rpm at 1 N m is faster than 2800 rpm at 0.5 N m"]],
    ],
    [
      "current that falls with torque",
      [good[2]!, good[0]!, row(1, 2700, 8)],
      [
        ["3.current_A", "282.7 W at the shaft out of 192 W: the efficiency is over 1"],
        ["3.current_A", "8 A at 1 N m is no more than 9 A at 0.5 N m"],
      ],
    ],
    [
      "efficiency over 1",
      [...good.slice(0, 2), row(3, 2450, 30)],
      [["3.current_A", "769.7 W at the shaft out of 720 W: the efficiency is over 1"]],
    ],
    [
      "the same torque twice",
      [...good, row(1, 2690, 16.5)],
      [["4.torque_Nm", "1 N m stands twice; give one row for a torque"]],
    ],
    [
      "figures below 0",
      [...good, row(-1, -5, 0)],
      [
        ["4.torque_Nm", "-1 N m: a driving motor's torque is not below 0"],
        ["4.speed_rpm", "-5 rpm: a driving motor's speed is not below 0"],
        ["4.current_A", "0 A: a driving motor's current is above 0"],
        ["1.speed_rpm", "2800 rpm at 0.5 N m is faster than -5 rpm at -1 N m"],
      ],
    ],
    [
      "a series motor without load",
      [row(0, 4000, 2), ...good],
      [["1.torque_Nm", "a series motor without load runs away: leave this row out"]],
      { kind: "series" },
    ],
    [
      "a speed that does not fall",
      [row(0.5, 2500, 9), row(1, 2500, 16), row(2, 2500, 29)],
      [["file", "its rows leave no volts for a resistance: does it slow down as the current rises?"]],
    ],
  ])("%s", (_, rows, problems, rest) => {
    expect(told(rows, rest)).toEqual(problems);
  });
});

describe("what magnetisation points cannot do is refused at its row", () => {
  const points = (saturation: readonly (readonly [number, number])[]) => {
    const notes = newNotes();
    const definition = { resistance_ohm: 0.1, speed_radps: 100, file: "" };
    createMotor({ kind: "series", inertia_kgm2: 1, saturation: definition }, 24, notes, { saturation });
    return notes.problems.map(({ path }) => path.replace("loco.motor.saturation.", ""));
  };
  it.each<[string, [number, number][], string[]]>([
    ["one point", [[20, 12]], []],
    [
      "residual flux",
      [
        [0, 1],
        [20, 12],
      ],
      [],
    ],
    ["nothing", [[0, 0]], ["file"]],
    [
      "current that does not rise",
      [
        [10, 5],
        [10, 6],
      ],
      ["2.current_A"],
    ],
    [
      "an e.m.f. that falls",
      [
        [10, 5],
        [20, 4],
      ],
      ["2.emf_V"],
    ],
    [
      "figures below 0",
      [
        [-1, -1],
        [20, 4],
      ],
      ["1.current_A", "1.emf_V"],
    ],
  ])("%s", (_, rows, problems) => {
    expect(points(rows)).toEqual(problems);
  });
});
