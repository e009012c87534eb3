import { COPPER_pK } from "./constants.js";

/** How the motor warms: winding and armature warm the case, the case warms the air. All motors on the shaft together. */
export interface MotorHeat {
  readonly winding_JpK: number;
  readonly case_JpK: number;
  readonly windingToCase_KpW: number;
  /** With the motor at its rated speed. */
  readonly caseToAir_KpW: number;
  /** Speed from which a fan on the shaft cools the case in full; 0 where its cooling hangs on no speed. */
  readonly fan_radps: number;
  /** Hot spot that the insulation's class allows. */
  readonly limit_degC: number;
}

/** Heat made at a steady current and speed. */
export interface HeatLoad {
  /** In the copper, were it at 20 °C. */
  copper20_W: number;
  brush_W: number;
  /** Drag, which warms the case. */
  drag_W: number;
  /** Share of the cooling at rated speed that the case has at this one; 1 where absent. */
  cooled?: number;
}

type Nodes = Omit<MotorHeat, "limit_degC" | "fan_radps">;

/** Of a motor that stands its fan leaves this much of the cooling: 0.25 to 0.35 of an open one, from memory (Chilikin). */
const COOLED_STANDING = 0.3;

/** Share of the cooling at rated speed: all where nothing depends on a fan; else in proportion between standing and there. */
export const coolingShare = ({ fan_radps }: Pick<MotorHeat, "fan_radps">, motor_radps: number): number =>
  fan_radps === 0 ? 1 : COOLED_STANDING + (1 - COOLED_STANDING) * Math.min(1, Math.abs(motor_radps) / fan_radps);

/** How fast the winding warms. `made_W` is the heat made in it. */
export const windingRate_Kps = (h: Nodes, made_W: number, winding_degC: number, case_degC: number): number =>
  (made_W - (winding_degC - case_degC) / h.windingToCase_KpW) / h.winding_JpK;

/** How fast the case warms. `made_W` is the heat of drag, `cooled` the share of the cooling that there is. */
export const caseRate_Kps = (
  h: Nodes,
  made_W: number,
  winding_degC: number,
  case_degC: number,
  air_degC: number,
  cooled = 1,
): number =>
  ((winding_degC - case_degC) / h.windingToCase_KpW + made_W - (cooled * (case_degC - air_degC)) / h.caseToAir_KpW) /
  h.case_JpK;

/** Heat added by hotter copper for each watt that warmed it; from 1 on the temperature runs away. */
export const loopGain = (h: Nodes, copper20_W: number, cooled = 1): number =>
  COPPER_pK * copper20_W * (h.windingToCase_KpW + h.caseToAir_KpW / cooled);

/** Where the winding settles, copper as hot as it then is; Infinity where it runs away. */
export function settledWinding_degC(h: Nodes, load: HeatLoad, air_degC: number): number {
  const caseToAir_KpW = h.caseToAir_KpW / (load.cooled ?? 1);
  const gain = loopGain(h, load.copper20_W, load.cooled);
  if (gain >= 1) return Number.POSITIVE_INFINITY;
  const at0degC_W = load.copper20_W * (1 - 20 * COPPER_pK) + load.brush_W;
  const through_KpW = h.windingToCase_KpW + caseToAir_KpW;
  return (air_degC + caseToAir_KpW * load.drag_W + through_KpW * at0degC_W) / (1 - gain);
}

/**
 * The winding after a time at a steady load, from given temperatures of winding and case. Exact: the copper's heat is
 * linear in its temperature, so the pair of rates is a linear system, and the first rates are carried through its two
 * exponentials.
 */
export function windingAfter_degC(
  h: Nodes,
  load: HeatLoad,
  winding_degC: number,
  case_degC: number,
  air_degC: number,
  time_s: number,
): number {
  const made_W = load.copper20_W * (1 + COPPER_pK * (winding_degC - 20)) + load.brush_W;
  const windingNow_Kps = windingRate_Kps(h, made_W, winding_degC, case_degC);
  const caseNow_Kps = caseRate_Kps(h, load.drag_W, winding_degC, case_degC, air_degC, load.cooled);
  // Rates of the linear system, per second: winding on winding, winding from case, case from winding, case on case.
  const ww = (COPPER_pK * load.copper20_W - 1 / h.windingToCase_KpW) / h.winding_JpK;
  const wc = 1 / (h.windingToCase_KpW * h.winding_JpK);
  const cw = 1 / (h.windingToCase_KpW * h.case_JpK);
  const cc = -(1 / h.windingToCase_KpW + (load.cooled ?? 1) / h.caseToAir_KpW) / h.case_JpK;
  const mean = (ww + cc) / 2;
  const half = Math.sqrt(((ww - cc) / 2) ** 2 + wc * cw);
  const slow_s = lasting_s(mean + half, time_s);
  const fast_s = lasting_s(mean - half, time_s);
  const turned_Kps = ((ww - mean) * windingNow_Kps + wc * caseNow_Kps) / half;
  return winding_degC + (slow_s * (windingNow_Kps + turned_Kps) + fast_s * (windingNow_Kps - turned_Kps)) / 2;
}

/** ∫ exp(rate t) dt from 0 to `time_s`. */
const lasting_s = (rate_ps: number, time_s: number): number =>
  rate_ps === 0 ? time_s : Math.expm1(rate_ps * time_s) / rate_ps;
