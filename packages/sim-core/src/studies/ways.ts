import { type Leaning, leant, mirrored, type Track } from "../parts/track.js";
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
  /** How the doubt of the gradients is counted; not at all where absent. */
  readonly leaning?: Leaning;
}

/** Once round a circuit; out and back along a line, each way as the train then stands. */
export function waysOf<T extends Rolling>({ train, track, atEnds, wind_mps, leaning = 0 }: Line<T>): Way<T>[] {
  const out = { train, track: leant(track, leaning), wind_mps, back: false };
  if (track.kind === "circuit") return [out];
  const home = leant(mirrored(track), leaning);
  return [out, { train: turnedBack(train, atEnds), track: home, wind_mps: -wind_mps, back: true }];
}

/** The same way with the doubt of its gradients counted uphill, downhill, or not. */
export const leaningTo = <W extends { readonly track: Track }>(way: W, leaning: Leaning): W => {
  const track = leant(way.track, leaning);
  return track === way.track ? way : { ...way, track };
};

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
