import type { CauseName } from "@rideon/sim-core";

const OFF = "Power off, isolator open, wheels chocked.";

/** What to do about each cause, safely. */
export const REMEDY: Readonly<Record<CauseName, string>> = {
  nothing_wrong: "Go on with the sheet: a reading not yet taken may still tell.",
  held_wheel: `${OFF} Chocks out only once you know which way it would roll; then look under every wheel and at every brake, chain and axle box, and turn each wheel by hand. Do not try again with more lever: a motor that stands under current cooks.`,
  dragging_brake_or_tight_chain: `${OFF} Brakes right off, and every chain given its slack at the tightest place of its turn. Feel brakes and axle boxes for warmth, spin each wheel off the rail, slacken or free what drags; then on stands and by the balance again.`,
  flat_battery:
    "Power off. Charge it fully with its own charger, let it rest for an hour, and read the volts again before anything else is changed.",
  old_battery:
    "Charge and rest it, then read the same again; if it still sags, the battery is done: replace the whole string alike. First make the joints at its posts clean and tight, isolator open.",
  bad_battery:
    "Charge each battery by itself, rest it, read it again. One that stays low is done: replace the string alike, and stop charging it in the string.",
  bad_joint: `${OFF} Feel nothing with power on: it burns. Clean and tighten every joint of that cable, crimps, isolator and breaker too; then read the volts along each lead once more, held back hard.`,
  open_circuit: `${OFF} Isolator, breaker or fuse, plugs, dead-man's switch, reverser, lever, brushes: the meter on ohms finds the gap, with the battery's last link out. Find out why a fuse blew before another goes in. Chocks stay in: it may leap away when the gap closes.`,
  current_limit_low:
    "Power off. Set the controller's current limit as the file has it, by its maker's papers, and see that it is not hot or in a limp mode.",
  cutout_set_wrong:
    "Power off. Set the controller's undervoltage cut-out as the file has it, by its maker's papers. Do not set it lower to get home: that ruins batteries.",
  wrong_sprocket_or_wheel: `${OFF} Count the teeth of every sprocket, count the motor's turns for ten of the wheel, measure the wheel; then change the part, or the file.`,
  wrong_battery_voltage:
    "Power off, last link out. Count the batteries and read each; wire the string as the file has it. Too many volts can wreck controller and motor: nothing more before that.",
  weak_magnets:
    "Run no further: it draws more for the same work and overheats. Have the motor's magnets and brushes looked at, by its maker if you can, and see whether it has been hot.",
  slipping_sprocket: `${OFF} Chalk across each sprocket and its shaft, turn by hand, look for a shifted mark; mend key, grub screw or chain before it is tried again.`,
  poor_grip:
    "Shut the lever. Wipe rail and tread: oil, leaves, dew. Try again gently, or on dry rail; more weight on driven wheels helps, more lever does not.",
  reversed_lead: `${OFF} Battery's last link out first. Swap the two leads at the motor (of a series motor those of its field alone), never those of battery or controller.`,
  heavier_train:
    "Weigh loco, cars and people, and put the figures in the files. With more on it than the files have it stops further on: no further runs before that.",
  head_wind:
    "Try again in still air, or write the wind into the sheet (wind, 7 m/s): every figure is then worked out with it.",
  steeper_place:
    "Chocks to hand. Level the place again, with its curve, and put the figures into the track's file; rideon brakes and climb change with it.",
  none_of_these:
    "Power off. Read the odd ones again with another meter, look for a slip of the pen or of the unit, and for two faults at once. Do not go on until it is understood.",
};
