import { figures, formatPercent } from "@rideon/sim-core";
import type { Opened } from "../commands/opened.js";
import { plain } from "./terminal.js";

/** What ran: `Teasel and 2 cars, 6 passengers, 921 kg in all; 4 mph (1.79 m/s) on dry rail`. */
export function setting({ plan, reading, eyes }: Opened): string {
  const cars = plan.train.vehicles.length - 1;
  const name = plain(reading.loco.name);
  const train = cars === 0 ? name : `${name} and ${several(cars, "car")}`;
  const aboard = plan.passengers === 0 ? "no passengers" : several(plan.passengers, "passenger");
  const driven = Number.isNaN(plan.speed_mps) ? `lever held at ${figures(plan.lever)}` : eyes.speed(plan.speed_mps);
  const { rail = "dry", adhesion } = reading.plan.track;
  const grip = adhesion === undefined ? `${rail} rail` : `rail with a grip of ${figures(adhesion)}`;
  const charge = plan.charge === 1 ? "" : `; battery at ${formatPercent(plan.charge)}`;
  return `${train}, ${aboard}, ${eyes.of(plan.train.mass_kg, "mass")} in all; ${driven} on ${grip}${charge}`;
}

/** `1 lap`, `2 laps`. */
export const several = (count: number, what: string): string => `${count} ${what}${count === 1 ? "" : "s"}`;
