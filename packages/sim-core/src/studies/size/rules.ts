import { CP } from "../../defaults.js";
import { shown } from "../../errors.js";
import { batteryKeys } from "../../parts/battery.keys.js";
import { brakeKeys } from "../../parts/brakes.keys.js";
import { MOST_RATIO } from "../../parts/chain.js";
import { controllerKeys, gearKeys } from "../../parts/drive.keys.js";
import { WET_BRAKING } from "./braking.js";
import type { DayDraw } from "./day.js";
import { type Gearing, MOST_TORQUES, POWER_MARGIN } from "./drive.js";
import type { Sizing } from "./input.js";
import { CONTROLLER_MARGIN } from "./supply.js";

/** How each figure of a sizing is worked out, and who says so. */
export function rulesOf({ duration_s, reaction_s }: Sizing, gearing: Gearing, { notRun }: DayDraw): string[] {
  const whose =
    notRun === null
      ? "of the loco built to these figures and run here, simulated with its starts, stops and limits,"
      : `of the steady lap (the loco built to these figures was tried here and did not run: ${notRun})`;
  const kept = batteryKeys.use_down_to.default.value;
  const reserve = (chemistry: keyof typeof kept) => `${shown(100 * kept[chemistry])} %`;
  const chain = gearKeys.efficiency.default.value.chain;
  const standing_W = controllerKeys.standing_power.default.value;
  const { delay, build_up } = brakeKeys;
  return [
    "rail force: rolling, air, gravity and curves of the whole train at the plan's speed, as the run simulates them; limits, starts and stops left out, nothing given back downhill",
    "starting force: gravity, resistance and the mass with all that turns times the plan's acceleration, or breakaway where that is more (tractive effort of the traction texts: Theraja, Gupta, Dubey)",
    gearing.given
      ? "motor speed: what the given gears make of the plan's speed"
      : `ratio: the motor speed over the axle's at the plan's speed, in stages of at most ${MOST_RATIO} to 1 (chain makers' limit), ${chain} each (${CP})`,
    `continuous power: rms round the lap times ${POWER_MARGIN} (${CP}); rms because heat goes with its square (traction texts), good while a lap is no longer than a motor takes to warm, some minutes`,
    `and starting away takes at most ${MOST_TORQUES} times its torque, the wheels' need over what comes through the gears and its own rotor's inertia besides (Khurmi and Gupta, Theory of Machines, example 3.4): held at more than ${MOST_TORQUES} times its rated current a motor is soon too hot (${CP})`,
    "rule of thumb: 1/4 hp to 100 lb of loco (ridetrains.net, loco building)",
    `battery current: power over volts and motor efficiency, and ${standing_W} W for the controller; motor current: torque over rated torque times rated current`,
    `ampere-hours: the mean power ${whose} for ${shown(duration_s / 3600, "h")} at the volts the battery then has, so that of its label ${reserve("lead-acid")} of lead-acid and ${reserve("lifepo4")} of lifepo4 are left (reserves ${CP}), and more where it is drawn so fast, or gives way so far to a peak, that the cut-out would act; cold counted in (suppliers' data sheets)`,
    `controller: ${CONTROLLER_MARGIN} times the motor's current starting away (${CP})`,
    "breaker: battery rms at most 0.8 of the rating (a fuse of 1.25 times the lasting load, storagefaults.com), the ruling gradient's current at most 1.13 times it, the peak below its magnetic band (IEC 60898-1)",
    "cables: the battery's carries the breaker's rating, the motor's the controller's current (IEC 60364-5-52 table B.52, method B2, PVC at 30 °C); whether the battery's stands a short circuit until the breaker trips hangs on the batteries bought: ask parts then",
    `brake: stops within the sight distance after ${shown(reaction_s, "s")} of reaction, ${shown(delay.default.value, "s")} of delay and half of ${shown(build_up.default.value, "s")} build-up, no credit for rolling (by the rule; from everywhere here it is run, with bearings as free as they may be; s = v t + v²/2a, as in EN 14531, from memory); clubs ask for a stop within half the range of vision (Pennsylvania Live Steamers)`,
    `braked weight: ${WET_BRAKING} of it on wet rail (${CP}; tables give 0.05 to 0.15)`,
    "adhesive weight: force over grip, 0.25 dry (a table of traction texts; Koffman, 1948) and 0.15 wet",
  ];
}
