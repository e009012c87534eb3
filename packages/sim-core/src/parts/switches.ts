import { assume, type Notes, shown } from "../errors.js";
import type { LocoDefinition } from "./files.keys.js";
import { switchKeys } from "./switches.keys.js";
import { LIMIT_SWITCH, ratedAt_A } from "./switches.ratings.js";

export const SWITCHES = ["isolator", "dead_man", "reverser"] as const;
export type SwitchName = (typeof SWITCHES)[number];

/** A switch as its data sheet has it; null: not given. */
export interface Switch {
  readonly name: SwitchName;
  readonly rating_A: number;
  readonly breaks_A: number | null;
  readonly voltage_V: number | null;
  readonly ac_V: number | null;
  readonly stands: "main" | "control";
}

/** The switches that the file gives, in the order of `SWITCHES`. Volts are looked at where the battery is known. */
export const createSwitches = (wiring: LocoDefinition["wiring"], notes: Notes): Switch[] =>
  SWITCHES.flatMap((name) => {
    const given = wiring?.[name];
    if (!given) return [];
    const stands = assume(notes, `loco.wiring.${name}.stands`, given.stands, switchKeys.stands.default);
    return [
      {
        name,
        rating_A: given.rating_A,
        breaks_A: given.breaks_A ?? null,
        voltage_V: given.voltage_V ?? null,
        ac_V: given.ac_voltage_V ?? null,
        stands,
      },
    ];
  });

/** What should be looked at of its ratings beside the highest volts of the battery. Codes are fixed. */
export function lookAtSwitches(switches: readonly Switch[], highest_V: number, notes: Notes): void {
  for (const { name, voltage_V, ac_V, breaks_A, stands } of switches) {
    const path = `loco.wiring.${name}`;
    const warn = (code: string, key: string, message: string) =>
      notes.warnings.push({ code, path: `${path}.${key}`, message });
    const wanted = `at least ${shown(highest_V, "V")}, the most that this battery comes to`;
    if (voltage_V === null && ac_V !== null) {
      const [ac_volts, ac_amps] = LIMIT_SWITCH.ac;
      const left_A = ratedAt_A(LIMIT_SWITCH.dc, highest_V);
      const such = `one rated ${ac_amps} A at ${ac_volts} V of it is rated ${left_A === null ? "nothing" : shown(left_A, "A")} on direct current at these volts`;
      const message = `${shown(ac_V, "V")} of alternating current say nothing for direct current, whose arc does not go out by itself: ${such} (Omron, limit switch D4MC). Give voltage and breaks as its maker rates it for direct current, for ${wanted}`;
      warn("switch_ac_only", "ac_voltage", message);
    } else if (voltage_V !== null && voltage_V < highest_V) {
      const message = `rated for ${shown(voltage_V, "V")} of direct current; wanted are ${wanted}. What it breaks at fewer volts says nothing for more, unless its data sheet means the volts printed on a battery: an arc that goes out at 30 V may burn on`;
      warn("switch_volts", "voltage", message);
    }
    if (stands === "main" && name !== "reverser" && breaks_A === null && (voltage_V !== null || ac_V === null)) {
      const message =
        "it is not said what direct current it can break; what it carries says nothing of that: give breaks";
      warn("switch_breaks_unknown", "rating", message);
    }
  }
}
