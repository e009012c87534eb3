import type { Notes } from "../../errors.js";
import { assume } from "../../errors.js";
import { CHAINS, USUAL_CHAIN } from "../../parts/chain.data.js";
import type { ChainSize } from "../../parts/chain.keys.js";
import { peakTension_N } from "../../parts/chain.load.js";
import type { Shaft } from "../../parts/shaft.js";
import { onBearings_N, type Place } from "../../strength/beam.js";
import type { Plan } from "../../train/plan.js";
import { everyShaft } from "../../train/shafts.js";

/** A sprocket on a shaft: whose torque makes its chain's pull, and how much each newton metre of that does. */
export interface Sprocket {
  readonly which: "driving" | "driven";
  readonly teeth: number;
  readonly chain: ChainSize;
  readonly place: Place;
  /** The shaft, counted from the motor, that drives its chain; N for each N m of it. */
  readonly by: number;
  readonly pull_NpNm: number;
}

/** A shaft as the sums need it. */
export interface LaidShaft {
  readonly shaft: Shaft;
  readonly kind: "motor" | "layshaft" | "axle";
  /** Turns for one of the axle, and the share of power from here to the rims. */
  readonly ratio: number;
  readonly efficiency: number;
  readonly sprockets: readonly Sprocket[];
}

/** Every shaft from the motor to the axle with what is on it. */
export function layOut({ train }: Plan, notes: Notes): LaidShaft[] {
  const { gears, shafts } = train;
  const { stages } = gears;
  const chains = stages.map(({ teeth, chain }, i) =>
    teeth ? assume<ChainSize>(notes, `loco.gears.${i + 1}.chain`, chain, USUAL_CHAIN) : undefined,
  );
  return everyShaft(shafts, notes).map((shaft, i): LaidShaft => {
    const after = stages.slice(i);
    return {
      shaft,
      kind: i === stages.length ? "axle" : i === 0 ? "motor" : "layshaft",
      ratio: after.reduce((product, stage) => product * stage.ratio, 1),
      efficiency: after.reduce((product, stage) => product * stage.efficiency, 1),
      sprockets: [
        ...sprocketOf(stages[i - 1]?.teeth, chains[i - 1], "driven", i - 1, shaft.driven),
        ...sprocketOf(stages[i]?.teeth, chains[i], "driving", i, shaft.driving),
      ],
    };
  });
}

/** Both ends of a chain pull alike: as its driving sprocket draws it. */
function sprocketOf(
  teeth: readonly [number, number] | undefined,
  chain: ChainSize | undefined,
  which: "driving" | "driven",
  by: number,
  place: Place,
): Sprocket[] {
  if (!teeth || !chain) return [];
  const pull_NpNm = peakTension_N(CHAINS[chain].pitch_m, teeth[0], 1);
  return [{ which, teeth: teeth[which === "driving" ? 0 : 1], chain, place, by, pull_NpNm }];
}

/** Radial load on the more loaded bearing, both chains as if they pulled one way beside it, and the wheels' share, N. */
export function bearingLoad_N(
  { sprockets }: LaidShaft,
  torques_Nm: ArrayLike<number>,
  weight_N: number,
  rail_N: number,
): number {
  let load_N = Math.hypot(weight_N, rail_N) / 2;
  for (const { by, pull_NpNm, place } of sprockets) {
    const { near_N, far_N } = onBearings_N(pull_NpNm * torques_Nm[by], place);
    load_N += Math.max(near_N, far_N);
  }
  return load_N;
}
