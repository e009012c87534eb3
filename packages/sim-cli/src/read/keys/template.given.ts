/** What a file to start from gives: a value as written, a block, or a list of blocks. */
export type Given = { readonly [name: string]: string | Given | readonly Given[] };

/** The keys that a first loco file gives. The figures are invented. */
export const LOCO_GIVEN: Given = {
  name: "Hazel",
  gauge: "7 1/4 in",
  mass: "140 kg",
  wheels: { diameter: "165 mm", driven_axles: "1" },
  motor: { nameplate: { voltage: "24 V", current: "26.7 A", speed: "2600 rpm", power: "500 W" } },
  gears: [{ teeth: "[11, 55]" }, { teeth: "[9, 30]" }],
  controller: { motor_current_limit: "50 A" },
  battery: { chemistry: "lead-acid", in_series: "2", each: { voltage: "12 V", capacity: "75 Ah" } },
};

/** The keys that a first plan gives. The figures are invented. */
export const PLAN_GIVEN: Given = {
  loco: "loco.yaml",
  track: { profile: "track.csv" },
  cars: [{ mass: "60 kg", length: "1.8 m", seats: "3", count: "2" }],
  passengers: "4",
  speed: "4 mph",
};

/** Keys that are of no use one by one, and what to do with them instead. */
export const TOGETHER: ReadonlyMap<string, string> = new Map([
  ["motor.rated", "beside constants, bench or curve"],
  ["wheels.coupling_height", "both heights together"],
  ["wheels.gravity_height", "both heights together"],
  ["controller.brake_resistance", "with electric_brake: rheostatic"],
  ["controller.regen_current_limit", "with electric_brake: regenerative"],
  ["controller.regen_voltage_limit", "with electric_brake: regenerative"],
  ["motor.heat.winding_capacity", "all four in place of mass"],
  ["motor.heat.case_capacity", "all four in place of mass"],
  ["motor.heat.winding_to_case", "all four in place of mass"],
  ["motor.heat.case_to_air", "all four in place of mass"],
]);

/** A first profile. The track is invented. */
export const TRACK = `# An invented circuit: put your own survey in its place. A row for each post, along the rail, from the first
# post round to the first again. Heights are at the post; a radius or a limit holds from its post to the next; blank
# is straight, or no limit. In place of height_m: height_mm, height_ft, height_in, gradient_percent or gradient_1_in.
distance_m,height_m,radius_m,limit_mph,place
0,0.00,,,Station
60,0.20,25,,
100,0.60,,,Bank
150,1.10,20,4,Summit
190,1.10,,,
250,0.50,25,,
300,0.00,,,Station
`;
