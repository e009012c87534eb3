import { type Event, figures, type RunAnswer } from "@rideon/sim-core";
import { eventInWords } from "./events.js";
import { shortLength } from "./eyes.js";
import type { Opened } from "./ready.js";
import { several } from "./setting.js";

/** Who rode, for `run` and `laps` alike. */
type Carried = Pick<RunAnswer, "passengers_carried" | "passengers_per_hour" | "energy_per_passenger_Wh">;

/** `36 passengers, 138 an hour, 1.45 Wh each`, the hour where people get on and off; nothing where nobody rides. */
export function carriedRow({ passengers_carried, passengers_per_hour, energy_per_passenger_Wh }: Carried): string[][] {
  if (passengers_carried === 0) return [];
  const each = energy_per_passenger_Wh === null ? "" : `, ${figures(energy_per_passenger_Wh)} Wh each`;
  const hourly = passengers_per_hour === null ? "" : `, ${figures(Math.round(passengers_per_hour))} an hour`;
  return [["carried", `${several(passengers_carried, "passenger")}${hourly}${each}`]];
}

/** More standings than this are told by place. */
const MOST = 8;

/** Where it stood, when, and who is aboard as it leaves; of many, how often at each place. */
export function stopRows(events: readonly Event[], { plan, eyes }: Opened): string[][] {
  if (plan.stops.length === 0) return [];
  const stands = events.filter(({ kind }) => kind === "stop");
  const when = ({ time_s }: Event) => eyes.of(Math.round(time_s), "time");
  if (stands.length <= MOST) {
    return stands.map((stop) => {
      const boarding = events.find(({ kind, time_s }) => kind === "boarding" && time_s === stop.time_s);
      return [eyes.place(stop.chainage_m), when(stop), boarding ? eventInWords(boarding, eyes.exact) : ""];
    });
  }
  const byPlace = new Map<string, Event[]>();
  for (const stop of stands) {
    const place = eyes.place(stop.chainage_m);
    byPlace.set(place, [...(byPlace.get(place) ?? []), stop]);
  }
  return [...byPlace].map(([place, all]) => [
    place,
    several(all.length, "time"),
    all.length === 1 ? when(all[0]!) : `first after ${when(all[0]!)}, last after ${when(all.at(-1)!)}`,
  ]);
}

/** The log without what `stopRows` tells; how it came in to a stop that it missed stays. */
export function besidesStops(events: readonly Event[], { plan }: Opened): readonly Event[] {
  if (plan.stops.length === 0) return events;
  const stood_s = events.filter(({ kind }) => kind === "stop").map(({ time_s }) => time_s);
  const last_s = stood_s.at(-1) ?? Number.NEGATIVE_INFINITY;
  const told = ({ kind, time_s }: Event) =>
    (TOLD.has(kind) && time_s <= last_s) || (kind === "at_rest" && stood_s.includes(time_s));
  return events.filter((event) => !told(event));
}

const TOLD = new Set(["shuts_off", "stop", "boarding"]);

/** Where the driver could not have stopped it as he should, each place once, and whose braked wheels locked. */
export function brakingTroubles(events: readonly Event[], { eyes }: Opened): string[] {
  const once = (wanted: Event["kind"]) => {
    const found = new Map<string, Event[]>();
    for (const event of events) {
      if (event.kind !== wanted) continue;
      const words = eventInWords(event, eyes.exact);
      const alike = found.get(words);
      if (alike) alike.push(event);
      else found.set(words, [event]);
    }
    return [...found];
  };
  return [
    ...unbraked(events, eyes),
    ...once("cannot_stop").map(([words]) => `It ${words}; rideon brakes tells what would stop it.`),
    ...once("axles_lock").map(
      ([words, all]) =>
        `In braking ${words}: ${several(all.length, "time")}, first at ${eyes.place(all[0]?.chainage_m ?? 0)}.`,
    ),
  ];
}

/** Slower than a walk somebody can put a foot down, m/s. */
const WALK_mps = 0.7;

/** With no brake it comes to rest at the end of a line only if the driver shuts off in time: by how much. */
function unbraked(events: readonly Event[], eyes: Opened["eyes"]): string[] {
  let least: { leeway_m: number; chainage_m: number } | undefined;
  for (const event of events) {
    if (event.kind !== "shuts_off" || event.leeway_m === null || event.speed_mps < WALK_mps) continue;
    if (!least || event.leeway_m < least.leeway_m) least = { leeway_m: event.leeway_m, chainage_m: event.chainage_m };
  }
  if (!least) return [];
  const later = least.leeway_m < 0.1 ? "any later" : `${shortLength(least.leeway_m, eyes)} later`;
  return [
    `It has no brake: it comes to rest at the end of the line only because the driver shuts off in time. Shut off ${later} than at ${eyes.place(least.chainage_m)}, and it runs past the end.`,
  ];
}
