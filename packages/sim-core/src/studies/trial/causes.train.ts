import { driveDrag_N } from "../../drive/pull.js";
import { G_mps2 } from "../../parts/constants.js";
import type { Train } from "../../train/train.js";
import type { Cause, Variant } from "./causes.kinds.js";
import { beyond, byRatio, evenly, type Yardstick } from "./causes.ranges.js";
import { dragged, driveDragged, gripTimes, massTimes } from "./changes.js";
import type { Sureness } from "./doubts.js";
import { both, type Machine } from "./machine.js";
import type { Setting } from "./setting.js";

/** What can hold the train back or let its wheels go: brakes, bearings, rails, load and gradients. */
export function trainCauses({ machine }: Setting, { full, most_N }: Yardstick, sure: Sureness): Cause[] {
  const { train } = machine;
  return [
    { cause: "dragging_brake_or_tight_chain", unit: "N", variants: draggingWays(train, most_N, sure) },
    {
      cause: "poor_grip",
      unit: "times",
      variants: [
        {
          where: "",
          // Less than what the drive pulls at the steepest place, or nobody would notice.
          sizes: byRatio(0.2, 0.5).map((by) => (by * full.force_N) / (train.adhesion.static * train.driven_N)),
          apply: (m, by) => both(m, (t) => gripTimes(t, by)),
        },
      ],
    },
    {
      cause: "heavier_train",
      unit: "kg",
      variants: [
        {
          where: "",
          sizes: byRatio(0.35, Math.max(0.5, Math.min(1.5, most_N / train.breakaway_N))).map(
            (by) => by * train.mass_kg,
          ),
          apply: (m, kg) => ({ ...m, train: massTimes(m.train, 1 + kg / m.train.mass_kg) }),
        },
      ],
    },
    {
      cause: "steeper_place",
      unit: "gradient",
      variants: [
        {
          where: "the stretch called level",
          sizes: byRatio(0.004, Math.max(0.008, Math.min(0.03, most_N / (train.mass_kg * G_mps2)))),
          apply: (m, by) => ({ ...m, level: m.level + by }),
        },
        { where: "the steepest place", sizes: byRatio(0.006, 0.06), apply: (m, by) => ({ ...m, steep: m.steep + by }) },
      ],
    },
    {
      cause: "head_wind",
      unit: "m/s",
      variants: [
        // From a moderate breeze to a near gale; Beaufort's scale.
        { where: "", sizes: evenly(4, 15, 7), apply: (m, by) => ({ ...m, wind_mps: m.wind_mps + by }) },
      ],
    },
  ];
}

/** A chain that drags has this share of the slack it should have, or less (common practice, no source). */
const TIGHT = 0.2;

function draggingWays(train: Train, most_N: number, sure: Sureness): Variant[] {
  const from_N = (least_N: number) => byRatio(least_N, Math.max(1.5 * least_N, most_N));
  const chain_N = from_N(Math.max(beyond(sure.drag) * driveDrag_N(train, 0), train.rolling_N));
  const brake_N = from_N(beyond(sure.rolling) * train.rolling_N);
  const onCar = (m: Machine, N: number) => ({ ...m, train: dragged(m.train, N, m.train.vehicles.length - 1) });
  const cars = train.vehicles.length > 1;
  return [
    { where: "a chain too tight", sizes: chain_N, apply: (m, N) => ({ ...driveDragged(m, N), slack: TIGHT }) },
    { where: "a brake on the driven wheels, or a bearing of the drive", sizes: chain_N, apply: driveDragged },
    {
      where: cars ? "a brake on the loco's other wheels" : "a brake on the other wheels",
      sizes: brake_N,
      apply: (m, N) => both(m, (t) => dragged(t, N, t.loco)),
    },
    ...(cars ? [{ where: "a brake on a car", sizes: brake_N, apply: onCar }] : []),
  ];
}
