import type { Train } from "../../train/train.js";
import type { Cause } from "./causes.kinds.js";
import { ALONE, beyond, byRatio, type Yardstick } from "./causes.ranges.js";
import { orNeglected } from "./causes.standing.js";
import { fluxTimes, ratioTimes } from "./changes.js";
import type { Sureness } from "./doubts.js";
import { both } from "./machine.js";
import type { Setting } from "./setting.js";

/** Sprockets are changed more often than wheels are of another size (common practice, no source). */
const GEAR = 4;

/** What can be wrong from the controller to the driven wheels. */
export function driveCauses({ machine }: Setting, { full }: Yardstick, sure: Sureness): Cause[] {
  const causes: Cause[] = [
    {
      cause: "current_limit_low",
      unit: "A",
      variants: [
        {
          where: "",
          sizes: byRatio(0.15 * full.motor_A, 0.5 * full.motor_A),
          apply: (m, motorLimit_A) => both(m, (t) => ({ ...t, controller: { ...t.controller, motorLimit_A } })),
        },
      ],
    },
    {
      cause: "cutout_set_wrong",
      unit: "none",
      variants: [
        ...orNeglected({
          where: "it stands above the rested volts",
          sizes: ALONE,
          apply: (m) => ({ ...m, cutsOut: "at_rest" }),
        }),
        { where: "it acts on the level already", sizes: ALONE, apply: (m) => ({ ...m, cutsOut: "running" }) },
        { where: "it acts at a restart", sizes: ALONE, apply: (m) => ({ ...m, cutsOut: "restart" }) },
      ],
    },
    {
      cause: "wrong_sprocket_or_wheel",
      unit: "times",
      variants: [
        {
          where: "a lower gear than the files have",
          weight: GEAR,
          sizes: byRatio(1.09, 1.4),
          apply: (m, by) => ({ ...both(m, (t) => ratioTimes(t, by)), teeth: false }),
        },
        {
          where: "a higher gear than the files have",
          weight: GEAR,
          sizes: byRatio(1 / 1.09, 1 / 1.4),
          apply: (m, by) => ({ ...both(m, (t) => ratioTimes(t, by)), teeth: false }),
        },
        { where: "larger wheels", sizes: byRatio(1.08, 1.3), apply: (m, by) => both(m, (t) => wheelTimes(t, by)) },
        {
          where: "smaller wheels",
          sizes: byRatio(1 / 1.08, 1 / 1.3),
          apply: (m, by) => both(m, (t) => wheelTimes(t, by)),
        },
      ],
    },
    {
      cause: "slipping_sprocket",
      unit: "N",
      variants: [
        {
          where: "",
          sizes: byRatio(0.05 * full.force_N, 0.4 * full.force_N),
          apply: (m, sprockets_N) => ({ ...m, sprockets_N }),
        },
      ],
    },
    {
      cause: "reversed_lead",
      unit: "none",
      variants: [{ where: "", sizes: ALONE, apply: (m) => ({ ...m, forwards: false }) }],
    },
  ];
  // A series motor has no magnets.
  if (machine.train.motor.kind === "permanent-magnet") {
    causes.push({
      cause: "weak_magnets",
      unit: "times",
      variants: [
        {
          where: "",
          sizes: byRatio(0.45, 1 / (1 + beyond(sure.flux))),
          apply: (m, by) => both(m, (t) => fluxTimes(t, by)),
        },
      ],
    });
  }
  return causes;
}

const wheelTimes = (t: Train, by: number): Train => ({ ...t, radius_m: t.radius_m * by });
