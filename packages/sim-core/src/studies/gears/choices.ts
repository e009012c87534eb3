import { meshesOf } from "../../drive/meshes.js";
import { ADVISED_TEETH } from "../../parts/chain.js";
import { gearKeys } from "../../parts/drive.keys.js";
import type { LocoDefinition } from "../../parts/files.keys.js";
import { assembleGears, type Gears, type Stage } from "../../parts/gears.js";
import { type Train, withMeshes } from "../../train/train.js";

/** Teeth of a driving and a driven sprocket. */
export type Pair = readonly [driving: number, driven: number];

/** Teeth that a sprocket can have. */
export const isSprocket = (teeth: unknown): boolean =>
  Number.isInteger(teeth) && (teeth as number) >= 5 && (teeth as number) <= 200;

/** The sizes to choose from, each once, as often as wanted. */
export const sizesOf = (teeth: readonly number[]): number[] => [...new Set(teeth)].sort((a, b) => a - b);

/** Sprockets to gear with, from the motor to the axle, and the ratio they make. */
export interface Choice {
  readonly pairs: readonly Pair[];
  readonly ratio: number;
}

/** Every way to gear down, in one stage (one to one too) and in two, with driving sprockets up to a size. */
export function choicesOf(sizes: readonly number[], mostDriving = Number.POSITIVE_INFINITY): Choice[] {
  const one = sizes
    .filter((driving) => driving <= mostDriving)
    .flatMap((driving) => sizes.filter((driven) => driven >= driving).map((driven): Pair => [driving, driven]))
    .map((pair) => ({ pairs: [pair], ratio: pair[1] / pair[0] }));
  const reducing = one.filter(({ ratio }) => ratio > 1);
  const two = reducing.flatMap((first) =>
    reducing.map((second) => ({ pairs: [...first.pairs, ...second.pairs], ratio: first.ratio * second.ratio })),
  );
  return [...one, ...two];
}

/** Choices whose ratios lie within a share of the least among them, together; in order of ratio. */
export function alike(choices: readonly Choice[], within: number): Choice[][] {
  const groups: Choice[][] = [];
  let most = 0;
  for (const choice of choices.toSorted((a, b) => a.ratio - b.ratio)) {
    if (groups.length > 0 && choice.ratio <= most) groups[groups.length - 1].push(choice);
    else {
      groups.push([choice]);
      most = choice.ratio * (1 + within);
    }
  }
  return groups;
}

/** Which of two like choices a builder would rather have: fewer stages, then none under 12 teeth, then smaller sprockets. */
export function rather(a: Choice, b: Choice): number {
  const rough = ({ pairs }: Choice) => (pairs.some(([driving]) => driving < ADVISED_TEETH) ? 1 : 0);
  const teeth = ({ pairs }: Choice) => pairs.reduce((sum, [driving, driven]) => sum + driving + driven, 0);
  return a.pairs.length - b.pairs.length || rough(a) - rough(b) || teeth(a) - teeth(b);
}

/**
 * The loco's drive with other sprockets. Closed gearboxes stay where they are and chains take the places of the chains
 * there were; one more comes last. A chain is like the one in its place, or the last there is; a layshaft weighs what the
 * first one does.
 */
export function fitted(own: Gears, pairs: readonly Pair[]): Gears {
  const chains = own.stages.filter((stage) => stage.teeth);
  const fittings = pairs.map((teeth, i): Stage => {
    const like = chains[i] ?? chains[chains.length - 1];
    return {
      teeth,
      ratio: teeth[1] / teeth[0],
      efficiency: like?.efficiency ?? gearKeys.efficiency.default.value.chain,
      drivenInertia_kgm2: 0,
      chain: like?.chain,
      centres_m: chains[i]?.centres_m,
    };
  });
  const left = [...fittings];
  const stages = own.stages.flatMap((stage) => (stage.teeth ? left.splice(0, 1) : [stage])).concat(left);
  const axle_kgm2 = own.stages[own.stages.length - 1].drivenInertia_kgm2;
  const usual_kgm2 = gearKeys.driven_inertia.default.value.layshaft_kgm2;
  const layshaft_kgm2 = own.stages.length > 1 ? own.stages[0].drivenInertia_kgm2 : usual_kgm2;
  return assembleGears(
    stages.map((stage, i) => ({
      ...stage,
      drivenInertia_kgm2: i === stages.length - 1 ? axle_kgm2 : layshaft_kgm2,
    })),
  );
}

/** The same of the loco file's own stages, for a loco that is made anew: what it leaves out stays left out. */
export function fittedInto(own: LocoDefinition["gears"], pairs: readonly Pair[]): LocoDefinition["gears"] {
  const chains = own.filter(({ teeth }) => teeth);
  const { chain, efficiency } = chains[chains.length - 1] ?? {};
  const like = { ...(chain !== undefined && { chain }), ...(efficiency !== undefined && { efficiency }) };
  const left = pairs.map((teeth, i) => (chains[i] ? { ...chains[i], teeth } : { ...like, teeth }));
  return own.flatMap((stage) => (stage.teeth ? left.splice(0, 1) : [stage])).concat(left);
}

/** The same train with another drive; what turns follows the ratio. */
export const regeared = (train: Train, gears: Gears): Train =>
  withMeshes({ ...train, gears }, meshesOf(gears, train.motor.inertia_kgm2, train.drivenWheels_kgm2, train.radius_m));
