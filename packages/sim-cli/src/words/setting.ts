import { figures, formatPercent, type Plan, type PlanDefinition, type Rolling } from "@rideon/sim-core";
import { plain } from "../ground/plain.js";
import type { Opened, Ready } from "./ready.js";

/** What ran: `Teasel and 2 cars, 6 passengers, 921 kg in all; 4 mph (1.79 m/s) on dry rail`. */
export function setting({ plan, ...ready }: Opened): string {
  const driven = Number.isNaN(plan.speed_mps)
    ? `lever held at ${figures(plan.lever)}`
    : ready.eyes.speed(plan.speed_mps);
  return `${trainInWords(ready, plan.train)}; ${driven} on ${rail(ready.reading.plan)}${chargeInWords(plan)}`;
}

/** `Teasel and 2 cars, 6 passengers, 921 kg in all`. */
export function trainInWords({ reading, eyes }: Ready, { vehicles, mass_kg }: Rolling): string {
  const cars = vehicles.length - 1;
  const name = plain(reading.loco.name);
  const train = cars === 0 ? name : `${name} and ${several(cars, "car")}`;
  const { passengers = 0 } = reading.plan;
  const aboard = passengers === 0 ? "no passengers" : several(passengers, "passenger");
  return `${train}, ${aboard}, ${eyes.of(mass_kg, "mass")} in all`;
}

/** `dry rail`, `rail with a grip of 0.22`. */
export const rail = ({ track: { rail = "dry", adhesion } }: PlanDefinition): string =>
  adhesion === undefined ? `${rail} rail` : `rail with a grip of ${figures(adhesion)}`;

const chargeInWords = ({ charge }: Plan): string => (charge === 1 ? "" : `; battery at ${formatPercent(charge)}`);

/** `1 lap`, `2 laps`. */
export const several = (count: number, what: string): string => `${count} ${what}${count === 1 ? "" : "s"}`;
