import { readFileSync } from "node:fs";
import { readLog } from "@rideon/sim-cli/read";
import { describe, expect, test } from "vitest";
import { journeyOf } from "../../packages/sim-core/src/field/compare/journey.js";
import { placeLog } from "../../packages/sim-core/src/field/compare/place.js";

// Logs that somebody measured: ten trips of electric kick-scooters in Dublin by phone (SFIEssential, "DualEMobilityData-
// datasets", 2023, MIT licence). They have no amps, so that they show what a phone's log is worth for placing a train.
const DATA = new URL("data/scooter-trips.csv", import.meta.url);

/** Lengths of the tracks, m, by the published fixes; and what the trips' own table says, km. */
const TRIPS: [trip: number, track_m: number, table_km: number][] = [
  [1, 1098, 1.2],
  [4, 2428, 2.6],
  [6, 1250, 1.4],
  [7, 1236, 1.4],
  [8, 1267, 1.4],
  [9, 1677, 1.8],
  [12, 1275, 1.3],
  [13, 1172, 1.3],
  [15, 2360, 2.9],
  [17, 1268, 1.2],
];

/** A trip as a log; a speed below 0 means that the phone had none. */
function tripLog(trip: number): string {
  const rows = readFileSync(DATA, "utf8")
    .split("\n")
    .map((line) => line.split(","))
    .filter(([first]) => first === String(trip))
    .map(([, time, distance, speed]) => [time, distance, Number(speed) < 0 ? "" : speed].join(","));
  return ["time_s,distance_m,speed_kmh", ...rows].join("\n");
}

describe.each(TRIPS)("a phone's log, trip %i", (trip, track_m, table_km) => {
  const problems: never[] = [];
  const log = readLog("trip", tripLog(trip), [], problems)!;
  const line = { kind: "circuit", length_m: 1e5 } as const;
  const placed = placeLog(log.columns, line, 0);
  const journey = journeyOf(log.columns, placed, line.length_m);

  test("is placed by its distance, as long as its fixes are", () => {
    expect(problems).toEqual([]);
    expect(Math.abs(journey.length_m / track_m - 1)).toBeLessThan(0.001);
    // The table's own is rounded to 0.1 km, and of trip 15 a fifth more than its track.
    expect(Math.abs(journey.length_m / (1000 * table_km) - 1)).toBeLessThan(trip === 15 ? 0.2 : 0.13);
  });
  test("has a speed that adds up to its distance within an eighth: what a phone is good for", () => {
    expect(placed.speed_over_distance).toBeGreaterThan(0.875);
    expect(placed.speed_over_distance).toBeLessThan(1.135);
  });
  test("is evened out to speeds that the scooter can run, limited to 25 km/h", () => {
    expect(Math.max(...journey.speed_mps)).toBeLessThan(1.05 * (25 / 3.6));
    expect(journey.gaps.length).toBeGreaterThan(0);
  });
});
