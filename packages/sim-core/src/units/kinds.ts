import { cut } from "../errors.js";
import type { Dimension } from "../keys.js";
import type { Measure } from "./parse.js";
import type { Powers } from "./table.js";

/** What each dimension is called, which products of units it may be written in, and one right example. */
export interface Wanted {
  /** With its article, as an error says it. */
  called: string;
  /** Accepted powers; the angle of a rotation may be left unsaid where nobody says it. */
  powers: readonly Powers[];
  example: string;
  /** Units of the definition in one SI unit. */
  perSI?: number;
  /** Powers of which the inverse is read. */
  inverse?: readonly Powers[];
}

export const WANTED: Readonly<Record<Dimension, Wanted>> = {
  mass: { called: "a mass", powers: [[1, 0, 0, 0, 0, 0]], example: "140 kg" },
  length: { called: "a length", powers: [[0, 1, 0, 0, 0, 0]], example: "165 mm" },
  area: { called: "an area", powers: [[0, 2, 0, 0, 0, 0]], example: "0.7 m^2" },
  cable_area: { called: "an area", powers: [[0, 2, 0, 0, 0, 0]], example: "16 mm^2", perSI: 1e6 },
  speed: { called: "a speed", powers: [[0, 1, -1, 0, 0, 0]], example: "4 mph" },
  shaft_speed: { called: "a speed of rotation", powers: [[0, 0, -1, 0, 0, 1]], example: "2600 rpm" },
  acceleration: { called: "an acceleration", powers: [[0, 1, -2, 0, 0, 0]], example: "0.15 m/s^2" },
  time: { called: "a time", powers: [[0, 0, 1, 0, 0, 0]], example: "2 s" },
  voltage: { called: "a voltage", powers: [[1, 2, -3, -1, 0, 0]], example: "24 V" },
  current: { called: "a current", powers: [[0, 0, 0, 1, 0, 0]], example: "50 A" },
  power: { called: "a power", powers: [[1, 2, -3, 0, 0, 0]], example: "500 W" },
  resistance: { called: "a resistance", powers: [[1, 2, -3, -2, 0, 0]], example: "6 mohm" },
  charge: { called: "a charge", powers: [[0, 0, 1, 1, 0, 0]], example: "75 Ah" },
  force: { called: "a force", powers: [[1, 1, -2, 0, 0, 0]], example: "300 N" },
  torque: { called: "a torque", powers: [[1, 2, -2, 0, 0, 0]], example: "3 N m" },
  torque_constant: {
    called: "a torque constant",
    powers: [
      [1, 2, -2, -1, 0, 0],
      [1, 2, -2, -1, 0, -1],
    ],
    inverse: [[-1, -2, 2, 1, 0, 1]],
    example: "0.076 N m/A, 8 V/krpm or 125 rpm/V",
  },
  viscous_drag: {
    called: "a torque per speed of rotation",
    powers: [
      [1, 2, -1, 0, 0, 0],
      [1, 2, -1, 0, 0, -1],
    ],
    example: "0.0001 N m s",
  },
  inertia: { called: "a moment of inertia", powers: [[1, 2, 0, 0, 0, 0]], example: "0.002 kg m^2" },
  heat_capacity: { called: "a heat capacity", powers: [[1, 2, -2, 0, -1, 0]], example: "700 J/K" },
  thermal_resistance: { called: "a thermal resistance", powers: [[-1, -2, 3, 0, 1, 0]], example: "0.2 K/W" },
  temperature: { called: "a temperature", powers: [[0, 0, 0, 0, 1, 0]], example: "15 °C" },
  rate: { called: "a rate", powers: [[0, 0, -1, 0, 0, 0]], example: "0.9 1/h" },
  per_speed: { called: "a share per speed", powers: [[0, -1, 1, 0, 0, 0]], example: "0.001 s/m" },
};

/** Kinds that no key wants, for errors alone. */
const STRAYS: Readonly<Record<string, string>> = {
  "1,2,-2,0,0,0": "an energy or a torque",
  "0,3,0,0,0,0": "a volume",
  "0,0,0,0,0,0": "a pure number",
  "0,0,0,0,0,1": "an angle",
};

export const among = (powers: Powers, all: readonly Powers[] = []) => all.some((each) => `${each}` === `${powers}`);

/** What was found, in words: "a voltage". */
export const kindOf = ({ powers, unit }: Measure): string =>
  STRAYS[`${powers}`] ??
  Object.values(WANTED).find((w) => among(powers, w.powers))?.called ??
  `something in ${cut(unit)}`;
