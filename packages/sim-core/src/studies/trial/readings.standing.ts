import { driveDrag_N } from "../../drive/pull.js";
import { CHAINS } from "../../parts/chain.data.js";
import { span_m } from "../../parts/chain.js";
import { slackOf } from "../../parts/chain.load.js";
import type { Stage } from "../../parts/gears.js";
import { orElse, type Reading, readingsIn } from "./readings.kinds.js";
import { CERTAIN, certainly } from "./readings.margins.js";
import type { Setting } from "./setting.js";
import { gripHolds_N, rested_V, runDown_s } from "./settled.js";
import type { States } from "./states.js";

// What is read before the loco is let pull: by rule and by hand, the battery at rest, and the wheels in the air.

export function beforePower({ machine }: Setting): Reading[] {
  const { slack, yes, counted, across } = readingsIn("before_power");
  const { stages } = machine.train.gears;
  return [
    ...stages.flatMap((stage, i) => {
      const slack_mm = slackOf_mm(stage);
      const what = `chain ${i + 1} from the motor: how far its run moves up and down in the middle, all the way`;
      return slack_mm === undefined ? [] : [slack(`chain_${i + 1}_slack`, what, (s) => slack_mm * s.m.slack)];
    }),
    ...(stages.some(({ teeth }) => teeth)
      ? [
          yes("teeth", "do the sprockets have the teeth that the files give them? Count them", (s) =>
            certainly(s.m.teeth),
          ),
        ]
      : []),
    counted(
      "motor_turns",
      "turns of the motor for one of a driven wheel, counted over ten by hand; 0 if it will not turn",
      ({ m }) => (driveDrag_N(m.light, 0) > gripHolds_N(m.light) ? 0 : m.light.gears.ratio),
    ),
    across("wheel_diameter", "driven wheel, across the tread", (s) => 2000 * s.m.light.radius_m),
  ];
}

export function batteryAtRest({ inSeries }: Setting): Reading[] {
  const { volts } = readingsIn("battery_at_rest");
  const batteries = inSeries > 1 ? Array.from({ length: inSeries }, (_, i) => i + 1) : [];
  return [
    volts("rest_volts", "whole battery, at its own terminals, everything off for an hour", ({ m }) => rested_V(m)),
    ...batteries.map((k) =>
      volts(`battery_${k}_volts`, `battery ${k} of ${inSeries} alone`, ({ m }) => {
        const short_V = m.weak?.short_V ?? 0;
        const sound_V = (rested_V(m) + short_V) / m.inSeries;
        return k > m.inSeries ? null : sound_V - (m.weak?.battery === k ? short_V : 0);
      }),
    ),
  ];
}

export function onTheStands({ machine }: Setting): Reading[] {
  const { yes, turns, amps, seconds } = readingsIn("on_stands");
  const rpm = (s: States, lever: number) => (60 * s.stands(lever).speed_mps) / (2 * Math.PI * s.m.light.radius_m);
  const turnsAtAll = (s: States) => s.stands(LITTLE).speed_mps > 0;
  // A series motor with nothing to turn runs away.
  const mayRunFree = machine.light.motor.kind === "permanent-magnet";
  return [
    yes("stands_turn", "lever a little open: do the driven wheels turn at all?", (s) => certainly(turnsAtAll(s))),
    orElse(
      yes("stands_forwards", "lever a little open: do the driven wheels turn forwards?", (s) =>
        certainly(turnsAtAll(s) && s.m.forwards),
      ),
      "did not turn",
      "stands_turn",
    ),
    yes("stands_dead_man", "dead-man's switch let go: does the motor stop taking current at once?", () => CERTAIN),
    ...(mayRunFree
      ? [
          turns("stands_rpm_quarter", "turns of a driven wheel a minute, lever 25 %", (s) => rpm(s, 0.25)),
          turns("stands_rpm_half", "the same, lever 50 %", (s) => rpm(s, 0.5)),
          turns("stands_rpm_full", "the same, lever full", (s) => rpm(s, 1)),
          amps("stands_amps", "lever full: amps in the battery's cable", (s) => s.stands(1).battery_A),
          seconds("stands_run_down", "from full lever, shut: seconds until the wheels stand", (s) => {
            const { speed_mps } = s.stands(1);
            return speed_mps > 0 ? runDown_s(s.m.light, speed_mps) : null;
          }),
        ]
      : []),
  ];
}

/** A lever that is a little open. */
const LITTLE = 0.25;

/** Slack to set, all the way up and down in the middle of the run. */
function slackOf_mm({ chain, teeth, centres_m }: Stage): number | undefined {
  if (!chain || !teeth || centres_m === undefined) return undefined;
  const sized = CHAINS[chain];
  return 1000 * slackOf(sized, span_m(sized.pitch_m, teeth, centres_m)).movement_m;
}
