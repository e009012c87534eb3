import { isFitted } from "../brakes/sets.js";
import { leverShown, type Reading, readingsIn, slow } from "./readings.kinds.js";
import type { Setting } from "./setting.js";
import { rested_V } from "./settled.js";

// What is read with the power off again: how far it takes to stop, whether it stays, and how warm it has got.

const BY = {
  drag: "power off, no brake",
  electric: "the electric brake",
  loco: "the loco's brake",
  all: "every brake",
} as const;

export function stops({ machine: { train }, speeds: { line_mps } }: Setting): Reading[] {
  const { stopping } = readingsIn("stops");
  const onCars = train.brakes.some(({ vehicle }) => vehicle > 0);
  return (["drag", "electric", "loco", "all"] as const)
    .filter((set) => isFitted(set, train) && (set !== "all" || onCars))
    .map((set) =>
      stopping(`stop_${set}`, `from ${line_mps.toFixed(2)} m/s on the level, ${BY[set]}: from the mark to rest`, (s) =>
        s.run().speed_mps > 0 ? s.stop_m(set, line_mps) : null,
      ),
    );
}

export function leftStanding({ machine: { train } }: Setting): Reading[] {
  const { yes } = readingsIn("parked");
  return (["loco", "all"] as const)
    .filter((set) =>
      train.brakes.some(({ parking, vehicle }) => parking && (set === "loco" ? vehicle === 0 : vehicle > 0)),
    )
    .map((set) =>
      yes(`parked_${set}`, `left at the steepest place with ${BY[set]} on: does it stay?`, (s) => s.holds(set)),
    );
}

export function afterItsLaps({ levers }: Setting): Reading[] {
  const { volts, warmth, amps } = readingsIn("after_laps");
  return [
    volts("after_volts", "whole battery, rested for a quarter of an hour", (s) => {
      const after = s.after();
      return after && rested_V({ ...s.m, charge: after.charge });
    }),
    warmth(
      "after_winding",
      "winding, by its resistance or through the brush holes",
      (s) => s.after()?.winding_degC ?? null,
    ),
    warmth("after_case", "motor's case", (s) => s.after()?.case_degC ?? null),
    amps(
      "after_amps",
      `on the level, lever ${leverShown(levers.run)}: amps in the battery's cable`,
      (s) => s.warm()?.battery_A ?? null,
    ),
  ].map(slow);
}
