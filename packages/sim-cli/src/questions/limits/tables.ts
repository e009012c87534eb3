import {
  type AboardRow,
  formatGradient,
  formatPercent,
  type LimitsAnswer,
  type PartedRow,
  type StopRow,
} from "@rideon/sim-core";
import { type Eyes, shortLength, shortSpeed } from "../../words/eyes.js";

const LIMIT: Record<AboardRow["limit"], string> = {
  seats: "seats",
  restart: "starts again",
  stopping: "stops within sight",
  parking: "stays parked",
  working: "drive lasts the day",
  charge: "charge lasts",
  log: "a logged run agrees",
  survey: "as the profile is known",
};

/** A row for each limit: what, how many, where it bites. */
export const aboardRows = ({ aboard, counted }: LimitsAnswer, eyes: Eyes): string[][] =>
  aboard.map((row) => [
    `${LIMIT[row.limit]}${row.rail === null ? "" : `, ${row.rail} rail`}`,
    row.most === null ? "none" : `${row.most}${row.or_more ? " or more" : ""}`,
    [
      row.or_more ? "not tried with more" : "",
      !row.or_more && row.at_m !== null ? `fails at ${eyes.place(row.at_m)}` : "",
      row.most === null ? "not even empty" : "",
      row.counts ? "" : "not counted: the plan is for another rail",
      row.limit === "restart" && !counted.pulling_told ? "not told by the log: by the sums alone" : "",
    ]
      .filter(Boolean)
      .join("; "),
  ]);

const BY = {
  plan: "as the plan has it",
  line: "a limit of the line",
  sight: "to stop within sight",
  no_brake: "it has no brake",
} as const;

/** A row for each stretch. */
export const speedCells = ({ speeds, sight_m }: LimitsAnswer, eyes: Eyes): string[][] =>
  speeds.map(({ direction, from_m, to_m, speed_mps, by, at_m }) => [
    `${eyes.place(from_m)} to ${eyes.place(to_m)}${direction === "back" ? ", going back" : ""}`,
    speed_mps === 0 ? "no speed" : by === "sight" ? slowly(speed_mps, eyes) : shortSpeed(speed_mps, eyes),
    by === "no_brake" || speed_mps > 0 ? BY[by] : `does not stop within ${eyes.length(sight_m)} of ${eyes.place(at_m)}`,
  ]);

/** Rounded down, so that the figure is never the faster one. */
export function slowly(speed_mps: number, eyes: Eyes): string {
  const step_mps = 0.05;
  return shortSpeed(Math.floor(speed_mps / step_mps + 1e-6) * step_mps || speed_mps, eyes);
}

export const WHO: Record<StopRow["who"], string> = {
  nobody: "no brake at all",
  driver: "the driver alone",
  guard: "the guard alone",
  dead_man: "the dead-man's switch let go",
  everybody: "driver and guard",
};

/** So many times the speed it had is worth telling. */
const GATHERS = 1.1;

/** A row for each who has a brake, on each rail; for both of them where both have one. */
export const stopCells = ({ stops, sight_m, counted }: LimitsAnswer, eyes: Eyes): string[][] => {
  const alone = stops.some(({ who, outcome }) => (who === "driver" || who === "guard") && outcome === "no_brake");
  return stops.flatMap((row) => {
    const { who, rail, outcome, distance_m, from_m, speed_mps, top_speed_mps } = row;
    if (who === "everybody" && alone) return [];
    if (outcome === "no_brake") return rail === counted.rail_stopping ? [[WHO[who], "", "has no brake to put on"]] : [];
    const from = from_m === null ? "" : `from ${eyes.place(from_m)}`;
    if (distance_m !== null) {
      const far = distance_m > sight_m ? ", BEYOND SIGHT" : "";
      const gathers = (top_speed_mps ?? 0) > GATHERS * (speed_mps ?? 0);
      const gets = gathers ? `, and reaches ${shortSpeed(top_speed_mps ?? 0, eyes)}` : "";
      const went = `${shortLength(distance_m, eyes)} ${from}${gets}${far}`;
      return [[WHO[who], who === "nobody" ? "any rail" : `${rail} rail`, went]];
    }
    const how =
      outcome === "rolls_back"
        ? `comes to a stand and ROLLS BACK ${from}`
        : `RUNS AWAY ${from}: reaches ${shortSpeed(top_speed_mps ?? 0, eyes)}`;
    return [[WHO[who], who === "nobody" ? "any rail" : `${rail} rail`, how]];
  });
};

/** A row for each coupling, with nothing on and with the part's own brakes. */
export const partedRows = ({ parted }: LimitsAnswer, eyes: Eyes): string[][] =>
  parted.length === 0
    ? [["There is nothing coupled behind the loco."]]
    : parted.map((row) => [
        `coupling ${row.coupling}, ${row.left.length} behind it`,
        row.brakes === "none" ? "no brake put on" : "its own brakes on",
        does(row, eyes),
      ]);

function does({ outcome, top_speed_mps, rolls_m, from_m }: PartedRow, eyes: Eyes): string {
  const from = from_m === null ? "" : ` from ${eyes.place(from_m)}`;
  const speed = shortSpeed(top_speed_mps, eyes);
  switch (outcome) {
    case "stays":
      return `comes to rest and stays, everywhere`;
    case "rolls_to_rest":
      return `ROLLS up to ${shortLength(rolls_m ?? 0, eyes)}${from}, and reaches ${speed}`;
    case "goes_round":
      return `RUNS AWAY${from} right round the line, and reaches ${speed}`;
    case "leaves_the_line":
      return `RUNS OFF THE END of the line${from}, at up to ${speed}`;
  }
}

const WITH = {
  none: "Nothing holds it",
  loco: "The loco's parking brake holds it",
  all: "Its parking brakes hold it",
} as const;

export function standingInWords({ standing }: LimitsAnswer, eyes: Eyes): string {
  const { brakes, rail, holding_gradient_percent: percent, chocks } = standing;
  const holds =
    brakes === "none"
      ? `${WITH.none}: it has no parking brake`
      : `${WITH[brakes]} on ${formatGradient(percent / 100)} on ${rail} rail`;
  if (chocks.length === 0) return `${holds}; that is enough everywhere here.`;
  const where = chocks.map(({ from_m, to_m }) => `from ${eyes.place(from_m)} to ${eyes.place(to_m)}`);
  return `${holds}. Chocks are wanted with its front anywhere ${where.join("; ")}. Stiff bearings may hold it there; nobody should count on that.`;
}

export function countedInWords({ counted, sight_m }: LimitsAnswer, eyes: Eyes): string {
  const {
    rolling_stopping,
    rolling_pulling,
    rolling_by_log,
    rolling_told,
    pulling_by_log,
    pulling_told,
    drag_of_motor,
    reaction_time_s,
    guard_after_s,
    rail_stopping,
  } = counted;
  const drag = drag_of_motor ? "the motor's drag as measured" : "no drag of the motor";
  const by = rolling_by_log ? ", as free as the logged run leaves them," : "";
  const stiff = pulling_by_log ? ", as stiff as the logged run leaves them" : "";
  const stiffly = pulling_told ? "" : ` ${PULLING_NOT_TOLD}.`;
  const told = `${rolling_told ? "" : ` ${ROLLING_NOT_TOLD}.`}${stiffly}`;
  return `Counted on the safe side: bearings at ${formatPercent(rolling_stopping)} of the weight when stopping${by} and ${formatPercent(rolling_pulling)} when pulling${stiff}, ${drag}, ${rail_stopping} rail for stopping, ${reaction_time_s} s for the driver to act and ${guard_after_s} s more for a guard, ${eyes.length(sight_m)} of sight; brakes as the files have them.${told}`;
}

/** Of starting again. */
export const PULLING_NOT_TOLD =
  "The logged run does not tell how stiffly the train rolls, so starting again is by the sums alone";

/** Of stops, running on and standing. */
export const ROLLING_NOT_TOLD =
  "The logged run does not tell how freely the train rolls, so stops and standing are by the sums alone";
