import { driveDrag_N } from "../../drive/pull.js";
import { LOOKED } from "./instruments.js";
import type { Look } from "./machine.js";
import { type Reading, readingsIn } from "./readings.kinds.js";
import { CERTAIN, certainly } from "./readings.margins.js";
import type { Setting } from "./setting.js";
import { gripHolds_N } from "./settled.js";

// What is looked at before anything is measured: it costs nothing, and tells what stops most locos on their first day.
// The order is that in which power flows, from what holds the wheels to what tells the motor to turn: common practice in
// fault finding, no source.

/** What one person pushes along steadily, N: about 250 N (from memory of ergonomic tables for pushing on wheels). */
const PUSH_N = 250;

export function looks({ machine: { train } }: Setting): Reading[] {
  const { yes } = readingsIn("looks");
  const look = (reading: Look, what: string): Reading => ({
    ...yes(reading, what, ({ m }) => certainly(m.amiss !== reading)),
    misread: LOOKED,
  });
  const braked = train.brakes.length > 0;
  const guard =
    train.breaker.kind === "none" ? [] : [look("look_breaker", `is the ${train.breaker.kind} in, and whole?`)];
  return [
    look("look_chocks", "are the chocks out?"),
    ...(braked ? [look("look_brake", "is every brake off?")] : []),
    look("look_isolator", "is the isolator closed?"),
    ...guard,
    look("look_dead_man", "is the dead-man's switch pressed, and does it click?"),
    look("look_reverser", "is the reverser in gear, and not in the middle?"),
    look("look_lever", "was the lever shut first, and then opened?"),
    look("look_clear", "is nothing under a wheel or in a chain?"),
    yes("pushes", "isolator open, on the level: can it be pushed by hand as it is?", ({ m }) => {
      const { train: t } = m;
      return m.blocked ? -CERTAIN : PUSH_N - t.breakaway_N - Math.min(driveDrag_N(t, 0), gripHolds_N(t));
    }),
  ];
}
