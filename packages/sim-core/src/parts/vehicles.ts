import { endsOf } from "../doubt/typed.js";
import { assume, cut, type Notes, quoted, shown } from "../errors.js";
import { locoKeys, type PlanDefinition, planKeys, type RollingLoco } from "./files.keys.js";
import { carKeys, resistanceKeys, SHORTEST_VEHICLE_m, wheelsKeys } from "./vehicle.keys.js";
import { type Resistance, slidingLength_m } from "./vehicles.resistance.js";

/** One vehicle as it runs: loaded, with its own resistance. Its mass is spread evenly over its length. */
export interface Vehicle {
  readonly name: string;
  /** With driver and passengers. */
  readonly mass_kg: number;
  readonly length_m: number;
  readonly resistance: Resistance;
  /** Inertia of the wheelsets that are not driven, as mass at the tread. */
  readonly wheels_kg: number;
}

/** Two discs of steel on the axle: J = ρ π t r⁴. */
export function wheelset_kgm2(diameter_m: number): number {
  const { density_kgpm3, thickness_m } = wheelsKeys.wheelset_inertia.default.value;
  return density_kgpm3 * Math.PI * thickness_m * (diameter_m / 2) ** 4;
}

type Bearings = keyof typeof resistanceKeys.rolling.default.value;
type Car = NonNullable<PlanDefinition["cars"]>[number];

/** How many of a car run one behind another. */
export const carsOf = ({ count }: Car): number => count ?? carKeys.count.default.value;

/** Diameter of a car's wheels. */
export const carWheel_m = ({ wheel_diameter_m }: Car, gauge_m: number): number =>
  wheel_diameter_m ?? carKeys.wheel_diameter.default.value * gauge_m;

const seatsOf = ({ seats }: Car): number => seats ?? carKeys.seats.default.value;

/** Seats of all the cars of a plan. */
export const seatsIn = (cars: PlanDefinition["cars"]): number =>
  (cars ?? []).reduce((sum, car) => sum + seatsOf(car) * carsOf(car), 0);

/** The train in running order, loco first. */
export function createVehicles(loco: RollingLoco, plan: PlanDefinition, notes: Notes): Vehicle[] {
  const cars = plan.cars ?? [];
  const driver = planKeys.driver.keys;
  const rides = assume<string>(notes, "plan.driver.rides", plan.driver?.rides, driver.rides.default);
  const driver_kg = assume(notes, "plan.driver.mass", plan.driver?.mass_kg, driver.mass.default);
  const driverCar = cars.findIndex((car, i) => carName(car, i) === rides);
  if (rides !== "loco" && driverCar < 0) {
    const names = ["loco", ...cars.map(carName)].join(", ");
    notes.problems.push({
      path: "plan.driver.rides",
      message: `no car is called ${quoted(rides)}; the driver can ride on: ${cut(names, 300)}`,
    });
  }
  const load_kg = passengerLoads_kg(plan, cars, notes);
  const bearings = assume(
    notes,
    "loco.resistance.bearings",
    loco.resistance?.bearings,
    resistanceKeys.bearings.default,
  );
  const own = locoResistance(loco, bearings, notes);
  const vehicles = [createLoco(loco, rides === "loco" ? driver_kg : 0, own, notes)];
  cars.forEach((car, i) => {
    const one = createCar(car, i, loco.gauge_m, own, bearings, notes);
    for (let j = 0; j < carsOf(car); j++) {
      const riding_kg = i === driverCar && j === 0 ? driver_kg : 0;
      vehicles.push({ ...one, mass_kg: car.mass_kg + load_kg[i] + riding_kg });
    }
  });
  return vehicles;
}

/** A train that takes less to start than to keep moving would start and stop for ever. */
function refuseEasyStart(path: string, resistance: Resistance, notes: Notes): Resistance {
  if (resistance.breakaway < resistance.rolling) {
    const message = `${shown(resistance.breakaway)} is less than rolling, ${shown(resistance.rolling)}; it takes at least as much to start as to roll`;
    notes.problems.push({ path: `${path}.breakaway`, message });
  }
  return resistance;
}

const carName = (car: Car, i: number): string => car.name ?? `car ${i + 1}`;

/** Passengers spread over the cars in proportion to seats, evenly where nobody has a seat; kg on each car of a row. */
function passengerLoads_kg(plan: PlanDefinition, cars: readonly Car[], notes: Notes): number[] {
  const aboard = assume(notes, "plan.passengers", plan.passengers, planKeys.passengers.default);
  const seats = seatsIn(cars);
  const carried = cars.reduce((sum, car) => sum + carsOf(car), 0);
  if (aboard > 0 && carried === 0) {
    notes.problems.push({
      path: "plan.passengers",
      message: `${aboard} passengers have no car to sit on; add cars, or write passengers: 0`,
    });
  } else if (aboard > seats) {
    notes.warnings.push({
      code: "more_passengers_than_seats",
      path: "plan.passengers",
      message: `${aboard} passengers on ${seats} seats`,
    });
  }
  const usual = planKeys.passenger_mass.default;
  const each_kg = aboard > 0 ? assume(notes, "plan.passenger_mass", plan.passenger_mass_kg, usual) : 0;
  return cars.map((car) => aboard * each_kg * (seats > 0 ? seatsOf(car) / seats : 1 / carried));
}

function locoResistance(loco: RollingLoco, bearings: Bearings, notes: Notes): Resistance {
  const given = loco.resistance ?? {};
  const path = "loco.resistance";
  const gauges = wheelsKeys.wheelbase.default.value;
  const wheelbase_m = assume(notes, "loco.wheels.wheelbase", loco.wheels.wheelbase_m, gauges * loco.gauge_m);
  const usual = resistanceKeys;
  const rolling = assume(notes, `${path}.rolling`, given.rolling, usual.rolling.default.value[bearings]);
  const resistance = {
    rolling,
    ...rangeOf(notes, `${path}.rolling`, rolling, given.rolling === undefined ? bearings : undefined),
    rolling_spm: assume(
      notes,
      `${path}.rolling_per_speed`,
      given.rolling_per_speed_spm,
      usual.rolling_per_speed.default,
    ),
    breakaway: assume(notes, `${path}.breakaway`, given.breakaway, usual.breakaway.default.value[bearings] * rolling),
    slidingLength_m: assume(
      notes,
      `${path}.sliding_length`,
      given.sliding_length_m,
      slidingLength_m(loco.gauge_m, wheelbase_m),
    ),
  };
  return refuseEasyStart(path, resistance, notes);
}

/**
 * The ends of what it may roll at: of the table's range where no figure was given, of the doubt that was typed beside one;
 * a figure that is drawn within its doubt is in none.
 */
function rangeOf(notes: Notes, path: string, rolling: number, assumed?: Bearings): Pick<Resistance, "least" | "most"> {
  const typed = notes.doubts?.[path];
  if (notes.drawn || (assumed === undefined && !typed)) return { least: rolling, most: rolling };
  const [least, most] = typed
    ? endsOf(rolling, typed)
    : (resistanceKeys.rolling.default.range[assumed ?? "ball"] as [number, number]);
  return { least: Math.max(0, least), most };
}

function createLoco(loco: RollingLoco, riding_kg: number, resistance: Resistance, notes: Notes): Vehicle {
  const { wheels } = loco;
  const axles = assume(notes, "loco.wheels.axles", wheels.axles, wheelsKeys.axles.default);
  if (wheels.driven_axles > axles) {
    notes.problems.push({
      path: "loco.wheels.driven_axles",
      message: `${wheels.driven_axles} driven axles of ${axles}; at most all of them`,
    });
  }
  const wheelset = assume(
    notes,
    "loco.wheels.wheelset_inertia",
    wheels.wheelset_inertia_kgm2,
    wheelset_kgm2(wheels.diameter_m),
  );
  const usual_m = Math.max(locoKeys.length.default.value * loco.gauge_m, SHORTEST_VEHICLE_m);
  return {
    name: loco.name,
    mass_kg: loco.mass_kg + riding_kg,
    length_m: assume(notes, "loco.length", loco.length_m, usual_m),
    resistance,
    wheels_kg: (Math.max(0, axles - wheels.driven_axles) * wheelset) / (wheels.diameter_m / 2) ** 2,
  };
}

function createCar(
  car: Car,
  i: number,
  gauge_m: number,
  loco: Resistance,
  locoBearings: Bearings,
  notes: Notes,
): Vehicle {
  const path = `plan.cars.${i + 1}`;
  const bearings = assume(notes, `${path}.bearings`, car.bearings, locoBearings);
  const gauges = carKeys.wheelbase.default.value;
  const wheelbase_m = assume(notes, `${path}.wheelbase`, car.wheelbase_m, gauges * gauge_m);
  const diameter_m = assume(notes, `${path}.wheel_diameter`, car.wheel_diameter_m, carWheel_m(car, gauge_m));
  const wheelset = assume(notes, `${path}.wheelset_inertia`, car.wheelset_inertia_kgm2, wheelset_kgm2(diameter_m));
  const alike = bearings === locoBearings;
  const usual = alike ? loco.rolling : resistanceKeys.rolling.default.value[bearings];
  const rolling = assume(notes, `${path}.rolling`, car.rolling, usual);
  const likeLoco = car.rolling === undefined && alike;
  const breakaway = likeLoco ? loco.breakaway : resistanceKeys.breakaway.default.value[bearings] * rolling;
  return {
    name: carName(car, i),
    mass_kg: car.mass_kg,
    length_m: car.length_m,
    resistance: refuseEasyStart(
      path,
      {
        rolling,
        ...(likeLoco
          ? { least: loco.least, most: loco.most }
          : rangeOf(notes, `${path}.rolling`, rolling, car.rolling === undefined ? bearings : undefined)),
        rolling_spm: assume(notes, `${path}.rolling_per_speed`, car.rolling_per_speed_spm, loco.rolling_spm),
        breakaway: assume(notes, `${path}.breakaway`, car.breakaway, breakaway),
        slidingLength_m: assume(
          notes,
          `${path}.sliding_length`,
          car.sliding_length_m,
          slidingLength_m(gauge_m, wheelbase_m),
        ),
      },
      notes,
    ),
    wheels_kg: (assume(notes, `${path}.axles`, car.axles, carKeys.axles.default) * wheelset) / (diameter_m / 2) ** 2,
  };
}
