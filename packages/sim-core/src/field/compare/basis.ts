import type { ByCell, Cells } from "./cells.js";
import type { ByLoad } from "./predict.js";
import type { Sensitivities } from "./sensitivity.js";
import type { Residuals } from "./weigh.js";

/** What a comparison stands on. */
export interface Basis {
  readonly cells: Cells;
  readonly logged: ByCell;
  readonly predicted: ByCell;
  /** What the load makes of it by the sums. */
  readonly load: ByLoad;
  /** What every figure in doubt moves it by. */
  readonly moved: Sensitivities;
  readonly residuals: Residuals;
  /** How far along the line a reading may be from where it is taken to be, one standard deviation, m. */
  readonly astray_m: number;
}
