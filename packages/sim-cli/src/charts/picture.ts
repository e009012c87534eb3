import type { TraceRow } from "@rideon/sim-core";

/** One lap as it is drawn: a value of each for every row of the trace. */
export interface Picture {
  lap: number;
  /** From the start of the lap, whichever way. */
  run_m: number[];
  chainage_m: number[];
  speed_mps: number[];
  motor_current_A: number[];
  battery_current_A: number[];
  battery_voltage_V: number[];
  state_of_charge: number[];
  winding_temperature_C: number[];
  height_m: number[];
  gradient_percent: number[];
}

/** More rows than any picture has columns of dots, many times over. */
const MOST_ROWS = 65_536;

/**
 * Keeps the rows of the first lap, so that a day's trace need not be kept to draw it; of a long or finely traced lap
 * every second one, fourth one, and so on.
 */
export function pictureTaker(): { row(row: TraceRow): void; taken(): Picture } {
  const picture: Picture = {
    lap: 1,
    run_m: [],
    chainage_m: [],
    speed_mps: [],
    motor_current_A: [],
    battery_current_A: [],
    battery_voltage_V: [],
    state_of_charge: [],
    winding_temperature_C: [],
    height_m: [],
    gradient_percent: [],
  };
  const columns = Object.values(picture).filter((column) => Array.isArray(column));
  let every = 1;
  let rows = 0;
  return {
    row(row) {
      if (row.lap !== picture.lap || rows++ % every !== 0) return;
      if (picture.run_m.length === MOST_ROWS) {
        for (const column of columns) keepEverySecond(column);
        every *= 2;
      }
      picture.run_m.push(row.distance_m);
      picture.chainage_m.push(row.chainage_m);
      picture.speed_mps.push(row.speed_mps);
      picture.motor_current_A.push(row.motor_current_A);
      picture.battery_current_A.push(row.battery_current_A);
      picture.battery_voltage_V.push(row.battery_voltage_V);
      picture.state_of_charge.push(row.state_of_charge);
      picture.winding_temperature_C.push(row.winding_temperature_C);
      picture.height_m.push(row.height_m);
      picture.gradient_percent.push(row.gradient_percent);
    },
    taken: () => picture,
  };
}

function keepEverySecond(column: number[]): void {
  for (let i = 0; 2 * i < column.length; i++) column[i] = column[2 * i]!;
  column.length = Math.ceil(column.length / 2);
}
