import { assume, type Notes, quoted } from "../errors.js";
import { CHAIN_SIZES, type ChainSize } from "./chain.keys.js";
import { gearKeys } from "./drive.keys.js";
import type { LocoDefinition } from "./files.keys.js";

/** The drive from motor to axle: chain stages or a closed gearbox, one after another. */
export interface Gears {
  /** Turns of the motor for one of the axle. */
  readonly ratio: number;
  /** Share of the power that comes through all stages. */
  readonly efficiency: number;
  readonly stages: readonly Stage[];
}

/** One chain, or a closed gearbox where there are no teeth. */
export interface Stage {
  readonly ratio: number;
  readonly efficiency: number;
  readonly teeth: readonly [driving: number, driven: number] | undefined;
  /** Inertia of all that turns with the driven wheel. */
  readonly drivenInertia_kgm2: number;
  /** For the chain checks, where the file gives them. */
  readonly chain: ChainSize | undefined;
  readonly centres_m: number | undefined;
}

type StageDefinition = LocoDefinition["gears"][number];

export function createGears(definition: LocoDefinition["gears"], notes: Notes): Gears {
  const { chain, gearbox } = gearKeys.efficiency.default.value;
  const { layshaft_kgm2, last_kgm2 } = gearKeys.driven_inertia.default.value;
  return assembleGears(
    definition.map((stage, i) => {
      const path = `loco.gears.${i + 1}`;
      const { teeth, efficiency, driven_inertia_kgm2 } = stage;
      const inertia_kgm2 = i === definition.length - 1 ? last_kgm2 : layshaft_kgm2;
      return {
        teeth,
        ratio: stage.ratio ?? (teeth ? teeth[1] / teeth[0] : 1),
        efficiency: assume(notes, `${path}.efficiency`, efficiency, teeth ? chain : gearbox),
        drivenInertia_kgm2: assume(notes, `${path}.driven_inertia`, driven_inertia_kgm2, inertia_kgm2),
        chain: knownChain(stage, path, notes),
        centres_m: stage.centres_m,
      };
    }),
  );
}

/** The stage's chain, if it is one of the sizes known; a closed gearbox has none. */
function knownChain({ teeth, chain, centres_m }: StageDefinition, path: string, notes: Notes): ChainSize | undefined {
  const refuse = (key: string, message: string) => void notes.problems.push({ path: `${path}.${key}`, message });
  if (!teeth) {
    const message = "this goes with teeth: nothing is known of what is inside a closed gearbox";
    if (chain !== undefined) refuse("chain", message);
    if (centres_m !== undefined) refuse("centres", message);
    return undefined;
  }
  const size = CHAIN_SIZES.find((known) => known === chain?.toUpperCase());
  if (chain !== undefined && !size) {
    refuse("chain", `${quoted(chain)} is not a chain size known here: ${CHAIN_SIZES.join(", ")}`);
  }
  return size;
}

/** The whole drive from its stages, motor first. */
export function assembleGears(stages: readonly Stage[]): Gears {
  let ratio = 1;
  let efficiency = 1;
  for (const stage of stages.toReversed()) {
    ratio *= stage.ratio;
    efficiency *= stage.efficiency;
  }
  return { ratio, efficiency, stages };
}

/**
 * Force at the rim from a torque on the motor's shaft while nothing speeds up. The loss follows the power: a torque that drives the way the rim
 * turns (`way`) arrives smaller, one that the rim must drive is felt larger.
 */
export const rim_N = (gears: Gears, radius_m: number, shaft_Nm: number, way: number): number => {
  const lossless_N = (shaft_Nm * gears.ratio) / radius_m;
  return lossless_N * way >= 0 ? lossless_N * gears.efficiency : lossless_N / gears.efficiency;
};
