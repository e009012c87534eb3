import { type DecidedBy, figures, type SupplyRow } from "@rideon/sim-core";
import type { Eyes } from "../../words/eyes.js";
import { table, wrap } from "../../words/table.js";

const NONE = "none";

/** What every voltage comes to, one beside the other. */
export function supplyTable(supplies: readonly SupplyRow[], { of }: Eyes, width: number): string[] {
  const amps = (value_A: number) => of(value_A, "current");
  const rows: [name: string, of: (row: SupplyRow) => string][] = [
    ["battery, in the mean", (row) => amps(row.battery_mean_current_A)],
    ["battery, rms", (row) => amps(row.battery_rms_current_A)],
    ["battery, on the steepest", (row) => amps(row.battery_ruling_current_A)],
    ["battery, starting away", (row) => amps(row.battery_peak_current_A)],
    ["motor's plate", (row) => amps(row.motor_continuous_current_A)],
    ["motor, starting away", (row) => amps(row.motor_peak_current_A)],
    ["controller, at least", (row) => amps(row.controller_current_A)],
    ["lead-acid battery", (row) => ampereHours(row.lead_acid_capacity_Ah)],
    ["or lifepo4 battery", (row) => ampereHours(row.lifepo4_capacity_Ah)],
    ["breaker", (row) => breaker(row, of)],
    ["battery cable", (row) => area(row.battery_cable_mm2, of)],
    ["motor cable", (row) => area(row.motor_cable_mm2, of)],
  ];
  const head = ["", ...supplies.map(({ voltage_V }) => of(voltage_V, "voltage"))];
  const cells = rows.map(([name, tell]) => [name, ...supplies.map(tell)]);
  const lines = table(cells, { width, head, right: supplies.map((_, i) => i + 1) });
  return cells.some((row) => row.includes(NONE))
    ? [...lines, ...wrap(`${NONE}: no usual size is large enough.`, width)]
    : lines;
}

/** What to buy at one voltage: what, how much, and how the rule behind it begins. */
export function supplyLines(row: SupplyRow, { of }: Eyes): [what: string, figures: string, rule: string][] {
  const at = `at ${of(row.voltage_V, "voltage")}`;
  return [
    [
      "battery",
      `${battery(row.lead_acid_capacity_Ah, "lead-acid", row.lead_acid_decided_by)} by the 20-hour label, or ${battery(row.lifepo4_capacity_Ah, "lifepo4", row.lifepo4_decided_by)}, ${at}`,
      "ampere-hours",
    ],
    ["controller", `limit of at least ${of(row.controller_current_A, "current")} in the motor, ${at}`, "controller"],
    ["breaker", `${breaker(row, of)}, ${at}; close to the battery, and made for direct current`, "breaker"],
    [
      "cables",
      `to the battery ${thick(row.battery_cable_mm2, of)}, to the motor ${thick(row.motor_cable_mm2, of)}, ${at}; rideon parts tells whether the first stands a short circuit of the batteries you buy`,
      "cables",
    ],
  ];
}

const ampereHours = (capacity_Ah: number | null): string =>
  capacity_Ah === null ? NONE : `${figures(capacity_Ah)} Ah`;

const battery = (capacity_Ah: number | null, of: string, by: DecidedBy): string =>
  `${capacity_Ah === null ? `no battery of ${of}` : `${figures(capacity_Ah)} Ah of ${of}`}${MORE_FOR[by]}`;

/** What asks for more than the reserve does. */
const MORE_FOR: Record<DecidedBy, string> = {
  reserve: "",
  rate: " (more than the reserve asks for: it is drawn too fast for less)",
  cut_out: " (more than the reserve asks for: with less the cut-out acts on a peak)",
};

const breaker = ({ breaker_rating_A, breaker_curve }: SupplyRow, of: Eyes["of"]): string =>
  breaker_rating_A === null ? NONE : `${of(breaker_rating_A, "current")} ${breaker_curve}`;

const area = (area_mm2: number | null, of: Eyes["of"]): string =>
  area_mm2 === null ? NONE : of(area_mm2, "cable_area");

const thick = (area_mm2: number | null, of: Eyes["of"]): string =>
  area_mm2 === null ? "none of the usual is thick enough" : area(area_mm2, of);
