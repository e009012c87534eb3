import { type BrakeSet, type BrakesAnswer, type BrakesRow, type DecelerationCode, figures } from "@rideon/sim-core";
import { shortLength, shortSpeed } from "../../words/eyes.js";
import { several } from "../../words/setting.js";
import { table, wrap } from "../../words/table.js";
import type { BrakesTold } from "./sets.js";
import { bySet, judged, near, SET, toldSets } from "./sets.js";
import { stretchesInWords, stretchesOf } from "./stretches.js";

/** The longest stop of each set, on each rail where that makes a difference. */
export function worstTable(told: BrakesTold, width: number): string[] {
  const { answer, eyes } = told;
  if (answer.worst.length === 0) return [];
  const alike = (one: BrakesRow, other: BrakesRow) =>
    near(one.distance_m, other.distance_m) && near(one.top_speed_mps, other.top_speed_mps);
  const rows = bySet(toldSets(answer, told), answer.worst, alike).map(({ set, rail, of }) => [
    SET[set],
    rail,
    of.distance_m === null ? "never" : shortLength(of.distance_m, eyes),
    of.time_s === null ? "" : eyes.of(of.time_s < 60 ? of.time_s : Math.round(of.time_s), "time"),
    figures(of.peak_deceleration_mps2),
    of.wheels_locked ? "slide" : "",
    `${shortSpeed(of.speed_mps, eyes)} at ${eyes.place(of.chainage_m)}${of.direction === "back" ? ", going back" : ""}`,
  ]);
  const slide = rows.some((row) => row[5] !== "");
  const head = ["brakes", "rail", "in", "time", "m/s²", "wheels", "worst from"];
  const without = (row: string[]) => (slide ? row : row.filter((_, i) => i !== 5));
  return table(rows.map(without), { width, head: without(head), right: [2, 3, 4] });
}

/** From where it does not stop within sight, and how fast it may run so that it does from everywhere. */
export function sightLines(told: BrakesTold, width: number): string[] {
  const { answer, eyes } = told;
  if (answer.worst.length === 0) return [];
  const cases = answer.greatest_speed.map(({ brakes, rail, speed_mps }) => {
    const places = answer.beyond_sight.find((each) => each.brakes === brakes && each.rail === rail)?.places ?? [];
    return { brakes, rail, speed_mps, places };
  });
  type Case = (typeof cases)[number];
  const alike = (one: Case, other: Case) =>
    near(one.speed_mps, other.speed_mps) && one.places.length === other.places.length;
  const rows = bySet(toldSets(answer, told), cases, alike).map(({ set, rail, of }) => [
    SET[set],
    rail,
    of.speed_mps === null ? "no speed" : shortSpeed(of.speed_mps, eyes),
    beyondInWords(of, told),
  ]);
  const head = ["brakes", "rail", "up to", "not within sight from"];
  return [
    ...table(rows, { width, head }),
    ...wrap("Up to: the greatest speed from which it stops within sight from everywhere.", width),
  ];
}

/** `nowhere`, or `37 of 90 places: 165 m, past Heron Bank, to 240 m, past Top Signal`. */
function beyondInWords(
  { brakes, rail, places }: Pick<BrakesAnswer["beyond_sight"][number], "brakes" | "rail" | "places">,
  told: BrakesTold,
): string {
  const { answer, plan, eyes } = told;
  if (places.length === 0) return "nowhere";
  const rows = judged(answer, told).filter((row) => row.brakes === brakes && row.rail === rail);
  const round = plan.track.kind === "circuit";
  const count = `${places.length} of ${several(rows.length, "place")}`;
  if (places.length === rows.length) return `everywhere: ${count}`;
  const ways = (["out", "back"] as const).flatMap((direction) => {
    const heads_m = (all: readonly Pick<BrakesRow, "chainage_m" | "direction">[]) =>
      all.filter((each) => each.direction === direction).map(({ chainage_m }) => chainage_m);
    const stretches = stretchesOf(heads_m(rows), heads_m(places), round);
    if (stretches.length === 0) return [];
    return [`${round ? "" : `${direction} `}${stretchesInWords(stretches, eyes)}`];
  });
  return `${count}: ${ways.join("; ")}`;
}

const PEOPLE: Record<DecelerationCode, string> = {
  standing_recovers: "people standing recover without a step up to",
  standing_transit: "most that vehicles with people standing may ask",
  standing_steps: "people standing have to step at",
  seated: "people seated, most of them keep seats up to",
};

/** The hardest slowing of the sets against what people were found to stand. */
export function peopleLines(told: BrakesTold, width: number): string[] {
  const { answer, eyes } = told;
  const sets = toldSets(answer, told);
  if (answer.rows.length === 0) return [];
  const hardest = answer.rows
    .filter(({ brakes }) => sets.includes(brakes))
    .reduce((most, row) => (row.peak_deceleration_mps2 > most.peak_deceleration_mps2 ? row : most));
  const by = (over: readonly BrakeSet[]) => {
    const told = over.filter((set) => sets.includes(set));
    return told.length === 0 ? "not passed here" : `PASSED ${told.map((set) => `by ${SET[set]}`).join(", ")}`;
  };
  const rows = answer.deceleration_limits.map(({ code, limit_mps2, exceeded_by }) => [
    PEOPLE[code],
    eyes.of(limit_mps2, "acceleration"),
    by(exceeded_by),
  ]);
  const most = `Hardest slowing of all: ${eyes.of(hardest.peak_deceleration_mps2, "acceleration")}, by ${SET[hardest.brakes]} on ${hardest.rail} rail. Where the figures come from is in --json.`;
  return [...table(rows, { width, right: [1] }), ...wrap(most, width)];
}
