import { type BrakeWanted, figures, formatPercent } from "@rideon/sim-core";
import { table, wrap } from "../../words/table.js";
import type { BrakesTold } from "./sets.js";

/** Where no service brake is fitted: the one that would do, and whether the wheels can pass it on. */
export function wantedLines(told: BrakesTold, width: number): string[] {
  const { answer, plan, eyes } = told;
  if (answer.worst.length === 0 || plan.train.brakes.some(({ service }) => service)) return [];
  const wanted = answer.brake_wanted;
  if (wanted) return [...wrap(inHand(wanted, told), width), ...gripTable(wanted, told, width)];
  const bare = answer.beyond_sight.filter(({ brakes }) => brakes === "none");
  const sight = eyes.length(answer.sight_m);
  return bare.every(({ places }) => places.length === 0)
    ? wrap(
        `At this speed it stops within ${sight} by itself; a brake is wanted all the same, to hold it standing.`,
        width,
      )
    : wrap(
        `None stops it within ${sight} from everywhere: while the driver reacts and the brake comes on it runs past. Run slower, or see further.`,
        width,
      );
}

function inHand(wanted: BrakeWanted, { answer, eyes }: BrakesTold): string {
  const { rail_force_N, hand_force_N, linkage_ratio, linkage_efficiency, block_friction, delay_s, build_up_s } = wanted;
  const newtons = (force_N: number) => eyes.of(force_N, "force");
  const on = `fully on ${eyes.of(delay_s + build_up_s, "time")} after the driver acts`;
  const linkage = `a linkage of ${figures(linkage_ratio)} to 1 that passes on ${formatPercent(linkage_efficiency)}, and blocks with a friction of ${figures(block_friction)}`;
  return `${newtons(rail_force_N)} at the rail, ${on}, would stop it within ${eyes.length(answer.sight_m)} from everywhere: ${newtons(hand_force_N)} of the hand through ${linkage} (common practice, no source).`;
}

const BRAKED = { loco: "loco's wheels all braked", all: "train's wheels all braked" } as const;

const gripTable = ({ grip }: BrakeWanted, { eyes }: BrakesTold, width: number): string[] =>
  table(
    grip.map(({ braked, rail, grip_N, enough }) => [
      BRAKED[braked],
      rail,
      `grips ${eyes.of(grip_N, "force")}`,
      enough ? "enough" : "NOT enough",
    ]),
    { width },
  );
