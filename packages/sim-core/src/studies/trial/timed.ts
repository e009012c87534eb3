import type { AfterLaps, LapTaken } from "./laps.js";
import type { Machine, StepName } from "./machine.js";
import type { Setting } from "./setting.js";

/** The laps of a sound machine and one of them: what a machine with something wrong does after its laps is in proportion. */
export interface SoundLaps {
  readonly after: AfterLaps;
  readonly one: LapTaken;
}

/** Of the sound machine in these states; nothing where no reading is taken after the laps, or they are not finished. */
export function soundLaps(
  { m, after }: { m: Machine; after: () => AfterLaps | null },
  { setting, readings }: { setting: Setting; readings: readonly { readonly step: StepName }[] },
): SoundLaps | undefined {
  if (!readings.some(({ step }) => step === "after_laps")) return undefined;
  const [ten, one] = [after(), setting.lapOf(m)];
  return ten && one ? { after: ten, one } : undefined;
}

/**
 * After the laps with something wrong, from a single one of them: the charge used and the warmth gained are a sound
 * machine's times the ratio of what one lap takes. Near enough to tell causes apart, and ten times as quick.
 */
export function afterLapsLike(
  { after, one }: SoundLaps,
  m: Machine,
  { machine: sound, lapOf }: Setting,
): AfterLaps | null {
  const taken = lapOf(m);
  if (!taken) return null;
  const heat = taken.square_A2 / one.square_A2;
  const charge = m.charge - (sound.charge - after.charge) * (taken.used / one.used);
  if (charge <= 0) return null;
  return {
    charge,
    winding_degC: m.air_degC + (after.winding_degC - m.air_degC) * heat,
    case_degC: m.air_degC + (after.case_degC - m.air_degC) * heat,
  };
}
