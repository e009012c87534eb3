import { onTheLine, type Track } from "../../parts/track.js";
import { gravityAt_N } from "../../train/line.js";
import { airAt_N, partOf, type Rolling, rollingAt_N } from "../../train/rolling.js";
import type { Train } from "../../train/train.js";
import type { Way } from "../ways.js";
import type { PartedRow } from "./answer.js";

/** Places are looked at, and the part is followed, this far apart, m. */
const APART_m = 5;
const STEP_m = 0.25;
/** To and fro in a dip: what is left after so many turns matters to nobody. */
const MOST_TURNS = 8;

/**
 * What the part left behind does when each coupling parts, from everywhere, under way at the speed of the train: with
 * nothing on, and with every brake of its own. It is followed by energy along the line: gravity under its own length,
 * bearings, air, and its brakes as far as its wheels grip. No time passes before its brakes are on: whoever rides there
 * may be quick; a part without anybody has none.
 */
export const partedOn = (
  ways: readonly Way<Train>[],
  speedAt: (way: Way<Train>, head_m: number) => number,
): PartedRow[] =>
  couplings(ways[0].train).flatMap((coupling) => {
    const rows = (["none", "own"] as const).map((brakes) => worstOf(ways, coupling, brakes, speedAt));
    const braked = ways[0].train.brakes.some(({ service, vehicle }) => service && vehicle >= coupling);
    return braked ? rows : rows.slice(0, 1);
  });

const couplings = ({ vehicles }: Train): number[] => vehicles.slice(1).map((_, i) => i + 1);

function worstOf(
  ways: readonly Way<Train>[],
  coupling: number,
  brakes: "none" | "own",
  speedAt: (way: Way<Train>, head_m: number) => number,
): PartedRow {
  let worst: PartedRow | undefined;
  for (const way of ways) {
    const part = partLeft(ways[0].train, way.train, coupling, brakes);
    if (!part) continue;
    const first_m = way.track.kind === "circuit" ? 0 : way.train.length_m;
    for (let head_m = first_m; head_m <= way.track.length_m; head_m += APART_m) {
      const at_m = head_m - part.behind_m;
      const went = follow(part, way.track, at_m, speedAt(way, head_m));
      const row: PartedRow = {
        coupling,
        left: part.names,
        brakes,
        outcome: went.outcome,
        from_m: way.back ? way.track.length_m - at_m : onTheLine(way.track, at_m),
        direction: way.back ? "back" : "out",
        top_speed_mps: went.top_mps,
        rolls_m: went.outcome === "rolls_to_rest" || went.outcome === "stays" ? went.rolls_m : null,
      };
      if (!worst || worse(row, worst)) worst = row;
    }
  }
  return (
    worst ?? {
      coupling,
      left: [],
      brakes,
      outcome: "stays",
      from_m: null,
      direction: null,
      top_speed_mps: 0,
      rolls_m: null,
    }
  );
}

const RANK: Record<PartedRow["outcome"], number> = { stays: 0, rolls_to_rest: 1, goes_round: 2, leaves_the_line: 3 };

const worse = (a: PartedRow, b: PartedRow): boolean =>
  RANK[a.outcome] !== RANK[b.outcome]
    ? RANK[a.outcome] > RANK[b.outcome]
    : a.top_speed_mps !== b.top_speed_mps
      ? a.top_speed_mps > b.top_speed_mps
      : (a.rolls_m ?? 0) > (b.rolls_m ?? 0);

/** Vehicles left behind, and what holds them. */
interface Part {
  rolling: Rolling;
  names: string[];
  /** From the head of the whole train to the head of the part, m. */
  behind_m: number;
  /** Of its brakes, as far as its wheels grip, N. */
  brake_N: number;
}

/** What is behind a coupling as the train runs. On the way back propelled, that is what runs ahead: the part with no loco. */
function partLeft(madeUp: Train, train: Train, coupling: number, brakes: "none" | "own"): Part | undefined {
  // However the train runs, the part is what lies beyond the coupling from the loco.
  const ahead = train.loco !== 0;
  const of = ahead ? [0, train.vehicles.length - coupling] : [coupling, train.vehicles.length];
  const rolling = partOf(train, of[0], of[1]);
  if (rolling.vehicles.length === 0) return undefined;
  const grip_N = (vehicle: number) => train.adhesion.static * train.brakedAxles_N[vehicle];
  const own = new Map<number, number>();
  // Brakes name their vehicle by its place in the train as it was made up.
  const inPart = (vehicle: number) => rolling.vehicles.includes(madeUp.vehicles[vehicle]);
  for (const { vehicle, axle_N, service } of train.brakes)
    if (service && inPart(vehicle)) own.set(vehicle, (own.get(vehicle) ?? 0) + axle_N);
  const brake_N = [...own].reduce((sum, [vehicle, axle_N]) => sum + Math.min(axle_N, grip_N(vehicle)), 0);
  return {
    rolling,
    names: rolling.vehicles.map(({ name }) => name),
    behind_m: train.ends_m[of[0]],
    brake_N: brakes === "own" ? brake_N : 0,
  };
}

/**
 * From under way until it rests: forward as long as its speed lasts, and back down where nothing holds it.
 * m v dv = -(gravity + (rolling + air + brake) sign v) ds, in steps short beside any vehicle.
 */
export function follow(
  { rolling, brake_N }: Pick<Part, "rolling" | "brake_N">,
  track: Track,
  from_m: number,
  speed_mps: number,
) {
  const mass_kg = rolling.translating_kg;
  const holds_N = rolling.rolling_N + brake_N;
  const least_m = track.kind === "circuit" ? Number.NEGATIVE_INFINITY : rolling.length_m;
  const most_m = track.kind === "circuit" ? Number.POSITIVE_INFINITY : track.length_m;
  const hints = new Int32Array(rolling.ends_m.length);
  let [at_m, energy_J, way] = [from_m, (mass_kg * speed_mps ** 2) / 2, 1];
  let top_J = energy_J;
  for (let turns = 0; turns <= MOST_TURNS; ) {
    const pull_N = gravityAt_N(rolling, track, at_m, hints);
    if (energy_J <= 0) {
      if (Math.abs(pull_N) <= holds_N) break;
      way = pull_N > 0 ? -1 : 1;
      turns++;
    }
    const speed_mps = speedOf(energy_J, mass_kg);
    const against_N = rollingAt_N(rolling, speed_mps) + airAt_N(rolling, speed_mps) + brake_N;
    const next_J = energy_J - (way * pull_N + against_N) * STEP_m;
    at_m += way * (next_J < 0 && energy_J > 0 ? (STEP_m * energy_J) / (energy_J - next_J) : STEP_m);
    energy_J = Math.max(0, next_J);
    top_J = Math.max(top_J, energy_J);
    if (at_m > most_m || at_m < least_m)
      return {
        outcome: "leaves_the_line" as const,
        top_mps: speedOf(top_J, mass_kg),
        rolls_m: null,
      };
    if (Math.abs(at_m - from_m) > track.length_m)
      return { outcome: "goes_round" as const, top_mps: speedOf(top_J, mass_kg), rolls_m: null };
  }
  const rolls_m = Math.abs(at_m - from_m);
  // Did it roll back at all, or only run out its speed?
  const outcome = way < 0 || top_J > (mass_kg * speed_mps ** 2) / 2 ? ("rolls_to_rest" as const) : ("stays" as const);
  return { outcome, top_mps: speedOf(top_J, mass_kg), rolls_m };
}

const speedOf = (energy_J: number, mass_kg: number): number => Math.sqrt((2 * energy_J) / mass_kg);
