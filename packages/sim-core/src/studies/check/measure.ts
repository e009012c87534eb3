import type { Measured } from "../../doubt/book.js";
import type { Plan } from "../../train/plan.js";

/** A figure that was assumed and is worth measuring. */
export interface ToMeasure {
  /** Key that would hold it. */
  path: string;
  how: Measured;
}

/**
 * What moves the answers most, first; common practice, no source. Rolling decides how many laps, how far it runs on and
 * what it pulls; grip and the load on driven wheels decide whether it starts again; the battery's health the day.
 */
const FIRST: readonly (readonly [key: RegExp, how: Measured])[] = [
  [/^loco\.resistance\.rolling$/, "pull"],
  [/^plan\.cars\.\d+\.rolling$/, "pull"],
  [/^loco\.brakes\.\d+\.(linkage_ratio|linkage_efficiency|block_friction)$/, "brake_pull"],
  [/^plan\.cars\.\d+\.brakes\.\d+\.(linkage_ratio|linkage_efficiency|block_friction)$/, "brake_pull"],
  [/^loco\.battery\.health$/, "discharge"],
  [/^loco\.wheels\.driven_share$/, "axle_loads"],
  [/^loco\.motor\..*no_load_current$/, "no_load_amps"],
  [/^plan\.passenger_mass$/, "weigh"],
  [/^misclosure$/, "levels"],
  [/^loco\.battery\.each\.resistance$/, "amps_and_volts"],
  [/^loco\.resistance\.breakaway$/, "starting_pull"],
  [/^plan\.charge$/, "rested_volts"],
  [/^plan\.reaction_time$/, "stopwatch"],
  [/^loco\.gears\.\d+\.efficiency$/, "turn_by_hand"],
];

const MOST = 5;

/** Five figures, at most, that were assumed and should be measured before the others; one of each kind. */
export function measureFirst({ notes: { assumed } }: Plan): ToMeasure[] {
  const found = FIRST.flatMap(([key, how]) => {
    const at = assumed.find((each) => key.test(each.key));
    return at ? [{ path: at.key, how }] : [];
  });
  return found.filter(({ how }, i) => found.findIndex((each) => each.how === how) === i).slice(0, MOST);
}
