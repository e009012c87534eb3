import { mirrored, type Track } from "../parts/track.js";
import { type Felt, gradientsFelt } from "../train/line.js";
import { type Rolling, turnedBack } from "../train/rolling.js";

/** A train on its line, running one way. */
export interface Way<T extends Rolling = Rolling> {
  readonly train: T;
  readonly track: Track;
  readonly wind_mps: number;
  /** Is this the way back of an end-to-end line? */
  readonly back: boolean;
}

interface Line<T extends Rolling> {
  readonly train: T;
  readonly track: Track;
  readonly atEnds: "propel" | "run-round" | "turn";
  readonly wind_mps: number;
}

/** Once round a circuit; out and back along a line, each way as the train then stands. */
export function waysOf<T extends Rolling>({ train, track, atEnds, wind_mps }: Line<T>): Way<T>[] {
  const out = { train, track, wind_mps, back: false };
  if (track.kind === "circuit") return [out];
  return [out, { train: turnedBack(train, atEnds), track: mirrored(track), wind_mps: -wind_mps, back: true }];
}

/** A gradient, and the way on which the train feels it; the chainage is counted from the first post either way. */
export interface Met<T extends Rolling> extends Felt {
  readonly way: Way<T>;
}

/** The steepest of one kind of gradient over all ways: the greatest climb, bare or with curves, or the greatest fall. */
export function steepest<T extends Rolling>(ways: readonly Way<T>[], kind: "up" | "compensated" | "down"): Met<T> {
  const met = ways.map((way): Met<T> => {
    const { share, chainage_m } = gradientsFelt(way.train, way.track)[kind];
    return { share, chainage_m: way.back ? way.track.length_m - chainage_m : chainage_m, way };
  });
  const way = kind === "down" ? -1 : 1;
  return met.reduce((most, each) => (way * each.share > way * most.share ? each : most));
}
