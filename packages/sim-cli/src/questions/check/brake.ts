import { type BrakeAnswer, type ElectricBrakeAnswer, formatPercent } from "@rideon/sim-core";
import { plain } from "../../ground/plain.js";
import type { Opened } from "../../words/ready.js";

/** Rows of every brake: what it is on, its force, and what it asks of its wheels. What locks is said in capitals. */
export function brakeRows(
  brakes: readonly BrakeAnswer[],
  electric: ElectricBrakeAnswer | null,
  opened: Opened,
): string[][] {
  return [
    ...brakes.map((brake) => [on(brake), `${force(brake, opened)}; ${asks(brake)}`]),
    ...(electric === null ? [] : [["electric brake", electricInWords(electric, opened)]]),
  ];
}

function electricInWords(brake: ElectricBrakeAnswer, { eyes }: Opened): string {
  const force = `${brake.kind}, ${eyes.of(brake.force_N, "force")} at the rail at ${eyes.speed(brake.at_speed_mps)}`;
  const lowest = brake.lowest_returning_speed_mps;
  const returned =
    lowest === null
      ? "; the resistor takes it all"
      : `, ${eyes.of(brake.returned_A, "current")} back into the battery; below ${eyes.speed(lowest)} it returns nothing`;
  const now = brake.force_at_start_N;
  const full =
    now < MOST * brake.force_N
      ? `; but charged as it is at the start the battery takes ${now < LEAST * brake.force_N ? "next to nothing" : "less"}, and that leaves ${eyes.of(now, "force")}`
      : "";
  return `${force}${returned}${full}; not there with the breaker open or the battery off, and none for parking`;
}

/** A brake that gives this share of what it should is all there; and this one, not there. */
const MOST = 0.95;
const LEAST = 0.5;

const on = ({ vehicle, count }: BrakeAnswer): string =>
  count === 1 ? plain(vehicle) : `${plain(vehicle)}, each of ${count}`;

const USE = { service: "service only", parking: "parking only", both: "service and parking" } as const;

function force({ rail_force_N, use, by, on_dead_man }: BrakeAnswer, { eyes }: Opened): string {
  const deadMan = on_dead_man ? ", on with the dead-man's switch" : "";
  return `${eyes.of(rail_force_N, "force")} at the rail, the ${by}'s, ${USE[use]}${deadMan}`;
}

/** `asks 30 % of its wheels' grip on dry rail, 63 % on wet`; `… 120 % on wet: would LOCK its wheels there`. */
function asks({ grip_asked }: BrakeAnswer): string {
  const shares = grip_asked.map(({ rail, share }) => `${formatPercent(share)} on ${rail} rail`).join(", ");
  const locks = grip_asked.filter((each) => each.locks);
  const where = locks.length === grip_asked.length ? "" : ` on ${locks[0]?.rail} rail`;
  return `fully on it asks of its wheels' grip ${shares}${locks.length > 0 ? `: it would LOCK them${where}` : ""}`;
}
