import type { Train } from "../../train/train.js";
import type { Cause } from "./causes.kinds.js";
import { evenly, taking_ohm, type Yardstick } from "./causes.ranges.js";
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
      cause: "wrong_battery_voltage",
      unit: "times",
      variants: factorsFor(inSeries).flatMap((by) => {
        const wired = (m: Machine) => ({ ...both(m, (t) => batteriesTimes(t, by)), inSeries: countOf(by, inSeries) });
        const way = { where: "", sizes: [by], apply: wired };
        // Too few are below the cut-out, which not every controller heeds.
        const low = machine.train.controller.cutout_V > by * battery.nominal_V;
        return low ? [way, { ...way, apply: (m: Machine) => both(wired(m), heedless) }] : [way];
      }),
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

const heedless = (t: Train): Train => ({ ...t, controller: { ...t.controller, cutout_V: 0 } });

/** Of one alone, half its volts is another battery and not half of one. */
const countOf = (by: number, inSeries: number): number => Math.max(1, Math.round(by * inSeries));

/** A battery too few, and one or two too many; of one alone, half its volts too. */
function factorsFor(inSeries: number): number[] {
  const others = [inSeries - 1, inSeries + 1, inSeries + 2]
    .filter((count) => count > 0)
    .map((count) => count / inSeries);
  return inSeries === 1 ? [0.5, ...others] : others;
}
