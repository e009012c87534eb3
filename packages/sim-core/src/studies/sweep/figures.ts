/** Questions whose key figures a sweep asks. */
export const SWEPT = [
  "run",
  "laps",
  "climb",
  "brakes",
  "limits",
  "gears",
  "size",
  "check",
  "shafts",
  "parts",
  "wiring",
] as const;
export type Swept = (typeof SWEPT)[number];

/** A key figure of a question: its unit stands at the end of its name. */
export interface SweptFigure {
  readonly name: string;
  readonly question: Swept;
  /** Which is better, where all else is equal; null where neither is, so that nothing is the best by it. */
  readonly better: "more" | "less" | null;
  /** Holds, or does not. */
  readonly holds?: true;
  /** A case in which it does not hold falls short of something. */
  readonly wanted?: true;
  /** Told in words, such as the teeth of sprockets. */
  readonly words?: true;
  /** Of the gearing that the plan has, or of the one that `gears` would choose: what one lacks is no lack of the other. */
  readonly gearing?: "own" | "chosen";
  /** The figure that `bands` has a band of, where it is this one. */
  readonly headline?: string;
}

type Kind = Omit<SweptFigure, "name" | "question" | "better">;

const told = (question: Swept, better: SweptFigure["better"], kind: Kind, names: readonly string[]): SweptFigure[] =>
  names.map((name) => ({ name, question, better, ...kind }));
const figure = (question: Swept, better: SweptFigure["better"], ...names: readonly string[]): SweptFigure[] =>
  told(question, better, {}, names);
const holds = (question: Swept, ...names: readonly string[]): SweptFigure[] =>
  told(question, "more", { holds: true, wanted: true }, names);
const words = (question: Swept, ...names: readonly string[]): SweptFigure[] =>
  told(question, null, { words: true }, names);
const banded = (question: Swept, better: "more" | "less", names: Readonly<Record<string, string>>): SweptFigure[] =>
  Object.entries(names).flatMap(([name, headline]) => told(question, better, { headline }, [name]));

/** Of a choice of sprockets, as a row of `gears` has it. */
const geared = (gearing: "own" | "chosen"): SweptFigure[] =>
  [
    ...words("gears", `${gearing}_teeth`),
    // Near the wanted speed is good: neither more nor less is.
    ...figure("gears", null, `${gearing}_ratio`, `${gearing}_speed_mps`),
    ...(gearing === "chosen"
      ? banded("gears", "more", { chosen_restart_gradient_percent: "restart_gradient_percent" })
      : figure("gears", "more", "own_restart_gradient_percent")),
    ...figure("gears", "less", `${gearing}_rms_motor_current_A`, `${gearing}_peak_winding_temperature_C`),
    ...figure("gears", "more", `${gearing}_chain_margin`),
    ...figure("gears", "less", `${gearing}_faults`),
    ...holds("gears", `${gearing}_gears_will_do`),
  ].map((each) => ({ ...each, gearing }));

/** What a sweep can tell of a case, question by question. */
export const SWEPT_FIGURES: readonly SweptFigure[] = [
  ...banded("run", "less", { time_s: "time_s", energy_Wh: "energy_Wh", peak_motor_current_A: "peak_motor_current_A" }),
  ...figure("run", "less", "peak_battery_current_A"),
  ...banded("run", "more", { lowest_battery_voltage_V: "lowest_battery_voltage_V" }),
  ...banded("run", "less", { peak_winding_temperature_C: "peak_winding_temperature_C" }),
  ...figure("run", "more", "top_speed_mps"),
  ...banded("laps", "more", { laps_to_reserve: "laps_to_reserve" }),
  ...figure("laps", "less", "energy_per_lap_Wh"),
  ...banded("laps", "less", { charge_per_lap_Ah: "charge_per_lap_Ah" }),
  ...banded("climb", "more", {
    passengers_it_can_restart: "passengers_it_can_restart",
    restart_gradient_percent: "restart_gradient_percent",
  }),
  ...holds("climb", "restarts"),
  ...banded("brakes", "less", { stops_m: "stop_m", runs_on_m: "run_on_m" }),
  ...words("brakes", "with_no_brake"),
  ...holds("brakes", "stops_in_sight"),
  ...figure("limits", "more", "most_aboard", "laps_to_plan_for"),
  ...holds("limits", "may_carry", "charge_lasts"),
  ...geared("chosen"),
  ...geared("own"),
  ...banded("size", "less", {
    motor_continuous_power_W: "motor_continuous_power_W",
    motor_peak_power_W: "motor_peak_power_W",
    starting_force_N: "starting_force_N",
    rail_energy_per_lap_Wh: "rail_energy_per_lap_Wh",
  }),
  ...figure("size", null, "wanted_ratio"),
  // Of a battery of 24 V, which is what `size` tells first.
  ...figure("size", "less", "battery_mean_current_24V_A", "lead_acid_24V_Ah", "lifepo4_24V_Ah"),
  ...figure("size", "less", "controller_24V_A", "breaker_24V_A", "battery_cable_24V_mm2", "motor_cable_24V_mm2"),
  ...figure("size", "less", "wanted_brake_N"),
  ...holds("size", "grips_dry"),
  ...told("size", "more", { holds: true }, ["grips_wet"]),
  ...holds("size", "sized_loco_runs", "all_to_be_had"),
  ...figure("check", null, "ratio"),
  ...figure("check", "more", "speed_at_rated_motor_speed_mps", "speed_at_no_load_mps"),
  ...figure("check", "more", "pull_at_current_limit_N", "grip_N"),
  ...figure("check", "less", "train_mass_kg", "ruling_gradient_compensated_percent"),
  ...holds("check", "survey_good_enough"),
  ...figure("shafts", "more", "least_shaft_margin"),
  ...words("shafts", "weakest_shaft"),
  ...figure(
    "shafts",
    "less",
    "motor_shaft_least_diameter_m",
    "layshaft_least_diameter_m",
    "axle_least_diameter_m",
    "axle_worst_torque_Nm",
  ),
  ...holds("shafts", "shafts_will_do"),
  ...figure("parts", "more", "least_part_margin"),
  ...words("parts", "tightest_part"),
  ...figure("parts", "less", "parts_needed", "parts_wanting"),
  ...figure("parts", "less", "breaker_to_buy_A", "battery_cable_to_buy_mm2", "motor_cable_to_buy_mm2"),
  ...figure("parts", "less", "brake_to_buy_N"),
  ...holds("parts", "parts_will_do"),
  ...figure("wiring", "less", "battery_cable_drop_percent", "motor_cable_drop_percent"),
  ...figure("wiring", null, "short_circuit_A"),
  ...figure("wiring", "less", "not_fitted"),
  ...holds("wiring", "wiring_will_do"),
];

export const figuresOf = (asked: readonly Swept[]): SweptFigure[] =>
  SWEPT_FIGURES.filter(({ question }) => asked.includes(question));
