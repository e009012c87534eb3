import { type Notes, shown } from "../errors.js";
import { fitMagnet, fitSeries } from "./motor.fit.js";
import { completeRating, type Definition, fluxAt, type MotorFigures, STAND_IN } from "./motor.rating.js";
import type { CurveRow } from "./motor.tables.js";

type Curve = NonNullable<Definition["curve"]>;

/** A permanent magnet has four figures, and a row gives two readings; the third is there to show a slip. */
const FEWEST_ROWS = 3;
/** A row missed by more than this, as a share of the volts or the greatest torque, is told (common practice, no source). */
const POOR = 0.05;

const rpm = (radps: number): string => shown((radps * 30) / Math.PI, "rpm");

/**
 * A measured or printed curve at one voltage, rows in any order. A permanent magnet's constants come out by least squares;
 * a series motor's flux is torque over current row by row, its resistance by least squares of the speeds. As with a
 * nameplate, what a series motor loses to friction is then inside its flux and resistance. The winding is taken as at 20 °C.
 */
export function fromCurve(
  curve: Curve,
  rows: readonly CurveRow[],
  kind: "permanent-magnet" | "series",
  rated: Definition["rated"],
  brush_V: number,
  notes: Notes,
): MotorFigures {
  const told = notes.problems.length;
  refuseRows(rows, curve.voltage_V, kind, notes);
  if (notes.problems.length > told) return STAND_IN;
  const supply_V = curve.voltage_V - brush_V;
  const fit = kind === "series" ? fitSeries(rows, supply_V) : fitMagnet(rows, supply_V);
  if (!fit) {
    const message = "its rows leave no volts for a resistance: does it slow down as the current rises?";
    notes.problems.push({ path: "loco.motor.curve.file", message });
    return STAND_IN;
  }
  tellMisses(fit, rows, supply_V, notes);
  // Rated current or speed alone will do: the curve has its volts.
  const both = rated?.current_A !== undefined && rated.speed_radps !== undefined;
  const rating = both ? rated : { voltage_V: curve.voltage_V, ...rated };
  return { ...fit, rated: completeRating(fit, rating, brush_V, notes) };
}

/** Whatever in the rows no motor can do, each at its row. */
function refuseRows(rows: readonly CurveRow[], voltage_V: number, kind: string, notes: Notes): void {
  const refuse = (row: CurveRow, column: string, message: string) =>
    notes.problems.push({ path: `loco.motor.curve.${rows.indexOf(row) + 1}.${column}`, message });
  if (rows.length < FEWEST_ROWS) {
    const message = `${rows.length === 1 ? "one row is" : `${rows.length} rows are`} too few; a curve has ${FEWEST_ROWS} or more`;
    notes.problems.push({ path: "loco.motor.curve.file", message });
  }
  for (const row of rows) {
    const [torque_Nm, speed_radps, current_A] = row;
    if (torque_Nm < 0) refuse(row, "torque_Nm", `${shown(torque_Nm, "N m")}: a driving motor's torque is not below 0`);
    if (speed_radps < 0) refuse(row, "speed_rpm", `${rpm(speed_radps)}: a driving motor's speed is not below 0`);
    if (current_A <= 0) refuse(row, "current_A", `${shown(current_A, "A")}: a driving motor's current is above 0`);
    else if (torque_Nm * speed_radps >= voltage_V * current_A) {
      const [out, taken] = [shown(torque_Nm * speed_radps, "W"), shown(voltage_V * current_A, "W")];
      refuse(row, "current_A", `${out} at the shaft out of ${taken}: the efficiency is over 1`);
    }
    if (kind === "series" && torque_Nm === 0) {
      refuse(row, "torque_Nm", "a series motor without load runs away: leave this row out");
    }
  }
  const byTorque = [...rows].sort((a, b) => a[0] - b[0]);
  for (const [i, row] of byTorque.slice(1).entries()) {
    const less = byTorque[i];
    const than = `at ${shown(row[0], "N m")} is`;
    const at = `at ${shown(less[0], "N m")}`;
    if (row[0] === less[0]) refuse(row, "torque_Nm", `${shown(row[0], "N m")} stands twice; give one row for a torque`);
    else {
      if (row[1] > less[1]) refuse(row, "speed_rpm", `${rpm(row[1])} ${than} faster than ${rpm(less[1])} ${at}`);
      // Figures rounded to whole amperes may stand level; the flux points of a series motor may not.
      if (row[2] < less[2] || (kind === "series" && row[2] === less[2])) {
        refuse(row, "current_A", `${shown(row[2], "A")} ${than} no more than ${shown(less[2], "A")} ${at}`);
      }
    }
  }
}

/** How far the fit is from each row: in volts at the row's current and speed, and in torque. */
function tellMisses(fit: Omit<MotorFigures, "rated">, rows: readonly CurveRow[], supply_V: number, notes: Notes): void {
  const { resistance_ohm, flux, drag_Nm, dragPerSpeed_Nms } = fit;
  const greatest_Nm = Math.max(...rows.map(([torque_Nm]) => torque_Nm));
  const misses = rows.flatMap(([torque_Nm, speed_radps, current_A], i) => {
    const flux_NmpA = fluxAt(flux, current_A);
    const left_V = supply_V - resistance_ohm * current_A;
    const fitted_Nm = flux_NmpA * current_A - drag_Nm - dragPerSpeed_Nms * speed_radps;
    const found = (what: string, fitted: string) =>
      `row ${i + 1}, ${shown(current_A, "A")}: ${what} where the fit gives ${fitted}`;
    return [
      {
        share: Math.abs(flux_NmpA * speed_radps - left_V) / supply_V,
        words: found(rpm(speed_radps), rpm(left_V / flux_NmpA)),
      },
      {
        share: Math.abs(fitted_Nm - torque_Nm) / greatest_Nm,
        words: found(shown(torque_Nm, "N m"), shown(fitted_Nm, "N m")),
      },
    ];
  });
  const rms = Math.sqrt(misses.reduce((sum, { share }) => sum + share ** 2, 0) / misses.length);
  const worst = misses.reduce((a, b) => (b.share > a.share ? b : a));
  const percent = (share: number) => `${shown(Math.round(share * 1e4) / 100)} %`;
  const missed = `rows missed by ${percent(rms)} (root mean square), at worst ${percent(worst.share)} (${worst.words})`;
  const [, last_NmpA] = flux[flux.length - 1];
  notes.assumed.push({
    key: "loco.motor.curve",
    value: `${shown(resistance_ohm, "ohm")}, ${shown(last_NmpA, "N m/A")}${flux.length > 1 ? " at the last row" : ""}, drag ${shown(drag_Nm, "N m")} and ${shown(dragPerSpeed_Nms, "N m s")}; ${missed}`,
    source: "least squares of the curve's rows, as a share of its volts and of its greatest torque",
  });
  if (worst.share > POOR) {
    const message = `no motor of this kind runs along all of it: ${missed}`;
    notes.warnings.push({ code: "curve_fit_poor", path: "loco.motor.curve.file", message });
  }
}
