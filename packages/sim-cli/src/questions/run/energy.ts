import type { EnergyBalance } from "@rideon/sim-core";

/** Where the energy went, from battery to rail. */
const GROUPS: readonly (readonly [name: string, ...terms: (keyof EnergyBalance)[]])[] = [
  ["inside the battery", "battery_recovery_J", "battery_knee_J", "battery_polarisation_J", "battery_resistance_J"],
  ["controller, lamps and cables", "standing_J", "controller_J", "battery_cable_J", "motor_cable_J"],
  ["motor: heat in the winding", "copper_J", "brushes_J"],
  ["motor: its own drag", "motor_drag_J"],
  ["chains and gears", "gears_J"],
  ["wheels slipping", "slip_J"],
  ["rolling", "rolling_J"],
  ["curves", "curves_J"],
  ["air", "air_J"],
  ["brakes", "brakes_J", "brake_resistor_J"],
  [
    "still in motion, height and battery",
    "kinetic_train_J",
    "kinetic_rim_J",
    "potential_J",
    "battery_polarisation_stored_J",
  ],
];

/** Not losses: the books' own totals, and the share left over. */
const TOTALS: readonly (keyof EnergyBalance)[] = ["drawn_J", "returned_J", "chemical_J", "shifted_J", "residual_share"];

/** Rows of what, Wh and share of all that the battery's chemistry gave. Nothing is left out: what is new goes under "other". */
export function energyRows(balance: EnergyBalance): string[][] {
  const known = new Set([...TOTALS, ...GROUPS.flatMap(([, ...terms]) => terms as (keyof EnergyBalance)[])]);
  const others = (Object.keys(balance) as (keyof EnergyBalance)[]).filter((term) => !known.has(term));
  const sum_J = (terms: readonly (keyof EnergyBalance)[]) => terms.reduce((sum, term) => sum + balance[term], 0);
  const amounts = [...GROUPS, ["other" as string, ...others] as const].map(([name, ...terms]) => ({
    name,
    amount_J: sum_J(terms as (keyof EnergyBalance)[]),
  }));
  const all_J = balance.chemical_J;
  const decimals = all_J < 3600 ? 3 : all_J < 100 * 3600 ? 2 : all_J < 1000 * 3600 ? 1 : 0;
  const row = (name: string, amount_J: number) => [
    name,
    `${(amount_J / 3600).toFixed(decimals)} Wh`,
    all_J > 0 ? `${((100 * amount_J) / all_J).toFixed(1)} %` : "",
  ];
  return [
    ...amounts
      .filter(({ amount_J }) => Math.abs(amount_J) >= SMALLEST * Math.abs(all_J))
      .map(({ name, amount_J }) => row(name, amount_J)),
    row("in all, out of the battery's chemistry", all_J),
  ];
}

/** Less than this share is not worth a line. */
const SMALLEST = 0.0005;
