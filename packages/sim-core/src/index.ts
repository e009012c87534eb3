export { balancingSpeed_mps, type Climb, restartGradient, runningGradient } from "./drive/climbing.js";
export { type Conditions, type Pull, pullAt } from "./drive/pull.js";
export {
  type Assumed,
  cut,
  InputError,
  keyAt,
  type Notes,
  newNotes,
  type Problem,
  quoted,
  RunError,
  shown,
  type Warning,
} from "./errors.js";
export type { EndedBy, Ending, Event, Happening, Outcome, Stall } from "./event.js";
export * from "./keys.js";
export type { Observer } from "./loop/stepper.js";
export type { MarginName } from "./margins.js";
export { type LeastSquares, leastSquares, type Residuals } from "./numeric/least-squares.js";
export { root } from "./numeric/roots.js";
export { RAIL } from "./parts/adhesion.js";
export { fitPeukert, fitWells, type HourRate, type Peukert, ratesFromPeukert } from "./parts/battery.fit.js";
export * from "./parts/battery.js";
export { type BatteryFor, batteryFor, type DecidedBy, type Draw } from "./parts/battery.size.js";
export { capacityOver_C, lifetime_s, peukert_s, type Wells, wellsAfter_C } from "./parts/battery.wells.js";
export * from "./parts/breaker.js";
export * from "./parts/breaker.ratings.js";
export { CHAINS, type Chain, stockedTeeth } from "./parts/chain.data.js";
export * from "./parts/chain.js";
export { CHAIN_SIZES, type ChainSize } from "./parts/chain.keys.js";
export * from "./parts/chain.load.js";
export * from "./parts/files.keys.js";
export { CLASS_LIMIT_degC, createHeat, type MotorHeat, RATING_AIR_degC, type RatedLosses } from "./parts/heat.js";
export { secondsToLimit } from "./parts/heat.limit.js";
export * from "./parts/heat.nodes.js";
export { createMotor, type Motor, severalMotors } from "./parts/motor.js";
export * from "./parts/motor.points.js";
export type { Rating } from "./parts/motor.rating.js";
export type { CurveRow, MotorTables, SaturationRow } from "./parts/motor.tables.js";
export type { TrackColumns } from "./parts/track.columns.js";
export { closingTolerance_m, createTrack, mirrored, type Track } from "./parts/track.js";
export * from "./parts/wiring.js";
export * from "./parts/wiring.sizes.js";
export { type EnergyBalance, energyBalance } from "./record/balance.js";
export type { LeastMargin, Summary } from "./record/summary.js";
export type { TraceRow } from "./record/trace.js";
export { type RunOptions, run } from "./run.js";
export type { LimitedBy } from "./state.js";
export type {
  BeyondSight,
  BrakesAnswer,
  BrakesRemark,
  BrakesRow,
  GreatestSpeed,
  WorstStop,
} from "./studies/brakes/answer.js";
export { brakesAt } from "./studies/brakes/at.js";
export { type BrakesOptions, brakes, brakesStep_s } from "./studies/brakes/brakes.js";
export type { DecelerationCode, DecelerationLimit } from "./studies/brakes/limits.js";
export type { GoesOff, Parking, ParkingSet } from "./studies/brakes/parking.js";
export { BRAKE_SETS, type BrakeSet } from "./studies/brakes/sets.js";
export type { BrakeWanted } from "./studies/brakes/sight.js";
export type { BrakeAnswer } from "./studies/check/braked.js";
export {
  type BatteryAnswer,
  type CheckAnswer,
  check,
  type GradientAnswer,
  type MotorAnswer,
} from "./studies/check/check.js";
export type { ElectricBrakeAnswer } from "./studies/check/electric-brake.js";
export { type ClimbAnswer, type ClimbRow, climb } from "./studies/climb/climb.js";
export { type EffortAnswer, type EffortRow, tractiveEffort } from "./studies/climb/effort.js";
export { type Steep, steeperThan } from "./studies/climb/steep.js";
export type { ChainRow } from "./studies/gears/chains.js";
export type { Pair } from "./studies/gears/choices.js";
export type { ChainFault, Fault } from "./studies/gears/faults.js";
export { type GearsAnswer, type GearsOptions, type GearsRow, gears } from "./studies/gears/gears.js";
export type { GearsRemark } from "./studies/gears/remarks.js";
export { type HandCheckDiffers, type LapRow, type LapsAnswer, laps } from "./studies/laps.js";
export { type RunAnswer, runOnce, type StudyOptions, usualStep_s } from "./studies/once.js";
export type { Finding, FindingCode } from "./studies/protection/findings.js";
export type { Climbing, HeldStall } from "./studies/protection/loads.js";
export {
  type CableAnswer,
  type ProtectionAnswer,
  protectionOf,
  type Recommended,
  type ShortCircuit,
  type WorkingCurrents,
} from "./studies/protection/protection.js";
export type { SizeAnswer } from "./studies/size/answer.js";
export { createSizing, type SizeLoco, type Sizing } from "./studies/size/input.js";
export { type SizeOptions, size } from "./studies/size/size.js";
export type { SupplyRow } from "./studies/size/supply.js";
export { CAUSES, type CauseName, type SizeUnit } from "./studies/trial/causes.js";
export type { Evidence } from "./studies/trial/evidence.js";
export type { FaultCause, FaultReading, FaultRow } from "./studies/trial/faults.js";
export { SYMPTOMS, type Symptom } from "./studies/trial/faults.signs.js";
export { TOOLS, type Tool } from "./studies/trial/instruments.js";
export { type Filled, judge, type Taken, type TakenLine } from "./studies/trial/judged.js";
export type { SheetReading } from "./studies/trial/lines.js";
export { type Outing, outingOf } from "./studies/trial/machine.js";
export type { NextReading } from "./studies/trial/next.js";
export { type FittedWay, type Priors, type RankedCause, type Ranking, rank } from "./studies/trial/rank.js";
export { leverShown, type Reading, type ReadingUnit, STEPS, type StepName } from "./studies/trial/readings.kinds.js";
export type { Told } from "./studies/trial/setting.js";
export {
  readingNames,
  type SheetStep,
  type Trial,
  type TrialAnswer,
  trial,
  trialOf,
  type Wanted,
} from "./studies/trial/trial.js";
export { type Felt, type Gradients, gradientsFelt } from "./train/line.js";
export { createPlan, type Plan } from "./train/plan.js";
export { drivenWheels_kgm2, type Rolling } from "./train/rolling.js";
export { createTrain, type Train } from "./train/train.js";
export { figures, format, formatBoth, formatGradient, formatPercent, type UnitStyle } from "./units/format.js";
export { quantity, readQuantity, readShare, share, type Typed, UnitError } from "./units/units.js";
export { usualInWords } from "./units/usual.js";
export type { Start, Working } from "./working.js";
