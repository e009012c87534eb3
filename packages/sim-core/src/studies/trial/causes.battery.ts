import type { Train } from "../../train.js";
import type { Cause } from "./causes.js";
import { ALONE, evenly, taking_ohm, type Yardstick } from "./causes.ranges.js";
import { withBattery_ohm, withCable_ohm, withRested } from "./changes.js";
import { both, type Machine } from "./machine.js";
import type { Setting } from "./setting.js";

/** What can be wrong with the battery, and with the cables between it and the motor. */
export function batteryCauses({ machine, inSeries, cell_V }: Setting, { run, full }: Yardstick): Cause[] {
  const { battery } = machine.train;
  const battery_ohm = taking_ohm(battery.nominal_V, Math.max(run.battery_A, full.battery_A));
  const motor_ohm = taking_ohm(battery.nominal_V, Math.max(run.motor_A, full.motor_A));
  const low = Math.max(0.02, machine.charge - 0.95);
  return [
    {
      cause: "flat_battery",
      unit: "share",
      variants: [
        {
          where: "",
          sizes: evenly(low, Math.max(low + 0.05, machine.charge - 0.35)),
          apply: (m, charge) => ({ ...m, charge }),
        },
      ],
    },
    {
      cause: "old_battery",
      unit: "ohm",
      variants: [
        {
          where: "",
          sizes: battery_ohm.map((ohm) => battery.resistance_ohm + ohm),
          apply: (m, ohm) => both(m, (t) => withBattery_ohm(t, ohm)),
        },
      ],
    },
    {
      cause: "bad_battery",
      unit: "V",
      variants: Array.from({ length: inSeries }, (_, i) => ({
        where: inSeries > 1 ? `battery ${i + 1}` : "",
        sizes: evenly(0.25 * cell_V, 2.2 * cell_V),
        apply: (m: Machine, short_V: number) => ({
          ...both(m, (t) => withRested(withWeak_ohm(t, inSeries, short_V / cell_V), (V) => V - short_V)),
          weak: { battery: i + 1, short_V },
        }),
      })),
    },
    {
      cause: "bad_joint",
      unit: "ohm",
      variants: [
        {
          where: "between battery and controller",
          sizes: battery_ohm,
          apply: (m, ohm) => both(m, (t) => withCable_ohm(t, t.batteryCable_ohm + ohm)),
        },
        {
          where: "between controller and motor",
          sizes: motor_ohm,
          apply: (m, ohm) =>
            both(m, (t) => ({ ...t, motorPath_ohm: t.motorPath_ohm + ohm, motorCable_ohm: t.motorCable_ohm + ohm })),
        },
      ],
    },
    {
      cause: "open_circuit",
      unit: "none",
      variants: [
        { where: "between battery and controller", sizes: ALONE, apply: (m) => ({ ...m, open: "battery" }) },
        { where: "between controller and motor", sizes: ALONE, apply: (m) => ({ ...m, open: "motor" }) },
      ],
    },
    {
      cause: "wrong_battery_voltage",
      unit: "times",
      variants: factorsFor(inSeries).map((by) => ({
        where: "",
        sizes: [by],
        apply: (m: Machine) => both(m, (t) => batteriesTimes(t, by)),
      })),
    },
  ];
}

/** One battery of the string grows in resistance as its cells go: fivefold when a whole one is lost (no source). */
const withWeak_ohm = (t: Train, inSeries: number, cellsLost: number): Train =>
  withBattery_ohm(t, t.battery.resistance_ohm * (1 + (4 * cellsLost) / inSeries));

/** More of the same batteries in the string, or fewer. */
const batteriesTimes = (t: Train, by: number): Train =>
  withBattery_ohm(
    withRested(t, (volts) => volts * by),
    t.battery.resistance_ohm * by,
  );

/** A battery too few, and one or two too many; of one alone, half its volts too. */
function factorsFor(inSeries: number): number[] {
  const others = [inSeries - 1, inSeries + 1, inSeries + 2]
    .filter((count) => count > 0)
    .map((count) => count / inSeries);
  return inSeries === 1 ? [0.5, ...others] : others;
}
