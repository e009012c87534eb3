import type { PartName } from "../parts/answer.js";
import { parts } from "../parts/parts.js";
import { createSizing } from "../size/input.js";
import { size } from "../size/size.js";
import { USUAL_SUPPLY_V } from "../size/supply.js";
import { wiring } from "../wiring/wiring.js";
import type { Ask } from "./asking.js";
import { named, tightest } from "./tightest.js";

export const askSize: Ask = ({ files: { plan, loco, track, doubts } }) => {
  const sizing = createSizing(plan, loco, track, doubts ? { doubts } : {});
  const answer = size(sizing);
  const supply = answer.supplies.find(({ voltage_V }) => voltage_V === USUAL_SUPPLY_V);
  const { breaker_rating_A = null, battery_cable_mm2 = null, motor_cable_mm2 = null } = supply ?? {};
  const { lead_acid_capacity_Ah = null, lifepo4_capacity_Ah = null } = supply ?? {};
  const { brake_force_line_N } = answer;
  return {
    figures: {
      motor_continuous_power_W: answer.motor_continuous_power_W,
      motor_peak_power_W: answer.motor_peak_power_W,
      starting_force_N: answer.starting_force_N,
      rail_energy_per_lap_Wh: answer.rail_energy_per_lap_Wh,
      wanted_ratio: answer.ratio,
      battery_mean_current_24V_A: supply?.battery_mean_current_A ?? null,
      lead_acid_24V_Ah: lead_acid_capacity_Ah,
      lifepo4_24V_Ah: lifepo4_capacity_Ah,
      controller_24V_A: supply?.controller_current_A ?? null,
      breaker_24V_A: breaker_rating_A,
      battery_cable_24V_mm2: battery_cable_mm2,
      motor_cable_24V_mm2: motor_cable_mm2,
      wanted_brake_N: brake_force_line_N,
      grips_dry: answer.restarts_dry,
      grips_wet: answer.restarts_wet,
      sized_loco_runs: answer.day_not_run === null,
      // One battery of the two is enough.
      all_to_be_had:
        [breaker_rating_A, battery_cable_mm2, motor_cable_mm2, brake_force_line_N].every((each) => each !== null) &&
        (lead_acid_capacity_Ah ?? lifepo4_capacity_Ah) !== null,
    },
    trouble: null,
    warnings: sizing.notes.warnings,
  };
};

export const askParts: Ask = ({ files }) => {
  const { lines, needed, wanting, outcome } = parts(files);
  const round = outcome === "completed";
  const line = (part: PartName) => lines.find((each) => each.part === part);
  const least = tightest(
    lines.map(({ part, place, margin, enough }) => ({ what: named(place, part), margin, enough })),
  );
  const brake = line("brake");
  // Nothing is ordered by a working that did not get round.
  const ordered = (value: number | undefined) => (round ? (value ?? null) : null);
  return {
    figures: {
      least_part_margin: least?.margin ?? null,
      tightest_part: least?.what ?? null,
      parts_needed: needed,
      parts_wanting: wanting,
      breaker_to_buy_A: ordered(line("breaker")?.wanted.current_A),
      battery_cable_to_buy_mm2: ordered(line("battery_cable")?.wanted.area_mm2),
      motor_cable_to_buy_mm2: ordered(line("motor_cable")?.wanted.area_mm2),
      // Whether one that is there will do `brakes` tells.
      brake_to_buy_N: brake && !brake.have ? (brake.figures.force_N ?? null) : null,
      parts_will_do: wanting === 0,
    },
    trouble: round ? null : outcome,
  };
};

export const askWiring: Ask = ({ files }) => {
  const { path, cables, short_circuit_A, put_right_first, outcome } = wiring(files);
  const drop = (of: "battery" | "motor") => cables.find(({ cable }) => cable === of)?.drop_at_peak_percent ?? null;
  return {
    figures: {
      battery_cable_drop_percent: drop("battery"),
      motor_cable_drop_percent: drop("motor"),
      short_circuit_A,
      not_fitted: path.filter(({ fitted }) => !fitted).length,
      wiring_will_do: !put_right_first,
    },
    trouble: outcome === "completed" ? null : outcome,
  };
};
