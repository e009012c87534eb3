/** Questions whose key figures a sweep asks. */
export const SWEPT = ["run", "laps", "climb", "brakes", "limits"] as const;
export type Swept = (typeof SWEPT)[number];

/** A key figure of a question: its unit stands at the end of its name. */
export interface SweptFigure {
  readonly name: string;
  readonly question: Swept;
  /** Which is better, where all else is equal. */
  readonly better: "more" | "less";
  /** Holds, or does not. */
  readonly holds?: true;
  /** The figure that `bands` has a band of, where it is this one. */
  readonly headline?: string;
}

const figure = (question: Swept, better: "more" | "less", ...names: readonly string[]): SweptFigure[] =>
  names.map((name) => ({ name, question, better }));
const holds = (question: Swept, ...names: readonly string[]): SweptFigure[] =>
  names.map((name) => ({ name, question, better: "more", holds: true }));
const banded = (question: Swept, better: "more" | "less", names: Readonly<Record<string, string>>): SweptFigure[] =>
  Object.entries(names).map(([name, headline]) => ({ name, question, better, headline }));

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
  ...holds("brakes", "stops_in_sight"),
  ...figure("limits", "more", "most_aboard", "laps_to_plan_for"),
  ...holds("limits", "may_carry", "charge_lasts"),
];

export const figuresOf = (asked: readonly Swept[]): SweptFigure[] =>
  SWEPT_FIGURES.filter(({ question }) => asked.includes(question));
