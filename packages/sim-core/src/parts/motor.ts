import { assume, type Notes } from "../errors.js";
import { fromCurve } from "./motor.curve.js";
import { motorKeys as usually } from "./motor.keys.js";
import { type Definition, fluxAt, guessedRating, type MotorFigures, type Rating, STAND_IN } from "./motor.rating.js";
import { fromBench, fromConstants, fromNameplate, fromSaturation } from "./motor.sources.js";
import type { MotorTables } from "./motor.tables.js";

/**
 * A brushed motor, or several on one shaft taken as one: a flux that depends on current, a resistance, and a drag
 * against the rotation.
 *
 *     V = k(I) ω + I R + V_brush(I)        T_shaft = k(I) I - T_drag - b ω
 *
 * Flux and brush drop are straight between the current knots and level beyond the last; knot 0 is 0 A. A permanent
 * magnet has the same flux at every knot.
 */
export interface Motor {
  readonly kind: "permanent-magnet" | "series";
  readonly resistance20_ohm: number;
  readonly current_A: Float64Array;
  readonly flux_NmpA: Float64Array;
  readonly brush_V: Float64Array;
  readonly drag_Nm: number;
  /** Was it told, or is it a default? */
  readonly dragMeasured: boolean;
  readonly dragPerSpeed_Nms: number;
  readonly inertia_kgm2: number;
  /** Change of flux per kelvin of magnet, as a share of the flux at 20 °C. */
  readonly fluxPerKelvin_pK: number;
  readonly rated: Rating;
  /** Or is the rating a guess? */
  readonly ratingKnown: boolean;
  /** Motors on the shaft. */
  readonly count: number;
  /** How many of them stand side by side in the circuit: `count` in parallel, 1 in series. */
  readonly paths: number;
}

/** Remanence against temperature: magnet makers' figures, ferrite -0.20 %/K, neodymium -0.09 to -0.12 %/K. */
const FLUX_PER_KELVIN_pK = { ferrite: -0.002, neodymium: -0.0011, none: 0 } as const;

/** Brushes reach their full drop at this share of rated current, or at 1 A (the share as in open machine libraries). */
const BRUSH_KNEE = 0.01;

/**
 * Makes the motor from its figures; whatever contradicts itself is noted, with a harmless value in its place.
 * @param battery_V nominal, from which a rating is guessed where none is known
 * @param given what the files named in the definition hold, or figures in place of them
 */
export function createMotor(definition: Definition, battery_V: number, notes: Notes, given: Given = {}): Motor {
  const kind = assume(notes, "loco.motor.kind", definition.kind, usually.kind.default);
  const full_V = assume(notes, "loco.motor.brush_drop", definition.brush_drop_V, usually.brush_drop.default);
  const figures = given.motor
    ? ownFigures(given.motor, definition, notes)
    : readFigures(definition, kind, full_V, given, notes);
  const knee_A = figures.rated.current_A > 0 ? BRUSH_KNEE * figures.rated.current_A : 1;
  const count = assume(notes, "loco.motor.count", definition.count, usually.count.default);
  // One alone stands in series or in parallel alike.
  const several = usually.connection.default;
  const connection = count > 1 ? assume(notes, "loco.motor.connection", definition.connection, several) : several.value;
  const each_V = connection === "series" ? battery_V / count : battery_V;
  const rated = figures.rated.power_W > 0 ? figures.rated : guessedRating(figures, each_V, notes);
  const single: Motor = {
    kind,
    resistance20_ohm: figures.resistance_ohm,
    ...knots(figures.flux, full_V, knee_A),
    drag_Nm: figures.drag_Nm,
    dragMeasured: given.motor !== undefined || isDragMeasured(definition),
    dragPerSpeed_Nms: figures.dragPerSpeed_Nms,
    inertia_kgm2: assume(
      notes,
      "loco.motor.inertia",
      definition.inertia_kgm2,
      usually.inertia.default.value * rated.power_W,
    ),
    fluxPerKelvin_pK: FLUX_PER_KELVIN_pK[magnet(definition, kind, notes)],
    rated,
    ratingKnown: rated === figures.rated,
    count: 1,
    paths: 1,
  };
  return count === 1 ? single : severalMotors(single, count, connection);
}

/** Does anything in the files tell the drag, or is it a default? */
const isDragMeasured = ({ nameplate, constants, bench, curve }: Definition): boolean =>
  bench !== undefined ||
  curve !== undefined ||
  nameplate?.no_load_current_A !== undefined ||
  constants?.drag_Nm !== undefined;

/** `count` equal motors on one shaft, as one: side by side in the circuit, or one after another. */
export function severalMotors(m: Motor, count: number, connection: "parallel" | "series"): Motor {
  const paths = connection === "parallel" ? count : 1;
  const chain = count / paths;
  return {
    ...m,
    resistance20_ohm: (m.resistance20_ohm * chain) / paths,
    current_A: m.current_A.map((current_A) => current_A * paths),
    flux_NmpA: m.flux_NmpA.map((flux_NmpA) => flux_NmpA * chain),
    brush_V: m.brush_V.map((drop_V) => drop_V * chain),
    drag_Nm: m.drag_Nm * count,
    dragPerSpeed_Nms: m.dragPerSpeed_Nms * count,
    inertia_kgm2: m.inertia_kgm2 * count,
    rated: {
      voltage_V: m.rated.voltage_V * chain,
      current_A: m.rated.current_A * paths,
      speed_radps: m.rated.speed_radps,
      power_W: m.rated.power_W * count,
    },
    count,
    paths,
  };
}

/** What stands in no definition. */
interface Given extends MotorTables {
  readonly motor?: MotorFigures;
}

/** Figures of the user's own, in place of everything that a definition might give them by. */
function ownFigures(own: MotorFigures, definition: Definition, notes: Notes): MotorFigures {
  const { nameplate, constants, bench, curve, saturation, rated } = definition;
  for (const [name, beside] of Object.entries({ nameplate, constants, bench, curve, saturation, rated })) {
    if (beside === undefined) continue;
    notes.problems.push({ path: `loco.motor.${name}`, message: "own.motor already has these figures: leave one out" });
  }
  return own;
}

function readFigures(
  definition: Definition,
  kind: Motor["kind"],
  brush_V: number,
  tables: MotorTables,
  notes: Notes,
): MotorFigures {
  const { nameplate, constants, bench, curve, saturation, rated } = definition;
  const refuse = (path: string, message: string): MotorFigures => {
    notes.problems.push({ path, message });
    return STAND_IN;
  };
  if ([nameplate, constants, bench, curve, saturation].filter((given) => given !== undefined).length !== 1) {
    return refuse("loco.motor", "give the motor by one of nameplate, constants, bench, curve or saturation");
  }
  if (curve) return fromCurve(curve, tables.curve ?? [], kind, rated, brush_V, notes);
  if (nameplate) {
    if (rated) refuse("loco.motor.rated", "the nameplate is the rating: leave one of the two out");
    return fromNameplate(nameplate, kind, brush_V, notes);
  }
  if (saturation) {
    if (kind !== "series") return refuse("loco.motor.saturation", "magnetisation points are for a series motor");
    return fromSaturation(saturation, tables.saturation ?? [], rated, brush_V, notes);
  }
  if (kind === "series") {
    return refuse("loco.motor.kind", "a series motor is given by its nameplate, a curve or magnetisation points");
  }
  return constants ? fromConstants(constants, rated, brush_V, notes) : fromBench(bench!, rated, brush_V, notes);
}

/** Flux and brush drop on one set of knots; at least two, so that there is always a stretch between them. */
function knots(flux: MotorFigures["flux"], full_V: number, knee_A: number) {
  const currents = [...new Set([0, knee_A, ...flux.map(([current_A]) => current_A)])].sort((a, b) => a - b);
  const current_A = Float64Array.from(currents);
  return {
    current_A,
    flux_NmpA: current_A.map((at_A) => fluxAt(flux, at_A)),
    brush_V: current_A.map((at_A) => full_V * Math.min(at_A / knee_A, 1)),
  };
}

function magnet(definition: Definition, kind: Motor["kind"], notes: Notes): "ferrite" | "neodymium" | "none" {
  if (kind === "series") {
    if (definition.magnet !== undefined && definition.magnet !== "none") {
      notes.problems.push({ path: "loco.motor.magnet", message: "a series motor has no magnets" });
    }
    return "none";
  }
  const { withPlate, otherwise } = usually.magnet.default.value;
  return assume(notes, "loco.motor.magnet", definition.magnet, definition.nameplate ? withPlate : otherwise);
}
