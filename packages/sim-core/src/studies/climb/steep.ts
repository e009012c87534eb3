import { G_mps2 } from "../../parts/constants.js";
import { onTheLine } from "../../parts/track.js";
import { bendsFelt_m, curvesAt_N, gravityAt_N } from "../../train/line.js";
import type { Plan } from "../../train/plan.js";
import type { Train } from "../../train/train.js";
import { mustBeAsked } from "../asked.js";
import { type Way, waysOf } from "../ways.js";

/** Where the head of a standing train is while it feels more than a gradient; chainages, in the order it meets them. */
export interface Steep {
  direction: "out" | "back";
  from_m: number;
  /** Less than `from_m` across the first post of a circuit and on the way back of a line; a lap more all round. */
  to_m: number;
}

/**
 * The stretches on which the plan's train feels more than a gradient, under its own length and with curve resistance
 * added; out, and back on a line with ends.
 * @param share pull over weight, uphill +: 0.01 is 1 in 100
 */
export function steeperThan(plan: Plan, share: number): Steep[] {
  mustBeAsked({ share });
  return waysOf(plan).flatMap((way) => {
    const { track, back } = way;
    const chainage_m = (head_m: number) => (back ? track.length_m - head_m : onTheLine(track, head_m));
    return stretchesOf(way, share).map(([from_m, to_m]) => ({
      direction: back ? "back" : "out",
      from_m: chainage_m(from_m),
      to_m: to_m - from_m >= track.length_m ? chainage_m(from_m) + track.length_m : chainage_m(to_m),
    }));
  });
}

/** By the head, along the way. Between two bends what is felt changes evenly, so that where it crosses is exact. */
function stretchesOf({ train, track }: Way<Train>, share: number): [from_m: number, to_m: number][] {
  const weight_N = train.mass_kg * G_mps2;
  const over = (head_m: number) =>
    (gravityAt_N(train, track, head_m) + curvesAt_N(train, track, head_m)) / weight_N - share;
  const circuit = track.kind === "circuit";
  const bends_m = bendsFelt_m(train, track).map((head_m) => (circuit ? onTheLine(track, head_m) : head_m));
  const heads_m = [...new Set(bends_m)].sort((a, b) => a - b);
  const gentle = heads_m.findIndex((head_m) => over(head_m) <= 0);
  const first_m = heads_m[0];
  if (gentle < 0) return [[first_m, circuit ? first_m + track.length_m : heads_m[heads_m.length - 1]]];
  // Once round from where it is gentle, so that no stretch is cut in two at the first post.
  const along_m = circuit
    ? [...heads_m.slice(gentle), ...heads_m.slice(0, gentle + 1).map((head_m) => head_m + track.length_m)]
    : heads_m;
  const felt = along_m.map(over);
  const stretches: [from_m: number, to_m: number][] = felt[0] > 0 ? [[along_m[0], along_m[0]]] : [];
  for (let i = 1; i < along_m.length; i++) {
    const crosses_m = along_m[i - 1] + ((along_m[i] - along_m[i - 1]) * felt[i - 1]) / (felt[i - 1] - felt[i]);
    if (felt[i - 1] <= 0 && felt[i] > 0) stretches.push([crosses_m, along_m[i]]);
    else if (felt[i - 1] > 0) stretches[stretches.length - 1][1] = felt[i] > 0 ? along_m[i] : crosses_m;
  }
  return stretches;
}
