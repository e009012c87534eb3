import type { EndedBy, Event, Outcome, Plan } from "@rideon/sim-core";
import { endInWords } from "./events.js";
import type { Eyes } from "./eyes.js";

/** How a working ended, as a sentence begins. */
export const OUTCOMES: Readonly<Record<Outcome, string>> = {
  completed: "Completed",
  stalled: "Stalled",
  slipping: "Stands slipping",
  flat: "Flat",
  overran: "Overran",
  ran_away: "Ran away",
  tripped: "Tripped",
  burnt_out: "The motor burnt out",
};

/** A day that has ended, of which plan, for whose eyes. */
interface Ended {
  plan: Plan;
  eyes: Eyes;
  answer: { events: readonly Event[] };
}

/** What ended a day: `an empty battery`; and what the train did: `it stalls`. */
interface EndingWords {
  what(ended: Ended): string;
  it: string;
}

export const ENDED_BY: Readonly<Record<EndedBy, EndingWords>> = {
  undervoltage: {
    what: ({ eyes, plan: { train } }) =>
      `the controller's cut-out, below ${eyes.of(train.controller.cutout_V, "voltage")} for ${eyes.of(train.controller.cutoutDelay_s, "time")}`,
    it: "is cut out by its controller",
  },
  empty: { what: () => "an empty battery", it: "has an empty battery" },
  battery_protection: {
    what: () => "the battery's own protection",
    it: "is cut off by the battery's own protection",
  },
  breaker: {
    what: ({ eyes, plan: { train } }) => `the ${eyes.of(train.breaker.rating_A, "current")} ${train.breaker.kind}`,
    it: "trips its breaker",
  },
  stalled: { what: () => "a stall (rideon run tells why)", it: "stalls" },
  slipping: { what: () => "spinning wheels (rideon run tells why)", it: "stands with its wheels spinning" },
  overran: {
    what: ({ answer, eyes }) => `running past where it should stand: ${endInWords(answer.events, eyes.exact)}`,
    it: "runs past the end of the line",
  },
  ran_away: { what: () => "running away backwards", it: "runs away backwards" },
  burnt_out: { what: () => "the motor burning out", it: "burns out its motor" },
  laps: { what: () => "the plan's laps", it: "has done its laps" },
  duration: { what: () => "the plan's duration", it: "has run for the plan's duration" },
  one_day: { what: () => "24 hours run", it: "has run for a whole day" },
};

/** That the train as planned does not get round, and what follows from that; nothing of one that does. */
export const stopsShort = (
  { outcome, ended_by }: { outcome: Outcome; ended_by: EndedBy | null },
  follows: string,
): string[] =>
  outcome === "completed"
    ? []
    : [`But the train as planned ${ended_by ? `${ENDED_BY[ended_by].it}, and ` : ""}does not get round. ${follows}`];
