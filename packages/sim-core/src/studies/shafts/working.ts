import { throughMeshes_N } from "../../drive/meshes.js";
import type { Observer } from "../../loop/stepper.js";
import * as at from "../../state.js";
import { lifeExponent } from "../../strength/bearing.js";
import { chainage_m, type Working } from "../../working.js";
import { bearingLoad_N, type LaidShaft } from "./layout.js";

/** What a working asked of one shaft. */
export interface Worked {
  peak_Nm: number;
  peak_at_s: number;
  peak_at_m: number;
  /** Turned through, rad; and the bearing's load to the power of its life, times that. */
  turned_rad: number;
  worn: number;
}

/**
 * Looks on at a working and keeps what each shaft carries: what is left of the motor's torque after the inertia before it,
 * either way.
 * @param weight_N on the wheels of the driven axle
 */
export function watchShafts(laid: readonly LaidShaft[], weight_N: number, axles: number) {
  const last = laid.length - 1;
  const carried_N = new Float64Array(laid.length);
  const torques_Nm = new Float64Array(laid.length);
  const worked = laid.map((): Worked => ({ peak_Nm: 0, peak_at_s: 0, peak_at_m: 0, turned_rad: 0, worn: 0 }));
  const look = (w: Working) => {
    const { now, mode, train } = w;
    const shaft_N = mode.rim === 0 ? restingShaft_N(w) : now.shaft_N - mode.rim * now.brakeShaft_N;
    throughMeshes_N(train.meshes, shaft_N, now.rimAcceleration_mps2, mode.rim, carried_N);
    for (let i = 0; i <= last; i++) {
      torques_Nm[i] = Math.abs(carried_N[i] * train.radius_m) / laid[i].ratio;
      if (torques_Nm[i] <= worked[i].peak_Nm) continue;
      worked[i].peak_Nm = torques_Nm[i];
      worked[i].peak_at_s = w.time_s;
      worked[i].peak_at_m = chainage_m(w);
    }
  };
  const observer: Observer = {
    step(w, from_s) {
      look(w);
      const rim_mps = w.mode.wheels === 0 ? w.y[at.SPEED] : w.y[at.RIM_SPEED];
      const axle_rad = (Math.abs(rim_mps) / w.train.radius_m) * (w.time_s - from_s);
      for (let i = 0; i <= last; i++) {
        const wheels_N = i === last ? weight_N : 0;
        const rail_N = i === last ? w.now.contact_N / axles : 0;
        const load_N = bearingLoad_N(laid[i], torques_Nm, wheels_N, rail_N);
        const turned_rad = axle_rad * laid[i].ratio;
        worked[i].turned_rad += turned_rad;
        worked[i].worn += load_N ** lifeExponent(laid[i].shaft.bearings.type) * turned_rad;
      }
    },
    change: look,
    event() {},
  };
  return { worked, observer };
}

/** At rest the motor's friction is against its torque, whichever way that is, and brakes on its shaft are taken to be off. */
function restingShaft_N({ now, train }: Working): number {
  const shaft_Nm = Math.sign(now.airGap_Nm) * Math.max(0, Math.abs(now.airGap_Nm) - train.motor.drag_Nm);
  return (shaft_Nm * train.gears.ratio) / train.radius_m;
}
