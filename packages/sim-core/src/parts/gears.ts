import { assume, type Notes } from "../errors.js";
import type { LocoDefinition } from "./files.keys.js";

/** The drive from motor to axle: chain stages or a closed gearbox, one after another. */
export interface Gears {
  /** Turns of the motor for one of the axle. */
  readonly ratio: number;
  /** Share of the power that comes through all stages. */
  readonly efficiency: number;
  /** Inertia of the layshafts, seen from the axle. */
  readonly inertia_kgm2: number;
  readonly stages: readonly Stage[];
}

export interface Stage {
  readonly ratio: number;
  readonly efficiency: number;
  readonly teeth: readonly [driving: number, driven: number] | undefined;
}

const CHAIN_EFFICIENCY = 0.97;
const GEARBOX_EFFICIENCY = 0.9;
const LAYSHAFT_kgm2 = 0.002;

export function createGears(definition: LocoDefinition["gears"], notes: Notes): Gears {
  const stages = definition.map((stage, i) => {
    const path = `loco.gears.${i + 1}`;
    return {
      teeth: stage.teeth,
      ratio: stage.ratio ?? (stage.teeth ? stage.teeth[1] / stage.teeth[0] : 1),
      efficiency: assume(
        notes,
        `${path}.efficiency`,
        stage.efficiency,
        stage.teeth ? CHAIN_EFFICIENCY : GEARBOX_EFFICIENCY,
      ),
    };
  });
  let inertia_kgm2 = 0;
  let toAxle = 1;
  for (let i = stages.length - 1; i >= 0; i--) {
    const fallback = i === stages.length - 1 ? 0 : LAYSHAFT_kgm2;
    const driven = assume(
      notes,
      `loco.gears.${i + 1}.driven_inertia`,
      definition[i].driven_inertia_kgm2,
      fallback,
      "kg m²",
    );
    inertia_kgm2 += driven * toAxle ** 2;
    toAxle *= stages[i].ratio;
  }
  const efficiency = stages.reduce((product, stage) => product * stage.efficiency, 1);
  return { ratio: toAxle, efficiency, inertia_kgm2, stages };
}

/**
 * Force at the rim from a torque on the motor's shaft. The loss follows the power: a torque that drives the way the rim
 * turns (`way`) arrives smaller, one that the rim must drive is felt larger.
 */
export const rim_N = (gears: Gears, radius_m: number, shaft_Nm: number, way: number): number => {
  const lossless_N = (shaft_Nm * gears.ratio) / radius_m;
  return lossless_N * way >= 0 ? lossless_N * gears.efficiency : lossless_N / gears.efficiency;
};
