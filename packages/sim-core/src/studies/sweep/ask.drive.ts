import { check } from "../check/check.js";
import { type GearsRow, gears } from "../gears/gears.js";
import { shaftLines } from "../parts/drive.js";
import type { ShaftRow } from "../shafts/answer.js";
import { shafts } from "../shafts/shafts.js";
import type { Ask, Value } from "./asking.js";
import { type Judged, named, tightest } from "./tightest.js";

export const askCheck: Ask = ({ plan }) => {
  const answer = check(plan());
  return {
    figures: {
      ratio: answer.ratio,
      speed_at_rated_motor_speed_mps: answer.speed_at_rated_motor_speed_mps,
      speed_at_no_load_mps: answer.speed_at_no_load_mps,
      pull_at_current_limit_N: answer.pull_at_current_limit_N,
      grip_N: answer.grip_N,
      train_mass_kg: answer.train_mass_kg,
      ruling_gradient_compensated_percent: answer.ruling_gradient_compensated.gradient_percent,
      survey_good_enough: answer.survey?.good_enough ?? null,
    },
    trouble: null,
  };
};

export const askGears: Ask = ({ plan, teeth }) => {
  const { rows, own } = gears(plan(), teeth);
  const [chosen] = rows;
  return {
    figures: { ...gearing("chosen", chosen), ...gearing("own", own) },
    trouble: null,
    ...(chosen && { teeth: chosen.teeth }),
  };
};

/** `11/44 12/38`, from the motor to the axle; what there is none of has no figures, and will not do. */
function gearing(which: "own" | "chosen", row: GearsRow | undefined): Record<string, Value> {
  const whole = row?.outcome === "completed";
  const named: Record<string, Value> = {
    teeth: row && row.teeth.length > 0 ? row.teeth.map((pair) => pair.join("/")).join(" ") : null,
    ratio: row?.ratio ?? null,
    speed_mps: row?.speed_mps ?? null,
    restart_gradient_percent: row?.restart_gradient_percent ?? null,
    // Of a working that did not get round nobody knows what flows for long; what it came to was no less.
    rms_motor_current_A: row && whole ? row.rms_motor_current_A : null,
    peak_winding_temperature_C: row?.peak_winding_temperature_C ?? null,
    chain_margin: row?.chain_margin ?? null,
    faults: row?.faults.length ?? null,
    gears_will_do: row?.faults.length === 0,
  };
  return Object.fromEntries(Object.entries(named).map(([name, value]) => [`${which}_${name}`, value]));
}

export const askShafts: Ask = ({ plan }) => {
  const answer = shafts(plan());
  const { rows, outcome } = answer;
  const judged: Judged[] = [
    // A key stands among what fixes the sprockets, which `parts` lists no more of.
    ...shaftLines(answer)
      .filter(({ part }) => part !== "key")
      .map(({ part, place, margin, enough }) => ({ what: named(place, part), margin, enough })),
    ...rows.flatMap(({ shaft, fixings }) =>
      fixings.map(({ by, margin, least_margin, enough }) => ({
        what: named(shaft, by),
        margin: margin === null ? null : margin / least_margin,
        enough,
      })),
    ),
  ];
  const weakest = tightest(judged);
  const least_m = (kind: ShaftRow["shaft"]) => {
    const of = rows.filter(({ shaft }) => shaft === kind).map(({ least_diameter_m }) => least_diameter_m);
    return of.length === 0 ? null : Math.max(...of);
  };
  const axle = rows.find(({ shaft }) => shaft === "axle");
  return {
    figures: {
      least_shaft_margin: weakest?.margin ?? null,
      weakest_shaft: weakest?.what ?? null,
      motor_shaft_least_diameter_m: least_m("motor"),
      layshaft_least_diameter_m: least_m("layshaft"),
      axle_least_diameter_m: least_m("axle"),
      axle_worst_torque_Nm: axle?.torque.worst_Nm ?? null,
      shafts_will_do: judged.every(({ enough }) => enough === null)
        ? null
        : judged.every(({ enough }) => enough !== false),
    },
    trouble: outcome === "completed" ? null : outcome,
  };
};
