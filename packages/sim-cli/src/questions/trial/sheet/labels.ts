/** Where a reading was taken, by how its name begins, and what it is, by how it goes on. */
const WHERE: readonly (readonly [begins: string, words: string])[] = [
  ["stands_", "on stands"],
  ["held_", "held back gently"],
  ["most_", "held back hard"],
  ["walk_", "at a walk"],
  ["run_", "running on the level"],
  ["restart_", "on the steepest place"],
  ["stop_", "stopping distance"],
  ["parked_", "parked on the steepest place, it stays"],
  ["after_", "after the laps"],
];

const WHAT: Readonly<Record<string, string>> = {
  motor_amps: "current in the motor's cable",
  battery_amps: "current in the battery's cable",
  battery_volts: "volts at the battery",
  controller_volts: "volts at the controller",
  motor_volts: "volts at the motor",
  output_volts: "volts that the controller gives the motor",
  battery_drop: "volts lost between battery and controller",
  motor_drop: "volts lost between controller and motor",
  rpm_quarter: "turns of the wheel a minute at quarter lever",
  rpm_half: "turns of the wheel a minute at half lever",
  rpm_full: "turns of the wheel a minute at full lever",
  amps: "current",
  volts: "volts",
  pull: "pull",
  speed: "speed",
  forwards: "it goes forwards",
  dead_man: "the dead-man's switch stops it",
  slips: "the motor turns while the wheels stand",
  spins: "the wheels spin at full lever",
  cuts_out: "the controller shuts itself off",
  most_amps: "most current in the motor's cable",
  least_volts: "least volts at the battery",
  run_down: "time to run down",
  on: "distance run on",
  drag: "no brake on",
  electric: "electric brake on",
  loco: "loco's brake on",
  all: "every brake on",
  winding: "winding",
  case: "motor's case",
};

const WHOLE: Readonly<Record<string, string>> = {
  teeth: "the sprockets have the files' teeth",
  motor_turns: "turns of the motor for one of the wheel",
  wheel_diameter: "wheel across the tread",
  rest_volts: "volts of the battery at rest",
  look_chocks: "the chocks are out",
  look_brake: "every brake is off",
  look_isolator: "the isolator is closed",
  look_breaker: "the breaker or fuse is in and whole",
  look_dead_man: "the dead-man's switch is pressed",
  look_reverser: "the reverser is in gear",
  look_lever: "the lever was shut, then opened",
  look_clear: "nothing is under a wheel or in a chain",
  pushes: "it can be pushed by hand",
  stands_turn: "on stands, the driven wheels turn",
  moves: "lever opened, it moves",
  roll_loco_start: "pull to start the loco by hand",
  roll_loco: "pull to roll the loco by hand",
  roll_loco_steep: "pull to roll the loco up the steepest place",
  roll_train: "pull to roll the train by hand",
  roll_train_back: "pull to roll the train back by hand",
  level_rise: "rise of the level stretch in ten metres",
  steep_rise: "rise of the steepest place in ten metres",
  restarts: "it starts again on the steepest place",
  start_amps: "current as it just starts on the level",
};

const SHORT: Readonly<Record<string, string>> = {
  rest_volts: "the whole battery",
  stands_turn: "do the wheels turn at all?",
  stands_forwards: "do they turn forwards?",
  held_output_volts: "out of the controller",
  held_motor_volts: "at the motor",
  held_motor_drop: "lost along its two leads",
  held_motor_amps: "in the motor's cable",
  held_controller_volts: "into the controller",
  held_pull: "at the balance",
  roll_loco: "loco alone",
  roll_train: "whole train, driver aboard",
  moves: "does it move at all?",
  run_motor_amps: "in the motor's cable",
  run_controller_volts: "into the controller",
  restarts: "does it start again?",
};

/** A reading under the heading of its step, in a word or two. */
export function shortLabel(reading: string): string {
  const own = SHORT[reading];
  if (own) return own;
  const [begins] = WHERE.find(([start]) => reading.startsWith(start)) ?? [];
  return (begins && WHAT[reading.slice(begins.length)]) ?? readingLabel(reading);
}

/** A reading in words that stand by themselves; its name where there are none. */
export function readingLabel(reading: string): string {
  const numbered = /^(battery|chain)_(\d+)_(volts|slack)$/.exec(reading);
  if (numbered) return `${numbered[3]} of ${numbered[1]} ${numbered[2]}`;
  if (WHOLE[reading]) return WHOLE[reading];
  for (const [begins, where] of WHERE) {
    const what = reading.startsWith(begins) ? WHAT[reading.slice(begins.length)] : undefined;
    if (what) return `${where}, ${what}`;
  }
  return reading;
}
