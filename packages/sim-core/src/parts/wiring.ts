import { assume, type Notes } from "../errors.js";
import { COPPER_pK } from "./constants.js";
import { wiringKeys as usually } from "./drive.keys.js";
import type { LocoDefinition } from "./files.keys.js";

/** Cables, and what is always on besides the controller. */
export interface Wiring {
  readonly batteryCable_ohm: number;
  readonly motorCable_ohm: number;
  readonly batteryCable_mm2: number;
  readonly motorCable_mm2: number;
  readonly accessories_W: number;
}

/**
 * IEC 60228, class 5 (flexible), plain copper: greatest resistance at 20 °C in ohm per km against nominal area in mm².
 * 1.5 to 70 mm² agree in three published copies; the sizes either side are from memory.
 */
const CLASS_5_ohmpkm: ReadonlyMap<number, number> = new Map([
  [0.5, 39],
  [0.75, 26],
  [1, 19.5],
  [1.5, 13.3],
  [2.5, 7.98],
  [4, 4.95],
  [6, 3.3],
  [10, 1.91],
  [16, 1.21],
  [25, 0.78],
  [35, 0.554],
  [50, 0.386],
  [70, 0.272],
  [95, 0.206],
  [120, 0.161],
]);

/** Annealed copper at 20 °C (IEC 60028). */
const COPPER_ohmmm2pkm = 17.241;

export function createWiring(definition: LocoDefinition["wiring"], air_degC: number, notes: Notes): Wiring {
  const at = "loco.wiring";
  const { battery_cable, motor_cable } = definition ?? {};
  const { length, area } = usually.battery_cable.keys;
  const usual_m = length.default.value;
  const battery_m = assume(notes, `${at}.battery_cable.length`, battery_cable?.length_m, usual_m.battery_m);
  const battery_mm2 = assume(notes, `${at}.battery_cable.area`, battery_cable?.area_mm2, area.default);
  const motor_m = assume(notes, `${at}.motor_cable.length`, motor_cable?.length_m, usual_m.motor_m);
  const motor_mm2 = assume(notes, `${at}.motor_cable.area`, motor_cable?.area_mm2, area.default);
  return {
    batteryCable_ohm: cable_ohm(battery_m, battery_mm2, air_degC),
    motorCable_ohm: cable_ohm(motor_m, motor_mm2, air_degC),
    batteryCable_mm2: battery_mm2,
    motorCable_mm2: motor_mm2,
    accessories_W: assume(notes, `${at}.accessories`, definition?.accessories_W, usually.accessories.default),
  };
}

/** Copper at a temperature; `perKelvin_pK` is the share of its resistance at 20 °C. */
export const copper_ohm = (at20_ohm: number, copper_degC: number, perKelvin_pK = COPPER_pK): number =>
  at20_ohm * (1 + perKelvin_pK * (copper_degC - 20));

/**
 * Resistance of a copper cable, `length_m` there and back. Nominal areas by IEC 60228 class 5; any other (AWG too) as
 * solid copper of that area, which leaves out the few percent that stranding adds.
 */
export const cable_ohm = (length_m: number, area_mm2: number, copper_degC: number): number => {
  const at20_ohmpkm = CLASS_5_ohmpkm.get(area_mm2) ?? COPPER_ohmmm2pkm / area_mm2;
  return copper_ohm((at20_ohmpkm * length_m) / 1000, copper_degC);
};

/** Current of a dead short: e.m.f. over all the resistances in the loop. */
export const shortCircuit_A = (emf_V: number, loop_ohm: number): number => emf_V / loop_ohm;

/** I² t that a PVC cable stands: (115 A s½/mm² × area)², from memory, IEC 60364-4-43. */
export const withstand_A2s = (area_mm2: number): number => (115 * area_mm2) ** 2;

/**
 * Current a copper cable carries steadily: IEC 60364-5-52 table B.52, method B2, three loaded PVC cores at 30 °C, as quoted
 * in compressor installation manuals. In mm² and A; 1.5 and 2.5 mm² from memory.
 */
const CARRIES_A: readonly (readonly [mm2: number, A: number])[] = [
  [1.5, 15],
  [2.5, 20],
  [4, 27],
  [6, 34],
  [10, 46],
  [16, 62],
  [25, 80],
  [35, 99],
  [50, 118],
  [70, 149],
];

/** Current for an area: that of the next smaller size listed, so on the safe side. */
export const carries_A = (area_mm2: number): number => CARRIES_A.findLast(([mm2]) => mm2 <= area_mm2 * 1.001)?.[1] ?? 0;
