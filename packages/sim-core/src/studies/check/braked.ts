import type { Brake } from "../../parts/brakes.js";
import type { Plan } from "../../train/plan.js";
import type { Train } from "../../train/train.js";
import { railsOf } from "../brakes/sets.js";

/** One brake of the train, alike on every vehicle of its row. */
export interface BrakeAnswer {
  /** What it is on, and on how many of these. */
  vehicle: string;
  count: number;
  /** Fully on, of one vehicle. */
  rail_force_N: number;
  use: "service" | "parking" | "both";
  by: "driver" | "guard";
  on_dead_man: boolean;
  /** Share that this brake alone, fully on, asks of its wheels' grip: above 1 they lock. */
  grip_asked: { rail: string; share: number; locks: boolean }[];
}

/** Every brake described, on the plan's rail and on wet rail. */
export function brakesFitted(plan: Plan): BrakeAnswer[] {
  const { train } = plan;
  const answers: BrakeAnswer[] = [];
  for (const brake of train.brakes) {
    const answer = brakeAnswer(brake, plan);
    const alike = answers.find((each) => sameBut(each, answer));
    if (alike && brake.vehicle > 0) alike.count++;
    else answers.push(answer);
  }
  return answers;
}

function brakeAnswer(brake: Brake, plan: Plan): BrakeAnswer {
  const { train } = plan;
  return {
    vehicle: train.vehicles[brake.vehicle].name,
    count: 1,
    rail_force_N: brake.rim_N + brake.axle_N,
    use: brake.service ? (brake.parking ? "both" : "service") : "parking",
    by: brake.by,
    on_dead_man: brake.onDeadMan,
    grip_asked: railsOf(plan).map(({ rail, adhesion }) => {
      const share = askedOf(brake, train) / adhesion.static;
      return { rail, share, locks: share > 1 };
    }),
  };
}

/** The grip that keeps its wheels from locking: the greater of what it asks of driven wheels and of others. */
function askedOf({ rim_N, axle_N, axleWeight_N }: Brake, { driven_N }: Train): number {
  const ofDriven = rim_N > 0 ? rim_N / driven_N : 0;
  const ofOthers = axle_N > 0 ? axle_N / axleWeight_N : 0;
  return Math.max(ofDriven, ofOthers);
}

const sameBut = ({ count: _, ...one }: BrakeAnswer, { count: __, ...other }: BrakeAnswer): boolean =>
  JSON.stringify(one) === JSON.stringify(other);
