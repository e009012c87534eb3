import { ReadError, readPlan } from "@rideon/sim-cli/read";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { folderWith, LOCO, PLAN, read, readWell, TRACK } from "../support/folder.js";

describe("files in order", () => {
  test("become definitions in SI", () => {
    const { plan, loco, track, units } = readWell();
    expect(loco).toEqual({
      name: "Hazel",
      gauge_m: 7.25 * 0.0254,
      mass_kg: 140,
      wheels: { diameter_m: 0.165, driven_axles: 1 },
      motor: {
        nameplate: { voltage_V: 24, current_A: 26.7, speed_radps: 2600 * ((2 * Math.PI) / 60), power_W: 500 },
      },
      gears: [{ teeth: [11, 55] }, { teeth: [9, 30] }],
      controller: { motor_current_limit_A: 50 },
      battery: { chemistry: "lead-acid", in_series: 2, each: { voltage_V: 12, capacity: [{ capacity_C: 75 * 3600 }] } },
    });
    expect(plan).toEqual({
      loco: "loco.yaml",
      track: { profile: "track.csv" },
      cars: [{ mass_kg: 60, length_m: 1.8, seats: 3, count: 2 }],
      passengers: 4,
      speed_mps: 4 * 0.44704,
    });
    expect(track.height_m).toEqual([0, 1.5, 0]);
    expect(units).toBe("imperial");
  });

  test("JSON, with tabs, is read too", () => {
    const json = JSON.stringify({ loco: "loco.yaml", track: { profile: "track.csv" }, speed: "6 km/h" }, null, "\t");
    expect(readWell({ "plan.yaml": json }).plan.speed_mps).toBeCloseTo(6 / 3.6, 12);
  });

  test("a byte order mark and Windows line ends change nothing", () => {
    const windows = (text: string) => `\ufeff${text.replaceAll("\n", "\r\n")}`;
    const files = { "plan.yaml": windows(PLAN), "loco.yaml": windows(LOCO), "track.csv": windows(TRACK) };
    const { plan, loco, track } = readWell(files);
    expect({ plan, loco, track }).toEqual((({ plan, loco, track }) => ({ plan, loco, track }))(readWell()));
  });

  test("capacities by hour rate, a rested-voltage table, yes and no", () => {
    const { loco, plan } = readWell({
      "loco.yaml": LOCO.replace(
        "capacity: 75 Ah",
        "capacity: { 20 h: 75 Ah, 5 h: 64 Ah }, rested_voltage: [[0, 11.9 V], [50 %, 12.2 V], [1, 12.7 V]]",
      ),
      "plan.yaml": PLAN.replace("track.csv }", "track.csv, spread_misclosure: yes }"),
    });
    expect(loco.battery.each.capacity).toEqual([
      { time_s: 72000, capacity_C: 270000 },
      { time_s: 18000, capacity_C: 230400 },
    ]);
    expect(loco.battery.each.rested_voltage).toEqual([
      [0, 11.9],
      [0.5, 12.2],
      [1, 12.7],
    ]);
    expect(plan.track.spread_misclosure).toBe(true);
  });

  test("a block whose every line is commented out says nothing", () => {
    expect(readWell({ "loco.yaml": `${LOCO}resistance:\n  # rolling: 0.01\nwiring:\n` }).loco).not.toHaveProperty(
      "wiring",
    );
  });

  test.each([
    ["speed: 4 mph", "imperial"],
    ["speed: 6 ft/s", "imperial"],
    ["speed: 6 km/h", "metric"],
    ["lever: 0.5", "imperial"],
  ])("%s is %s", (how, units) => {
    expect(readWell({ "plan.yaml": PLAN.replace("speed: 4 mph", how) }).units).toBe(units);
  });

  test("with a lever the gauge decides", () => {
    const files = {
      "plan.yaml": PLAN.replace("speed: 4 mph", "lever: 0.5"),
      "loco.yaml": LOCO.replace("7 1/4 in", "184 mm"),
    };
    expect(readWell(files).units).toBe("metric");
  });

  test("keys that need not be there this time", () => {
    const bare = LOCO.replace(/^(?:motor|controller|battery):.*\n/gm, "");
    expect(read({ "loco.yaml": bare })).toHaveLength(3);
    expect(
      readWell({ "loco.yaml": bare }, { without: ["loco.motor", "loco.controller", "loco.battery"] }).loco.mass_kg,
    ).toBe(140);
  });
});

describe("places", () => {
  const { place } = readWell();
  test.each([
    ["loco.motor.nameplate.power", "loco.yaml", 5, 79],
    ["loco.gears.2.teeth", "loco.yaml", 8, 12],
    ["plan.cars.1.mass", "plan.yaml", 4, 13],
    ["plan.speed", "plan.yaml", 6, 8],
    // A key that is left out stands where its block stands.
    ["plan.cars.1.rolling", "plan.yaml", 4, 5],
    ["loco.resistance.rolling", "loco.yaml", 1, 1],
    // Posts count from 1; a CSV has no column number.
    ["track.2.height", "track.csv", 4, undefined],
    ["track", "track.csv", 1, undefined],
  ])("%s", (path, file, line, column) => {
    const found = place(path);
    expect(found?.file.endsWith(file)).toBe(true);
    expect([found?.line, found?.column]).toEqual([line, column]);
  });
  test("nowhere", () => expect(place("moon.cheese")).toBeUndefined());
});

describe("every problem of every file at once", () => {
  test("sorted, each with its place", () => {
    const files = {
      "plan.yaml": PLAN.replace("4 mph", "4 mhp").replace("seats: 3", "seets: 3"),
      "loco.yaml": `${LOCO.replace("140 kg", "140").replace("26.7 A", "26.7 V")}brakes:\n  - rail_force: 300 N\n`,
      "track.csv": TRACK.replace("100,1.5", "100,x"),
    };
    expect(read(files)).toEqual([
      'loco.yaml:3:7: error: mass: "140" has no unit; write it like 140 kg',
      'loco.yaml:5:47: error: motor.nameplate.current: "26.7 V" is a voltage where a current is wanted; write it like 26.7 A',
      "plan.yaml:4:35: error: cars.1.seets is not a key; did you mean seats?",
      'plan.yaml:6:8: error: speed: "mhp" in "4 mhp" is not a known unit; write it like 4 mph',
      'track.csv:4: error: height_m: "x" is not a number; the unit stands in the header alone',
    ]);
  });

  test("bounds are told in the unit that was typed", () => {
    expect(read({ "plan.yaml": PLAN.replace("4 mph", "60 mph") })).toEqual([
      'plan.yaml:6:8: error: speed: "60 mph" is out of range; it must be at most 44.74 mph',
    ]);
  });

  test("alternatives: both, and none", () => {
    expect(read({ "plan.yaml": `${PLAN}lever: 0.5\n` })).toEqual([
      "plan.yaml:7:1: error: lever cannot stand beside speed; keep one of them",
    ]);
    expect(read({ "plan.yaml": PLAN.replace("speed: 4 mph\n", "") })).toEqual([
      "plan.yaml:1:1: error: one of speed or lever is missing",
    ]);
    expect(read({ "loco.yaml": LOCO.replace(/motor: .*/, "motor: { magnet: none }") })).toEqual([
      "loco.yaml:5:8: error: motor: one of nameplate, constants, bench, curve or saturation is missing",
    ]);
  });
});

describe("files that cannot be read", () => {
  const missing = (key: string, file: string) => `error: ${key}: ${file}: there is no such file`;
  test("missing ones are told where they are named, both at once", () => {
    expect(read({ "loco.yaml": null, "track.csv": null })).toEqual([
      `plan.yaml:1:7: ${missing("loco", "loco.yaml")}`,
      `plan.yaml:2:19: ${missing("track.profile", "track.csv")}`,
    ]);
  });
  test("no plan", () => {
    expect(read({ "plan.yaml": null })).toEqual(["plan.yaml: error: there is no plan here; rideon new starts one"]);
  });
  test("a folder", () => {
    expect(() => readPlan(folderWith())).toThrow(/it is a folder, not a file/);
  });
  test.each<[string, string | Uint8Array, RegExp]>([
    ["Latin-1", Buffer.from("distance_m,height_m\n0,0\n1,\xbd\n", "latin1"), /track\.csv:3: error: .*not UTF-8/],
    ["UTF-16", Buffer.from("\ufeffdistance_m", "utf16le"), /UTF-16; save it as UTF-8/],
    ["no text", Buffer.from([1, 0, 2]), /not a text file/],
    ["huge", "#".repeat(17 * 1024 * 1024), /larger than 16384 KB/],
  ])("%s", (_, bytes, message) => {
    expect(String(read({ "track.csv": bytes }))).toMatch(message);
  });
});

describe("whatever the files hold", () => {
  const words = "name mass gears loco track profile cars &a *a << { } [ ] , ' \" # !!x | > % @ 140 null ~ __proto__";
  const scraps = fc.constantFrom(...words.split(" "), "\n", "  ", "\t", "- ", "? ", ": ", "---\n", "4 mph");
  const garbage = fc.oneof(
    fc.string({ unit: "binary", maxLength: 60 }),
    fc.array(scraps, { maxLength: 25 }).map((parts) => parts.join("")),
  );

  test("there is a reading or a list of problems with places, never a crash", () => {
    fc.assert(
      fc.property(garbage, fc.constantFrom("plan.yaml", "loco.yaml", "track.csv"), fc.nat(), (text, name, cut) => {
        const whole = { "plan.yaml": PLAN, "loco.yaml": LOCO, "track.csv": TRACK }[name]!;
        const at = cut % whole.length;
        const folder = folderWith({ [name]: whole.slice(0, at) + text + whole.slice(at) });
        try {
          readPlan(`${folder}/plan.yaml`);
        } catch (error) {
          if (!(error instanceof ReadError)) throw error;
          expect(error.diagnostics.length).toBeGreaterThan(0);
          for (const { message } of error.diagnostics) expect(message).not.toMatch(/undefined|NaN|\[object/);
        }
      }),
      { numRuns: 400 },
    );
  });

  test("nothing can be made to grow without end, or to go too deep", () => {
    const bomb = Array.from({ length: 9 }, (_, i) => `a${i}: &a${i} [${Array(20).fill(i ? `*a${i - 1}` : "x")}]`).join(
      "\n",
    );
    expect(String(read({ "loco.yaml": bomb }))).toMatch(/aliases .* more than the 100/);
    expect(String(read({ "loco.yaml": "[".repeat(50_000) }))).toMatch(/too deeply|not closed/);
    const wide = `x: &x {${Array.from({ length: 9000 }, (_, i) => `k${i}: 1`)}}\ngears: [${Array(99).fill("*x")}]`;
    expect(String(read({ "loco.yaml": wide }))).toMatch(/these are the first 500 problems/);
  });
});
