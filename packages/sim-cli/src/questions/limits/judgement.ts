import type { AboardRow, LimitsAnswer } from "@rideon/sim-core";
import type { Eyes } from "../../words/eyes.js";
import { several } from "../../words/setting.js";

/** The judgement, and what must be done first or would let more ride: the same words on screen, page and card. */
export interface Judgement {
  /** One sentence. */
  said: string;
  /** What stands in the way, and what would lift it: a sentence each; the least limit first. */
  first: string[];
}

/** @param eyes the units of whoever reads */
export function judgement(answer: LimitsAnswer, eyes: Eyes): Judgement {
  const { may_carry, most_aboard, speeds, aboard } = answer;
  const counted = aboard.filter(({ counts }) => counts);
  const binding = counted.filter((row) => !row.or_more && (row.most ?? -1) <= most_aboard && row.limit !== "seats");
  const seats = counted.find(({ limit, most }) => limit === "seats" && (most ?? 0) <= most_aboard);
  const fastest = Math.max(...speeds.map(({ speed_mps }) => speed_mps));
  if (!may_carry) {
    // What the others come to hangs on the profile.
    const survey = binding.filter(({ limit }) => limit === "survey");
    const others = binding.filter(({ limit }) => limit !== "survey");
    const why = [...survey, ...(seats && (seats.most ?? 0) === 0 ? [seats] : []), ...others];
    return {
      said: `By these sums it may carry no passengers here: ${whyNone(why[0], answer)}.`,
      first: why.map((row) => lifted(row, answer, eyes)),
    };
  }
  const slower = speeds.some(({ speed_mps, by }) => by !== "plan" && speed_mps < fastest);
  const speed = `at up to ${eyes.speed(fastest)}${slower ? ", slower on some stretches" : ""}`;
  const by = seats ? "it has no more seats" : whyNoMore(binding[0], answer);
  return {
    said: `By these sums it may carry up to ${several(most_aboard, "passenger")} here, ${speed}: ${by}.`,
    first: (seats ? [seats] : binding).map((row) => lifted(row, answer, eyes)),
  };
}

function whyNone(row: AboardRow | undefined, { stops }: LimitsAnswer): string {
  const braked = stops.some(({ who, outcome }) => who !== "nobody" && outcome !== "no_brake");
  switch (row?.limit) {
    case "seats":
      return row.lifted_by === "a_car" ? "it has no car to carry them" : "its cars have no seats";
    case "stopping":
      return braked ? "it does not stop within sight" : "it has no brake";
    case "parking":
      return "its brakes do not hold it where it stands";
    case "restart":
      return "it does not start again on the steepest bit even empty";
    case "charge":
      return "a charge does not last";
    case "log":
      return "a logged run does not agree with them";
    case "survey":
      return SURVEY[row.lifted_by] ?? "the gradients of its profile are too much in doubt to judge by";
    default:
      return "it does not get through a day";
  }
}

const SURVEY: Partial<Record<AboardRow["lifted_by"], string>> = {
  survey_accepted: "its levelling was not accepted",
  survey_closed: "its levelling closes on nothing, and a misread reading would not show",
};

function whyNoMore(row: AboardRow | undefined, answer: LimitsAnswer): string {
  const on = row?.rail ? ` on ${row.rail} rail` : "";
  switch (row?.limit) {
    case "restart":
      return `with more it does not start again${on} on the steepest bit`;
    case "stopping":
      return `with more it does not stop within sight${on}`;
    case "parking":
      return `with more its brakes do not hold it standing${on}`;
    case "working":
      return WORKING[row.lifted_by] ?? "with more it does not get through a day";
    case "charge":
      return "with more a charge does not last";
    default:
      return `more than ${answer.most_aboard} were not looked at`;
  }
}

const WORKING: Partial<Record<AboardRow["lifted_by"], string>> = {
  breaker: "with more its breaker opens",
  cooling_or_gearing: "with more its motor gets too hot",
};

/** What would lift a limit, as a sentence. */
export function lifted(row: AboardRow, { sight_m }: LimitsAnswer, eyes: Eyes): string {
  const where = row.at_m === null ? "" : ` at ${eyes.place(row.at_m)}`;
  const brake = row.brake_N === null ? "" : ` that pulls ${eyes.of(Math.ceil(row.brake_N), "force")} at the rail`;
  const loaded = row.brake_with ? ` with ${several(row.brake_with, "passenger")} aboard` : "";
  const within = `within the ${eyes.length(sight_m)} that the driver sees`;
  switch (row.lifted_by) {
    case "a_car":
      return "A car with seats is wanted.";
    case "more_seats":
      return "Another car or more seats would let more ride, as far as the other limits below allow.";
    case "brake":
      return `Fit a brake${brake || ", which must act sooner than the driver of this plan does: run slower"}; it must stop the train${loaded} ${within} from everywhere.`;
    case "brake_or_less_speed":
      return `A stronger brake${brake && `, one${brake},`} or less speed would stop more ${within}${where && `; the hardest place is${where.replace(/^ at/, "")}`}.`;
    case "parking_brake_or_chocks":
      return `Fit a parking brake that holds it on the steepest bit${where}, or put chocks under its wheels wherever it stands.`;
    case "grip":
      return `More weight on driven wheels, another driven axle or drier rail would let it start again with more${where}.`;
    case "gearing_or_motor":
      return `A lower gear or a stronger motor would let it start again with more${where}.`;
    case "battery_current":
      return `The controller's limit on the battery's current holds it back${where}.`;
    case "battery":
      return `The battery gives no more${where}: a larger one, or a fuller one, would.`;
    case "lever":
      return `The lever is not open far enough${where}.`;
    case "breaker":
      return `Its breaker opens${where}: rideon run tells at how many amps; a lower gear or less load keeps it shut.`;
    case "cooling_or_gearing":
      return "Its motor gets hotter than its class allows: a lower gear, a larger motor or pauses would help.";
    case "charge_or_battery":
      return "A larger battery, or charging between, would let it go on.";
    case "sums_that_agree":
      return "Find out what makes the loco differ from these sums (rideon compare tells where it does), and mend the loco or its files: until then no figure here can be counted on.";
    case "survey":
      return "Measure the gradients with a level and staff, a water tube or an inclinometer: rideon levels makes a profile of them.";
    case "survey_accepted":
      return "Find the reading that is wrong, or level the line again, until the book is accepted (rideon levels tells): spreading what it misses mends nothing.";
    case "survey_closed":
      return "Close the levelling on its first place, or on a second bench mark, and reduce it again by rideon levels.";
    case "less_load_or_speed":
      return `It does not get through the day${where}: rideon laps tells how it ends.`;
  }
}

/** Of the plan's own load. */
export function tooMany({ passengers, most_aboard }: LimitsAnswer): string[] {
  if (passengers <= most_aboard) return [];
  return [`This plan has ${several(passengers, "passenger")} aboard: ${passengers - most_aboard} too many.`];
}
