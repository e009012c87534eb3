import { newNotes } from "../../errors.js";
import { sound } from "../../record/sound.js";
import { run } from "../../run.js";
import type { Plan } from "../../train/plan.js";
import { mustBeAsked } from "../asked.js";
import type { ShaftsAnswer, ShaftsRemark } from "./answer.js";
import { bearingOf } from "./bearing.js";
import { bearingLoad_N, layOut } from "./layout.js";
import { rimLoads } from "./loads.js";
import { shaftRow, torqueOf } from "./row.js";
import { watchShafts } from "./working.js";

export interface ShaftsOptions {
  step_s?: number;
  /** Hours of running that bearings are to last; 2000 h unless told. */
  life_h?: number;
}

/** Twenty years of a hundred hours: common practice, no source. */
const LIFE_h = 2000;

const RULES = [
  "worst torque: the least of what the motor brings at the controller's limit and what comes through with the wheels slipping on dry rail, or more where the working ran to more",
  "chain pull: torque over the smallest radius that the sprocket draws it at; the slack side is left out",
  "bending: every pull of a shaft as if it bent it one way at one place, and an axle's weight and pull at the rail beside its bearings",
  "diameter: d³ = 16/(π τ) √((Kb M)² + (Kt T)²), or by the greatest normal stress if that asks for more; τ the lesser of 0.30 yield and 0.18 tensile strength, 0.75 of it with a keyway (ASME's code for transmission shafting, as Sadhu Singh, Machine Design-I, prints it)",
  "key: shear on its whole width, crushing on half its height, at half the yield and the yield over 2.5 (Sadhu Singh, Machine Design-I, ex. 7.8); the hub no weaker than the shaft",
  "set screw: cup point by a published table, twice the worst torque (common practice, no source); taper bush: its maker's rating",
  "bearings: L10 = (C/P)^p of ISO 281, radial load alone, mean by turns over the working; side forces of curves are left out",
];

/**
 * What motor shaft, layshafts and axle carry, and whether they will do: the worst torque in the working as run, at the
 * controller's current limit and with the wheels slipping, and which of them governs; the pull of the chains and the
 * bending they make; the least diameter, with the factor of safety of the one that is given; key, set screw or bush; loads
 * and lives of bearings. Of a shaft that the loco file leaves out everything is assumed and listed.
 * @throws InputError where an option is wrong
 * @throws RunError where the working cannot be run to its end
 */
export function shafts(plan: Plan, options: ShaftsOptions = {}): ShaftsAnswer {
  mustBeAsked(options);
  const { step_s, life_h = LIFE_h } = options;
  const { train } = plan;
  const { radius_m, shafts: own } = train;
  const notes = newNotes(plan.notes);
  const laid = layOut(plan, notes);
  const found = rimLoads(plan);
  const { spinning: _, ...loads } = found;
  // What the wheels grip with they are loaded with, weight that the pull moves on to them counted in.
  const weight_N = Math.max(train.driven_N, loads.grip_N / loads.grip) / own.drivenAxles;
  const { worked, observer } = watchShafts(laid, weight_N, own.drivenAxles);
  const w = run(plan, { observers: [observer], ...(step_s === undefined ? {} : { step_s }) });
  const last = laid.length - 1;
  const disc_N = own.axleBrake_Nm / radius_m;
  const torques = laid.map((each, i) => torqueOf(each, found, i, worked[i], radius_m, i === last ? disc_N : 0));
  // A disc's torque goes from it to the wheels: the chain pulls no harder for it.
  const throughChains = laid.map((each, i) => torqueOf(each, found, i, worked[i], radius_m).worst_Nm);
  const rail_N = Math.min(torques[last].worst_Nm / radius_m, loads.grip_N) / own.drivenAxles;
  const rows = laid.map((each, i) => {
    const onWheels = i === last ? { weight_N, rail_N } : { weight_N: 0, rail_N: 0 };
    const worst_N = bearingLoad_N(each, throughChains, onWheels.weight_N, onWheels.rail_N);
    const bearing = bearingOf(each, worst_N, worked[i], w.time_s, life_h);
    return shaftRow(each, own.given[i] !== undefined, torques, i, onWheels, bearing);
  });
  return sound({
    outcome: w.outcome ?? "completed",
    loads,
    rows,
    rules: RULES,
    remarks: remarksOf(plan),
    assumed: notes.assumed,
  });
}

function remarksOf({ train: { gears, shafts: own } }: Plan): ShaftsRemark[] {
  const remarks: ShaftsRemark[] = ["motor_shaft"];
  if (gears.stages.some(({ teeth }) => !teeth)) remarks.push("closed_gearbox");
  if (own.drivenAxles > 1) remarks.push("coupled_axles");
  if (own.plain) remarks.push("plain_bearings");
  return remarks;
}
