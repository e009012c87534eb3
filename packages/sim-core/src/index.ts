// What is promised to whoever uses the core, by the question that is asked. Nothing else is: test/house/exports.test.ts
// holds the list.

// What goes in: plan, loco, line and the motor's tables, made ready to run; and what was found on the way.

export { type Assumed, InputError, type Notes, type Problem, type Warning } from "./errors.js";
export type { Capacity, CapacityRate, LabelRate } from "./keys.js";
export { RAIL } from "./parts/adhesion.js";
export type {
  AxleDefinition,
  BatteryCableDefinition,
  BatteryDefinition,
  BearingsDefinition,
  BenchDefinition,
  BrakeDefinition,
  BreakerDefinition,
  CarDefinition,
  ChargerDefinition,
  ConstantsDefinition,
  ControllerDefinition,
  CurveDefinition,
  DriverDefinition,
  EachDefinition,
  FreeDefinition,
  FuseDefinition,
  GearDefinition,
  HeatDefinition,
  IsolatorDefinition,
  KeyDefinition,
  KineticDefinition,
  LockedDefinition,
  LocoDefinition,
  MotorDefinition,
  NameplateDefinition,
  PlanDefinition,
  PolarisationDefinition,
  ProtectionDefinition,
  RatedDefinition,
  ResistanceDefinition,
  SaturationDefinition,
  ShaftDefinition,
  StopDefinition,
  TrackDefinition,
  WheelsDefinition,
  WiringDefinition,
} from "./parts/definitions.js";
export type { MotorFigures, Rating } from "./parts/motor.rating.js";
export type { CurveRow, MotorTables, SaturationRow } from "./parts/motor.tables.js";
export type { SwitchName } from "./parts/switches.js";
export { type TrackColumns, UNFIT, type Unfit, type WholeColumns } from "./parts/track.columns.js";
export type { Track } from "./parts/track.js";
export type { Own, ResistanceLaw, Resisting } from "./train/own.js";
export { createPlan, type Plan } from "./train/plan.js";
export type { Rolling } from "./train/rolling.js";
export type { Train } from "./train/train.js";

// How does one working go? With its trace, its events, and where every joule went.

export type { Driver, Move, Seen } from "./driver/own.js";
export { RunError } from "./errors.js";
export type { EndedBy, Ending, Event, Happening, Outcome, Stall } from "./event.js";
export { isTrouble } from "./event.js";
export type { MarginName } from "./margins.js";
export type { EnergyBalance } from "./record/balance.js";
export type { LeastMargin, Summary } from "./record/summary.js";
export type { TraceRow } from "./record/trace.js";
export type { LimitedBy } from "./state.js";
export { type RunAnswer, runOnce, type StudyOptions, usualStep_s } from "./studies/once.js";

// How many laps does a charge last?

export { type HandCheckDiffers, type LapRow, type LapsAnswer, laps } from "./studies/laps.js";

// How long does it charge, and which charger does it want?

export type { ChargeEnd, Charger } from "./parts/battery.charge.js";
export type {
  ChargingAnswer,
  ChargingCaution,
  ChargingCautionCode,
  ChargingGas,
  ChargingInShort,
  ChargingMoment,
  LeastChargerAnswer,
} from "./studies/charging/answer.js";
export { type ChargingOptions, charging } from "./studies/charging/charging.js";
export { type LeastChargerOptions, leastCharger } from "./studies/charging/least.js";

// Is it sound on paper, before anything runs?

export { emfLoaded_V } from "./parts/battery.js";
export type { BrakeAnswer } from "./studies/check/braked.js";
export {
  type BatteryAnswer,
  type CheckAnswer,
  check,
  type GradientAnswer,
  type MotorAnswer,
} from "./studies/check/check.js";
export type { ElectricBrakeAnswer } from "./studies/check/electric-brake.js";
export { measureFirst, type ToMeasure } from "./studies/check/measure.js";

// Do breaker, fuse and cables guard what they should?

export type {
  CableAnswer,
  Finding,
  FindingCode,
  ProtectionAnswer,
  Recommended,
  ShortCircuit,
  WorkingCurrents,
} from "./studies/protection/answer.js";
export type { Climbing, HeldStall } from "./studies/protection/loads.js";
export { protectionOf } from "./studies/protection/protection.js";
export type {
  SwitchAnswer,
  SwitchDuty,
  SwitchesAnswer,
  SwitchFinding,
  SwitchFindingCode,
  SwitchRemark,
} from "./studies/protection/switches.answer.js";

// What does it pull up which gradient, and where is it too steep?

export { type ClimbAnswer, type ClimbRow, climb } from "./studies/climb/climb.js";
export { type EffortAnswer, type EffortRow, tractiveEffort } from "./studies/climb/effort.js";
export { type Steep, steeperThan } from "./studies/climb/steep.js";

// How much ballast restarts it on a wet rail, where, and at what cost?

export type { BallastAnswer, BallastCost, BallastPlace, EndLoads } from "./studies/ballast/answer.js";
export { type BallastOptions, ballast } from "./studies/ballast/ballast.js";

// Which sprockets?

export type { ChainSize } from "./parts/chain.keys.js";
export type { ChainRow } from "./studies/gears/chain.row.js";
export type { Pair } from "./studies/gears/choices.js";
export type { ChainFault, Fault } from "./studies/gears/faults.js";
export { type GearsAnswer, type GearsOptions, type GearsRow, gears } from "./studies/gears/gears.js";
export type { GearsRemark } from "./studies/gears/remarks.js";

// How far does it take to stop, and does it stay where it is left?

export type {
  BeyondSight,
  BrakesAnswer,
  BrakesRemark,
  GreatestSpeed,
  WorstStop,
} from "./studies/brakes/answer.js";
export { brakesAt } from "./studies/brakes/at.js";
export { type BrakesOptions, brakes, brakesStep_s } from "./studies/brakes/brakes.js";
export type { BrakesRow } from "./studies/brakes/cases.js";
export type { DecelerationCode, DecelerationLimit } from "./studies/brakes/limits.js";
export type { GoesOff, Parking, ParkingSet } from "./studies/brakes/parking.js";
export { BRAKE_SETS, type BrakeSet } from "./studies/brakes/sets.js";
export type { BrakeWanted } from "./studies/brakes/sight.js";

// Which motor, battery and cables does a loco want that has none yet?

export type { BatteryFor, DecidedBy } from "./parts/battery.size.js";
export type { SizeAnswer } from "./studies/size/answer.js";
export { createSizing, type SizeLoco, type Sizing } from "./studies/size/input.js";
export { type SizeOptions, size } from "./studies/size/size.js";
export { type SupplyRow, USUAL_SUPPLY_V } from "./studies/size/supply.js";

// What should a first outing read, and what is wrong where it reads something else?

export { CAUSES, type CauseName, type SizeUnit } from "./studies/trial/causes.kinds.js";
export type { Evidence } from "./studies/trial/evidence.js";
export type { FaultCause, FaultReading, FaultRow } from "./studies/trial/faults.js";
export type { Symptom } from "./studies/trial/faults.signs.js";
export { TOOLS, type Tool } from "./studies/trial/instruments.js";
export type { Filled, Taken, TakenLine } from "./studies/trial/judged.js";
export type { SheetReading } from "./studies/trial/lines.js";
export { type Outing, outingOf, type StepName } from "./studies/trial/machine.js";
export type { NextReading } from "./studies/trial/next.js";
export type { FittedWay, Priors, RankedCause } from "./studies/trial/rank.js";
export { leverShown, type Reading, type ReadingUnit } from "./studies/trial/readings.kinds.js";
export type { Told } from "./studies/trial/setting.js";
export { readingNames, type SheetStep, type TrialAnswer, type TrialOptions, trial } from "./studies/trial/trial.js";

// What must be bought, and is it enough?

export type { PartChange, PartFigures, PartLine, PartName, PartRule, PartsAnswer } from "./studies/parts/answer.js";
export { parts } from "./studies/parts/parts.js";
export {
  type WireCable,
  type WirePlace,
  type WireStation,
  type WiringAnswer,
  wiring,
} from "./studies/wiring/wiring.js";

// How sure is an answer, and what should be measured first?

export type { Band, Headline, Spread, Sureness, ToMeasureFirst } from "./doubt/bands.js";
export type { Measured } from "./doubt/book.js";
export { type Doubtful, doubtOf } from "./doubt/doubts.js";
export { type Drawn, draw } from "./doubt/draw.js";
export type { Doubted, Found } from "./doubt/headlines.js";
export { COUNTED_ON, type StopToCountOn, stopToCountOn } from "./doubt/stop.js";
export { bands, DRAWS, drawnHeadlines, SEED } from "./doubt/sureness.js";
export { doubtTimes, endsOf, type TypedDoubt, type TypedDoubts } from "./doubt/typed.js";

// What do a survey, pulls, runs that coast and a logged run tell?

export { type BatteryReadingsAnswer, type BatteryReadingsOptions, batteryReadings } from "./field/battery.js";
export { BATTERY_READINGS, type BatteryRow } from "./field/battery.rows.js";
export type { BookRow } from "./field/book.js";
export { missesFourthOrder, unfitBetween, whyCarried } from "./field/carried.js";
export {
  type CoastDoubts,
  type CoastdownAnswer,
  type CoastdownOptions,
  type CoastLine,
  type CoastRow,
  coastdown,
} from "./field/coastdown.js";
export { type Coasting, coastingOf, coastLineOf, type Pulled } from "./field/coasting.js";
export { logSays, type Strayed } from "./field/compare/agree.js";
export type { Compared } from "./field/compare/cells.js";
export { type CompareAnswer, type CompareOptions, compare } from "./field/compare/compare.js";
export type { Covers } from "./field/compare/covers.js";
export type { Explanation } from "./field/compare/explain.js";
export type { LogColumns, Logged } from "./field/compare/log.js";
export type { MeterOff } from "./field/compare/meter.js";
export { mistakenFor } from "./field/compare/mistaken.js";
export type { PlaceCompared, QuantityCompared } from "./field/compare/quantities.js";
export type { Fitted } from "./field/fitted.js";
export { type FixesAnswer, type FixesOptions, levelsOfFixes, type Received } from "./field/fixes.js";
export type { Fix, GlobePlace } from "./field/geodesic.js";
export type {
  BenchMark,
  BookChecks,
  BookSection,
  LevelGradient,
  LevelPoint,
  LevelsAnswer,
  UncheckedSight,
} from "./field/levelled.js";
export { type LevelsOptions, levels } from "./field/levels.js";
export { type PullAnswer, type PullOptions, type PullRow, pull } from "./field/pull.js";
export { levelsOfSlopes, type SlopeRow, steepSlopes } from "./field/slopes.js";

// Which unit is it in? People's units in and out; inside, everything is SI.

export { FOOT_m, KMH_mps, MPH_mps } from "./parts/constants.js";
export { readDoubtful, type TypedDoubtful } from "./units/doubtful.js";
export { figures, format, formatBoth, formatGradient, formatPercent, type UnitStyle } from "./units/format.js";
export { quantity, readQuantity, readShare, share, type Typed, UnitError } from "./units/units.js";

// What may stand in the files? The tables of keys, for whoever reads, documents or draws up files.

export type { Default, Range } from "./defaults.js";
export { cut, keyAt, quoted, shown } from "./errors.js";
export {
  type Bounds,
  type CapacityKey,
  type CountKey,
  type Dimension,
  fieldName,
  type Key,
  type Keys,
  type ListKey,
  type OneOf,
  type QuantityKey,
  type Usual,
  type VoltageTableKey,
} from "./keys.js";
export { nearest } from "./nearest.js";
export { locoKeys, planKeys, planOneOf } from "./parts/files.keys.js";
export { defaultInWords } from "./units/defaults.js";
export { usualInWords } from "./units/usual.js";

// What may this train do on this line?

export type {
  AboardLimit,
  AboardRow,
  Counted,
  LiftedBy,
  LimitsAnswer,
  PartedRow,
  SpeedRow,
  Standing,
  StopRow,
  Who,
} from "./studies/limits/answer.js";
export { type LogSays, rollingBy } from "./studies/limits/by-log.js";
export { type LimitsOptions, limits, type PlanFiles } from "./studies/limits/limits.js";

// What if: the key figures of a case of many

export { needsNoDrive, type SweptCase, type SweptOptions, sweptCase } from "./studies/sweep/case.js";
export { figuresOf, SWEPT, SWEPT_FIGURES, type Swept, type SweptFigure } from "./studies/sweep/figures.js";
export { lackIn, SWEPT_LACKS, SWEPT_TROUBLES, type SweptLack } from "./studies/sweep/lacks.js";

// Are shafts, keys and bearings strong enough?

export type { SteelName } from "./parts/shaft.keys.js";
export type {
  Fixing,
  GovernedBy,
  KeyWanted,
  RimLoads,
  ShaftBearing,
  ShaftRow,
  ShaftsAnswer,
  ShaftsRemark,
  ShaftTorque,
  SprocketPull,
} from "./studies/shafts/answer.js";
export { type ShaftsOptions, shafts } from "./studies/shafts/shafts.js";

// What do couplings and buffer beam carry?

export type { CouplingForce, CouplingRow, CouplingsAnswer, StopForce } from "./studies/couplings/answer.js";
export { type CouplingsOptions, couplings } from "./studies/couplings/couplings.js";
