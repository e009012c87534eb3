import { formatGradient, type GoesOff, type Parking, type ParkingSet } from "@rideon/sim-core";
import { shortSpeed } from "../../words/eyes.js";
import { several } from "../../words/setting.js";
import { table, wrap } from "../../words/table.js";
import type { BrakesTold } from "./sets.js";
import { stretchesInWords, stretchesOf } from "./stretches.js";

const LEFT: Record<ParkingSet, string> = {
  none: "nothing",
  loco: "the loco's brake",
  all: "every brake",
};

/** What each set holds of a train left standing, where it rolls away or only bearings hold it, which way and how fast. */
export function parkingLines(told: BrakesTold, width: number): string[] {
  const parking = told.answer.parking.filter(({ brakes }) => isTold(brakes, told));
  const rows = parking.map((each) => [LEFT[each.brakes], holds(each), awayInWords(each, told)]);
  const [best] = parking.slice(-1);
  const onWay = told.plan.track.kind === "circuit" ? "" : " Told for the train as it runs out, not back.";
  const text = [
    ...parking.flatMap(({ brakes, worst }) => (worst?.rolls ? [goesOff(brakes, worst, told)] : [])),
    ...(best ? [chocks(best, parking.length)] : []),
    `On ${best?.rail ?? ""} rail. Stiff bearings may hold it today and let it go tomorrow: nobody should count on them.${onWay}`,
  ];
  const head = ["left with", "holds on", "rolls off from"];
  return [...table(rows, { width, head }), ...text.flatMap((line) => wrap(line, width))];
}

/** Sets that are no more than the one before them are not told twice. */
function isTold(set: ParkingSet, { plan: { train } }: BrakesTold): boolean {
  const parks = (on: (vehicle: number) => boolean) => train.brakes.some((brake) => brake.parking && on(brake.vehicle));
  if (set === "none") return true;
  return set === "loco" ? parks((vehicle) => vehicle === 0) : parks((vehicle) => vehicle > 0);
}

const holds = ({ holding_gradient_percent }: Parking): string => {
  const slope = formatGradient(holding_gradient_percent / 100);
  return slope === "level" ? "the level" : slope;
};

function awayInWords(parking: Parking, told: BrakesTold): string {
  const off = parking.places_it_will_not_hold;
  if (off.length === 0) return "nowhere here";
  const [rolling, held] = [off.filter(({ rolls }) => rolls), off.filter(({ rolls }) => !rolls)];
  const parts = [
    ...(rolling.length > 0 ? [placesInWords(rolling, off, told)] : []),
    ...(held.length > 0 ? [`only stiff bearings hold it at ${placesInWords(held, off, told)}`] : []),
  ];
  return parts.join("; ");
}

/** `12 of 60 places: 165 m, past Heron Bank, to 240 m, past Top Signal`. */
function placesInWords(some: readonly GoesOff[], off: readonly GoesOff[], { answer, plan, eyes }: BrakesTold): string {
  const some_m = some.map(({ chainage_m }) => chainage_m);
  const looked = answer.rows.filter(({ direction }) => direction === "out").map(({ chainage_m }) => chainage_m);
  const all_m = [...new Set([...looked, ...off.map(({ chainage_m }) => chainage_m)])].sort((a, b) => a - b);
  const stretches = stretchesOf(all_m, some_m, plan.track.kind === "circuit");
  return `${some.length} of ${several(all_m.length, "place")}: ${stretchesInWords(stretches, eyes)}`;
}

/** `With nothing on it is off fastest from 134 m, past Heron Bank, 1 in 71 uphill, backwards: 0.8 mph after 10 s, …`. */
function goesOff(set: ParkingSet, { chainage_m, gradient_percent, way, after }: GoesOff, { eyes }: BrakesTold): string {
  const speeds = after.map(({ time_s, speed_mps }) => {
    const how = speed_mps === null ? "off the line" : shortSpeed(speed_mps, eyes);
    return `${how} after ${eyes.of(time_s, "time")}`;
  });
  return `With ${LEFT[set]} on it is off fastest from ${eyes.place(chainage_m)}, ${eyes.gradient(gradient_percent)}, rolling ${way}: ${speeds.join(", ")}.`;
}

function chocks({ brakes, chocks_wanted }: Parking, sets: number): string {
  if (sets === 1) {
    return chocks_wanted
      ? "No parking brake is described: wherever it is left, it wants chocks on both sides of a wheel."
      : "No parking brake is described; this line is level, and chocks are cheap.";
  }
  return chocks_wanted
    ? `Where even ${LEFT[brakes]} does not hold it, it wants chocks below a wheel.`
    : `With ${LEFT[brakes]} on it stays everywhere here; chocks are cheap all the same.`;
}
