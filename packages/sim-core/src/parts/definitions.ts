// Written by `npm run schema` from the tables of keys, so that an editor shows what each field means. Change a table, not
// this file: test/house/definitions.test.ts holds the two together.
import type { Capacity } from "../keys.js";

/** A loco, as its file has it: the file's keys, each number in SI and with its unit at the end of its name. */
export interface LocoDefinition {
  /** What the loco is called. */
  readonly name: string;
  /** Track gauge. Usual: 60 mm (2.36 in) to 620 mm (24.4 in). As gauge_m: 0.03 to 2. */
  readonly gauge_m: number;
  /** Mass ready to run, without driver. Usual: 20 kg (44.1 lb) to 4000 kg (8818 lb). As mass_kg: 1 to 50000. */
  readonly mass_kg: number;
  /**
   * Length over couplings. Default: 10 × gauge, at least 0.3 m (common practice, no source). Usual: 400 mm (15.7
   * in) to 8 m (26.2 ft). As length_m: 0.3 to 30.
   */
  readonly length_m?: number;
  /**
   * Width over the frame plates that carry the bearings. Usual: 30 mm (1.18 in) to 1.2 m (3.94 ft). As
   * frame_width_m: 0.02 to 3.
   */
  readonly frame_width_m?: number;
  /** Wheels and axles. */
  readonly wheels: WheelsDefinition;
  /** What the loco's own bearings and wheels take. */
  readonly resistance?: ResistanceDefinition;
  /** The motor, by one of its sets of figures. */
  readonly motor: MotorDefinition;
  /** Stages from the motor to the axle. */
  readonly gears: readonly GearDefinition[];
  /** The chopper controller. */
  readonly controller: ControllerDefinition;
  /** The battery. */
  readonly battery: BatteryDefinition;
  /** Cables, breaker or fuse, and steady loads. */
  readonly wiring?: WiringDefinition;
  /** Brakes of the loco. */
  readonly brakes?: readonly BrakeDefinition[];
}

/** One working of one train, as its file has it: the file's keys, each number in SI and with its unit at the end. */
export interface PlanDefinition {
  /** What the working is called. */
  readonly name?: string;
  /** The loco file. Named in files alone: a program hands over what such a file holds. */
  readonly loco?: string;
  /**
   * Air temperature. Default: 15 °C (common practice, no source). Usual: -20 °C (-4 °F) to 45 °C (113 °F). As
   * air_temperature_degC: -40 to 60.
   */
  readonly air_temperature_degC?: number;
  /** Charge at the start, rested. Default: 1 (a full battery unless told). Usual: 0.1 to 1. As charge: 0.001 to 1. */
  readonly charge?: number;
  /** The track and the state of its rail. */
  readonly track: TrackDefinition;
  /** The driver. */
  readonly driver?: DriverDefinition;
  /** Cars behind the loco, in order. */
  readonly cars?: readonly CarDefinition[];
  /**
   * Drag area of the whole train (drag coefficient times frontal area). Default: 0.7 m^2 (a little above one
   * cyclist's 0.47 m² (Sports Engineering, 2021)). Usual: 0.1 m² (1.08 ft²) to 5 m² (53.8 ft²), or 0. As
   * drag_area_m2: 0 to 20.
   */
  readonly drag_area_m2?: number;
  /** Number aboard, without the driver. Default: 0 (none unless told). Usual: up to 100. As passengers: 0 to 1000. */
  readonly passengers?: number;
  /**
   * Mass of one passenger. Default: 75 kg (from memory: the adult of ride and rail standards). Usual: 25 kg (55.1
   * lb) to 130 kg (287 lb). As passenger_mass_kg: 1 to 250.
   */
  readonly passenger_mass_kg?: number;
  /** Drive to this speed. Usual: 1.44 km/h (0.895 mph) to 25.2 km/h (15.7 mph). As speed_mps: 0.01 to 20. */
  readonly speed_mps?: number;
  /** Hold the lever here, whatever the speed. Usual: 0.05 to 1. As lever: 0.001 to 1. */
  readonly lever?: number;
  /**
   * Most the driver accelerates. Default: 0.15 m/s^2 (common practice, no source). Usual: 0.02 m/s² to 0.6 m/s².
   * As acceleration_mps2: 0.001 to 3.
   */
  readonly acceleration_mps2?: number;
  /**
   * Retardation of an ordinary stop. Default: 0.3 m/s^2 (common practice, no source). Usual: 0.05 m/s² to 1.5
   * m/s². As service_braking_mps2: 0.001 to 5.
   */
  readonly service_braking_mps2?: number;
  /**
   * Time before the driver acts. Default: 1.5 s (surprise: M. Green, Transportation Human Factors 2(3), 2000).
   * Usual: 0.3 s to 5 s. As reaction_time_s: 0 to 10.
   */
  readonly reaction_time_s?: number;
  /** Stops of the working. */
  readonly stops?: readonly StopDefinition[];
  /**
   * Laps to run; end-to-end, there and back is one. Default: 1 (one unless told). Usual: 1 to 500. As laps: 1 to
   * 100000.
   */
  readonly laps?: number;
  /** Time to run, in place of laps. Usual: 1 min to 12 h. As duration_s: 1 to 86400. */
  readonly duration_s?: number;
}

/** Wheels and axles. */
export interface WheelsDefinition {
  /** Wheel diameter on the tread. Usual: 40 mm (1.57 in) to 600 mm (23.6 in). As diameter_m: 0.02 to 2. */
  readonly diameter_m: number;
  /**
   * Rigid wheelbase: of one bogie if it has bogies. Default: 3.3 × gauge (common practice, no source). Usual: 100
   * mm (3.94 in) to 3 m (9.84 ft). As wheelbase_m: 0.01 to 20.
   */
  readonly wheelbase_m?: number;
  /**
   * Distance between bogie centres, for a loco on bogies. Usual: 300 mm (11.8 in) to 6 m (19.7 ft). As
   * bogie_centres_m: 0.01 to 30.
   */
  readonly bogie_centres_m?: number;
  /** Number of axles. Default: 2 (common practice, no source). Usual: 2 to 8. As axles: 1 to 12. */
  readonly axles?: number;
  /** Number of axles that the motor turns, chained together. Usual: 1 to 8. As driven_axles: 1 to 12. */
  readonly driven_axles: number;
  /**
   * Share of the loco's weight on its driven axles. Default: driven_axles / axles (common practice, no source).
   * Usual: 0.2 to 1. As driven_share: 0.01 to 1.
   */
  readonly driven_share?: number;
  /**
   * End of the loco whose axles are driven, going out, where not all are. Default: front (the bad case: a climbing
   * loco's front end gets light).
   */
  readonly driven_end?: "front" | "rear";
  /**
   * Moment of inertia of one wheelset about its axle. Default: two steel discs 15 mm thick: 7850 π 0.015 (d/2)^4
   * kg m² (solid discs; steel at 7850 kg/m³, the thickness from common practice, no source). Usual: 0.0001 kg m²
   * to 10 kg m². As wheelset_inertia_kgm2: 0.000001 to 1000.
   */
  readonly wheelset_inertia_kgm2?: number;
  /**
   * Height of the coupling above the rail, for weight transfer. Usual: 30 mm (1.18 in) to 600 mm (23.6 in). As
   * coupling_height_m: 0 to 2.
   */
  readonly coupling_height_m?: number;
  /**
   * Height of the loco's centre of gravity above the rail, for weight transfer. Usual: 50 mm (1.97 in) to 1 m
   * (3.28 ft). As gravity_height_m: 0 to 3.
   */
  readonly gravity_height_m?: number;
  /** The axle that the last stage drives. */
  readonly axle?: AxleDefinition;
}

/** The axle that the last stage drives. */
export interface AxleDefinition {
  /**
   * Diameter of the solid shaft where it is weakest near its sprocket. Usual: 6 mm (0.236 in) to 80 mm (3.15 in).
   * As diameter_m: 0.002 to 0.3.
   */
  readonly diameter_m?: number;
  /**
   * Steel by its designation: EN 10025-2, EN 10277 or EN ISO 683. Default: S235JR (the weakest of these: the bad
   * case).
   */
  readonly material?:
    | "S235JR"
    | "S275JR"
    | "S355J2"
    | "S235JRC+C"
    | "11SMn30+C"
    | "C45+N"
    | "C45+C"
    | "C45+QT"
    | "42CrMo4+QT";
  /** Key of its most loaded sprocket. */
  readonly key?: KeyDefinition;
  /** Length of the hub that the key lies in. Usual: 6 mm (0.236 in) to 100 mm (3.94 in). As hub_m: 0.001 to 0.5. */
  readonly hub_m?: number;
  /**
   * Thread of the grub screw that holds the sprocket by itself, its cup point on the bare shaft. Usual: 3 mm
   * (0.118 in) to 13 mm (0.512 in). As set_screw_m: 0.002 to 0.03.
   */
  readonly set_screw_m?: number;
  /**
   * Torque that the maker rates its taper bush for. Usual: 5 N m (3.69 lbf ft) to 5000 N m (3688 lbf ft). As
   * bush_torque_Nm: 0.1 to 100000.
   */
  readonly bush_torque_Nm?: number;
  /** The two bearings it runs in. */
  readonly bearings?: BearingsDefinition;
  /**
   * Shock factor on bending, Kb of ASME's code. Default: 2 (suddenly applied loads with minor shocks: ASME's code
   * for transmission shafting, as textbooks of machine design print it, from memory). Usual: 1 to 3. As
   * bending_shock: 1 to 5.
   */
  readonly bending_shock?: number;
  /**
   * Shock factor on torsion, Kt of ASME's code. Default: 1.5 (suddenly applied loads with minor shocks: ASME's
   * code for transmission shafting, as textbooks of machine design print it, from memory). Usual: 1 to 3. As
   * torsion_shock: 1 to 5.
   */
  readonly torsion_shock?: number;
  /**
   * How far outside the nearest bearing its sprocket stands, middle to middle. Usual: 5 mm (0.197 in) to 150 mm
   * (5.91 in). As overhang_m: 0 to 1.
   */
  readonly overhang_m?: number;
  /**
   * How far inside the nearest bearing its sprocket stands, where it runs between them. Default: 0.5 × spacing: in
   * the middle, the bad case (common practice, no source). Usual: 5 mm (0.197 in) to 500 mm (19.7 in). As
   * inboard_m: 0.001 to 1.5.
   */
  readonly inboard_m?: number;
  /**
   * From the middle of a bearing to the middle of the tread beside it. Default: half the difference of gauge and
   * spacing, and 0.05 × gauge (common practice, no source). Usual: 5 mm (0.197 in) to 200 mm (7.87 in). As
   * wheel_offset_m: 0 to 1.
   */
  readonly wheel_offset_m?: number;
}

/** Key of its most loaded sprocket. */
export interface KeyDefinition {
  /**
   * Width of the key, along the circumference. Usual: 2 mm (0.0787 in) to 22 mm (0.866 in). As width_m: 0.0005 to
   * 0.1.
   */
  readonly width_m: number;
  /**
   * Whole height of the key, half of it in the shaft. Usual: 2 mm (0.0787 in) to 18 mm (0.709 in). As height_m:
   * 0.0005 to 0.1.
   */
  readonly height_m: number;
  /**
   * Length of the key that bears, its round ends left out. Usual: 6 mm (0.236 in) to 100 mm (3.94 in). As
   * length_m: 0.001 to 0.5.
   */
  readonly length_m: number;
}

/** The two bearings it runs in. */
export interface BearingsDefinition {
  /**
   * Distance between the middles of the shaft's two bearings. Default: 0.7 × gauge: inside the wheels (common
   * practice, no source). Usual: 30 mm (1.18 in) to 1 m (3.28 ft). As spacing_m: 0.005 to 3.
   */
  readonly spacing_m?: number;
  /**
   * Kind of rolling bearing, for its life. Default: ball (the shorter-lived at light loads: common practice, no
   * source).
   */
  readonly type?: "ball" | "roller";
  /**
   * Basic dynamic load rating C of one bearing, as its maker prints it. Usual: 1000 N (225 lbf) to 100000 N (22481
   * lbf). As rating_N: 10 to 1000000.
   */
  readonly rating_N?: number;
}

/** What the loco's own bearings and wheels take. */
export interface ResistanceDefinition {
  /**
   * Bearings of the axles. Default: ball (small wheels are mostly sold with ball bearings: common practice, no
   * source).
   */
  readonly bearings?: "ball" | "plain";
  /**
   * Rolling resistance as a share of weight. Default: 0.010 with ball bearings, 0.015 with plain (on average club
   * track 0.008 to 0.012 with ball bearings, 0.012 to 0.020 with plain: common practice, no source; measure it
   * with a spring balance). Usual: 0.003 to 0.04. As rolling: 0 to 0.2.
   */
  readonly rolling?: number;
  /**
   * Growth of the rolling resistance with speed, as a share of weight per m/s. Default: 0 s/m (common practice, no
   * source). Usual: up to 0.01 s/m. As rolling_per_speed_spm: 0 to 0.05.
   */
  readonly rolling_per_speed_spm?: number;
  /**
   * Resistance to starting from rest as a share of weight. Default: 1.5 × rolling with ball bearings, 3.3 × with
   * plain (plain ones: 20 lb a ton to start and 6 to run (W. L. Webb, Railroad Construction, pp. 594-595); ball
   * bearings: common practice, no source). Usual: 0.003 to 0.1. As breakaway: 0 to 0.5.
   */
  readonly breakaway?: number;
  /**
   * Curve resistance as a share of weight is this length over the radius. Default: 0.2 × (gauge + wheelbase) / 2
   * (sliding of a rigid wheelbase, after Morrison in Molesworth's Pocket-book p. 219; good to a factor of 1.5).
   * Usual: up to 500 mm (19.7 in). As sliding_length_m: 0 to 10.
   */
  readonly sliding_length_m?: number;
}

/** The motor, by one of its sets of figures. */
export interface MotorDefinition {
  /**
   * How the motor's field is made. Default: permanent-magnet (most small traction motors: common practice, no
   * source).
   */
  readonly kind?: "permanent-magnet" | "series";
  /**
   * Equal motors on the same shaft; every other figure is that of one. Default: 1 (one unless told). Usual: 1 to
   * 4. As count: 1 to 8.
   */
  readonly count?: number;
  /**
   * How several motors are wired; in parallel they share the controller's current. Default: parallel (common
   * practice, no source).
   */
  readonly connection?: "parallel" | "series";
  /** The figures stamped on the motor. */
  readonly nameplate?: NameplateDefinition;
  /** The motor's constants at 20 °C. */
  readonly constants?: ConstantsDefinition;
  /** Three meter readings: turning free, and with the shaft locked. */
  readonly bench?: BenchDefinition;
  /** A measured or printed curve of three rows or more. */
  readonly curve?: CurveDefinition;
  /** Magnetisation points of a series motor. */
  readonly saturation?: SaturationDefinition;
  /** Rated figures beside constants, bench or curve. */
  readonly rated?: RatedDefinition;
  /**
   * Moment of inertia of one motor's rotor. Default: 5e-6 kg m² per watt rated (common practice, no source).
   * Usual: 0.00002 kg m² to 0.2 kg m². As inertia_kgm2: 0.000001 to 100.
   */
  readonly inertia_kgm2?: number;
  /**
   * Magnet material, whose flux falls as it warms. Default: ferrite with a nameplate, otherwise none (ferrite
   * -0.20 %/K, neodymium -0.11 %/K: magnet makers' figures).
   */
  readonly magnet?: "ferrite" | "neodymium" | "none";
  /**
   * Volts lost in the pair of brushes. Default: 0 V (inside the effective resistance worked out from a nameplate).
   * Usual: up to 3 V. As brush_drop_V: 0 to 10.
   */
  readonly brush_drop_V?: number;
  /** How the motor warms. */
  readonly heat?: HeatDefinition;
}

/** The figures stamped on the motor. */
export interface NameplateDefinition {
  /** Rated voltage. Usual: 3 V to 120 V. As voltage_V: 0.1 to 1000. */
  readonly voltage_V: number;
  /** Rated current. Usual: 1 A to 300 A. As current_A: 0.01 to 10000. */
  readonly current_A: number;
  /** Rated speed under load. Usual: 100 rpm to 12000 rpm. As speed_radps: 10 to 10000. */
  readonly speed_radps: number;
  /** Rated power at the shaft. Usual: 20 W to 10000 W. As power_W: 1 to 100000. */
  readonly power_W: number;
  /**
   * Current when it turns free. Default: 11 % of rated current (common practice, no source). Usual: 0.1 A to 50 A.
   * As no_load_current_A: 0.01 to 10000.
   */
  readonly no_load_current_A?: number;
}

/** The motor's constants at 20 °C. */
export interface ConstantsDefinition {
  /** Resistance between the terminals. Usual: 5 mohm to 3 ohm. As resistance_ohm: 0.0001 to 1000. */
  readonly resistance_ohm: number;
  /**
   * Torque per amp, the same number as volts per rad/s. Usual: 0.01 N m/A to 1.5 N m/A. As torque_constant_NmpA:
   * 0.0001 to 10.
   */
  readonly torque_constant_NmpA: number;
  /**
   * Friction torque at any speed. Default: 0 N m (given with the constants or none). Usual: up to 5 N m (3.69 lbf
   * ft). As drag_Nm: 0 to 100.
   */
  readonly drag_Nm?: number;
  /**
   * Growth of the friction torque with speed. Default: 0 N m s (given with the constants or none). Usual: up to
   * 0.01 N m s. As drag_per_speed_Nms: 0 to 1.
   */
  readonly drag_per_speed_Nms?: number;
}

/** Three meter readings: turning free, and with the shaft locked. */
export interface BenchDefinition {
  /** Turning free. */
  readonly free: FreeDefinition;
  /** Shaft held, on a low voltage. */
  readonly locked: LockedDefinition;
}

/** Turning free. */
export interface FreeDefinition {
  /** Volts at the terminals. Usual: 3 V to 120 V. As voltage_V: 0.1 to 1000. */
  readonly voltage_V: number;
  /** Current. Usual: 0.1 A to 50 A. As current_A: 0.01 to 10000. */
  readonly current_A: number;
  /** Speed. Usual: 100 rpm to 12000 rpm. As speed_radps: 10 to 10000. */
  readonly speed_radps: number;
}

/** Shaft held, on a low voltage. */
export interface LockedDefinition {
  /** Volts at the terminals. Usual: 0.3 V to 30 V. As voltage_V: 0.1 to 1000. */
  readonly voltage_V: number;
  /** Current. Usual: 1 A to 300 A. As current_A: 0.01 to 10000. */
  readonly current_A: number;
}

/** A measured or printed curve of three rows or more. */
export interface CurveDefinition {
  /** CSV with torque_Nm,speed_rpm,current_A. Named in files alone: a program hands over what such a file holds. */
  readonly file?: string;
  /** Volts at the terminals all along it. Usual: 3 V to 120 V. As voltage_V: 0.1 to 1000. */
  readonly voltage_V: number;
}

/** Magnetisation points of a series motor. */
export interface SaturationDefinition {
  /** Armature and field together. Usual: 5 mohm to 3 ohm. As resistance_ohm: 0.0001 to 1000. */
  readonly resistance_ohm: number;
  /** Speed the points were taken at. Usual: 100 rpm to 12000 rpm. As speed_radps: 10 to 10000. */
  readonly speed_radps: number;
  /** CSV with current_A,emf_V. Named in files alone: a program hands over what such a file holds. */
  readonly file?: string;
}

/** Rated figures beside constants, bench or curve. */
export interface RatedDefinition {
  /** Rated voltage. Usual: 3 V to 120 V. As voltage_V: 0.1 to 1000. */
  readonly voltage_V?: number;
  /** Rated current. Usual: 1 A to 300 A. As current_A: 0.01 to 10000. */
  readonly current_A?: number;
  /** Rated speed. Usual: 100 rpm to 12000 rpm. As speed_radps: 10 to 10000. */
  readonly speed_radps?: number;
}

/** How the motor warms. */
export interface HeatDefinition {
  /**
   * Mass of one motor. Default: 12 kg per kW rated (common practice, no source). Usual: 500 g (1.1 lb) to 150 kg
   * (331 lb). As mass_kg: 0.05 to 2000.
   */
  readonly mass_kg?: number;
  /**
   * Insulation class: hot spot to 105, 130, 155 or 180 °C. Default: B (classes A, B, F: Kosow, Electric Machinery,
   * table 13-1; H from memory, IEC 60085; the default from common practice, no source).
   */
  readonly insulation?: "A" | "B" | "F" | "H";
  /**
   * Current it carries without passing its class. Default: rated current (what a rating means). Usual: 1 A to 300
   * A. As continuous_current_A: 0.01 to 10000.
   */
  readonly continuous_current_A?: number;
  /**
   * How long it carries that current from cold. Default: always (continuous rating unless told; a plate may mean
   * an hour). Usual: 1 min to 8 h. As continuous_for_s: 1 to 86400.
   */
  readonly continuous_for_s?: number;
  /**
   * What cools the case: still air, at any speed alike, or a fan on the shaft, which a slow motor turns slowly.
   * Default: still (a closed motor without a fan: common practice, no source; with a fan 0.3 of the cooling is
   * left standing (drive textbooks, from memory)).
   */
  readonly cooling?: "still" | "fan";
  /** Heat capacity of the winding and armature. Usual: 20 J/K to 20000 J/K. As winding_capacity_JpK: 1 to 10000000. */
  readonly winding_capacity_JpK?: number;
  /** Heat capacity of the case. Usual: 50 J/K to 100000 J/K. As case_capacity_JpK: 1 to 10000000. */
  readonly case_capacity_JpK?: number;
  /** Thermal resistance from winding to case. Usual: 0.01 K/W to 5 K/W. As winding_to_case_KpW: 0.0001 to 1000. */
  readonly winding_to_case_KpW?: number;
  /** Thermal resistance from case to air. Usual: 0.01 K/W to 5 K/W. As case_to_air_KpW: 0.0001 to 1000. */
  readonly case_to_air_KpW?: number;
}

/** One of these: stages from the motor to the axle. */
export interface GearDefinition {
  /** Teeth of the driving and the driven sprocket. Usual: up to 130. */
  readonly teeth?: readonly [driving: number, driven: number];
  /** Ratio of a closed gearbox. Usual: 0.5 to 60. As ratio: 0.05 to 200. */
  readonly ratio?: number;
  /** Chain size, for the chain checks: 04B, 05B, 06B, 08B, 081, 10B, 12B, 25, 35, 40, 41, 50, 60. */
  readonly chain?: string;
  /**
   * Distance between shaft centres, for the chain checks. Usual: 80 mm (3.15 in) to 1.5 m (4.92 ft). As centres_m:
   * 0.01 to 10.
   */
  readonly centres_m?: number;
  /**
   * Share of the power that comes through. Default: 0.97 for a chain, 0.90 for a gearbox (clean chain 0.96 to
   * 0.98: common practice, no source). Usual: 0.5 to 0.995. As efficiency: 0.1 to 1.
   */
  readonly efficiency?: number;
  /**
   * Moment of inertia of all that turns with the driven wheel. Default: 0.002 kg m², 0 for the last stage (common
   * practice, no source). Usual: up to 0.5 kg m². As driven_inertia_kgm2: 0 to 100.
   */
  readonly driven_inertia_kgm2?: number;
  /** The shaft that drives this stage: the motor's own for the first, then layshafts. */
  readonly shaft?: ShaftDefinition;
}

/** The shaft that drives this stage: the motor's own for the first, then layshafts. */
export interface ShaftDefinition {
  /**
   * Diameter of the solid shaft where it is weakest near its sprocket. Usual: 6 mm (0.236 in) to 80 mm (3.15 in).
   * As diameter_m: 0.002 to 0.3.
   */
  readonly diameter_m?: number;
  /**
   * Steel by its designation: EN 10025-2, EN 10277 or EN ISO 683. Default: S235JR (the weakest of these: the bad
   * case).
   */
  readonly material?:
    | "S235JR"
    | "S275JR"
    | "S355J2"
    | "S235JRC+C"
    | "11SMn30+C"
    | "C45+N"
    | "C45+C"
    | "C45+QT"
    | "42CrMo4+QT";
  /** Key of its most loaded sprocket. */
  readonly key?: KeyDefinition;
  /** Length of the hub that the key lies in. Usual: 6 mm (0.236 in) to 100 mm (3.94 in). As hub_m: 0.001 to 0.5. */
  readonly hub_m?: number;
  /**
   * Thread of the grub screw that holds the sprocket by itself, its cup point on the bare shaft. Usual: 3 mm
   * (0.118 in) to 13 mm (0.512 in). As set_screw_m: 0.002 to 0.03.
   */
  readonly set_screw_m?: number;
  /**
   * Torque that the maker rates its taper bush for. Usual: 5 N m (3.69 lbf ft) to 5000 N m (3688 lbf ft). As
   * bush_torque_Nm: 0.1 to 100000.
   */
  readonly bush_torque_Nm?: number;
  /** The two bearings it runs in. */
  readonly bearings?: BearingsDefinition;
  /**
   * Shock factor on bending, Kb of ASME's code. Default: 2 (suddenly applied loads with minor shocks: ASME's code
   * for transmission shafting, as textbooks of machine design print it, from memory). Usual: 1 to 3. As
   * bending_shock: 1 to 5.
   */
  readonly bending_shock?: number;
  /**
   * Shock factor on torsion, Kt of ASME's code. Default: 1.5 (suddenly applied loads with minor shocks: ASME's
   * code for transmission shafting, as textbooks of machine design print it, from memory). Usual: 1 to 3. As
   * torsion_shock: 1 to 5.
   */
  readonly torsion_shock?: number;
  /**
   * How far outside the nearest bearing its sprocket stands, middle to middle. Default: 0.04 m (common practice,
   * no source). Usual: 5 mm (0.197 in) to 150 mm (5.91 in). As overhang_m: 0 to 1.
   */
  readonly overhang_m?: number;
  /**
   * How far inside the nearest bearing its sprocket stands, where it runs between them. Usual: 5 mm (0.197 in) to
   * 500 mm (19.7 in). As inboard_m: 0.001 to 1.5.
   */
  readonly inboard_m?: number;
  /**
   * The same of the sprocket by which a layshaft is driven. Default: as the sprocket that it drives with (common
   * practice, no source). Usual: 5 mm (0.197 in) to 150 mm (5.91 in). As driven_overhang_m: 0 to 1.
   */
  readonly driven_overhang_m?: number;
  /**
   * The same of the sprocket by which a layshaft is driven. Usual: 5 mm (0.197 in) to 500 mm (19.7 in). As
   * driven_inboard_m: 0.001 to 1.5.
   */
  readonly driven_inboard_m?: number;
}

/** The chopper controller. */
export interface ControllerDefinition {
  /** Most current it gives the motor. Usual: 5 A to 600 A. As motor_current_limit_A: 0.1 to 10000. */
  readonly motor_current_limit_A: number;
  /** Most current it takes from the battery. Usual: 5 A to 600 A. As battery_current_limit_A: 0.1 to 10000. */
  readonly battery_current_limit_A?: number;
  /**
   * Resistance of the switch in the motor's path. Default: 5 mohm (common practice, no source). Usual: up to 50
   * mohm. As on_resistance_ohm: 0 to 10.
   */
  readonly on_resistance_ohm?: number;
  /**
   * Power it takes whenever it is switched on. Default: 2 W (common practice, no source). Usual: up to 50 W. As
   * standing_power_W: 0 to 10000.
   */
  readonly standing_power_W?: number;
  /**
   * Battery volts, at the controller, below which it shuts off. Default: 1.75 V a lead-acid cell, 2.8 V a lifepo4
   * cell (usual end voltages: common practice, no source). Usual: 5 V to 120 V, or 0. As undervoltage_cutout_V: 0
   * to 1000.
   */
  readonly undervoltage_cutout_V?: number;
  /**
   * How long the volts must stay below. Default: 2 s (common practice, no source). Usual: 0.05 s to 30 s, or 0. As
   * cutout_delay_s: 0 to 3600.
   */
  readonly cutout_delay_s?: number;
  /**
   * Time the lever takes from zero to full. Default: 2 s (common practice, no source). Usual: 0.1 s to 20 s, or 0.
   * As ramp_s: 0 to 600.
   */
  readonly ramp_s?: number;
  /** Braking by the motor. Default: none (none unless told). */
  readonly electric_brake?: "none" | "rheostatic" | "regenerative";
  /**
   * Resistor across the motor when braking. Default: 0 ohm (common practice, no source). Usual: 10 mohm to 20 ohm,
   * or 0. As brake_resistance_ohm: 0 to 1000.
   */
  readonly brake_resistance_ohm?: number;
  /** Most current returned to the battery. Usual: 1 A to 300 A. As regen_current_limit_A: 0.1 to 10000. */
  readonly regen_current_limit_A?: number;
  /**
   * Battery volts above which it returns nothing. Default: 2.40 V a lead-acid cell, 3.65 V a lifepo4 cell (where
   * lead-acid begins to gas: common practice, no source; end of charge in data sheets of lifepo4 cells (EVE, 304
   * Ah)). Usual: 5 V to 150 V. As regen_voltage_limit_V: 0.1 to 2000.
   */
  readonly regen_voltage_limit_V?: number;
}

/** The battery. */
export interface BatteryDefinition {
  /** Chemistry; for any other give each.rested_voltage. */
  readonly chemistry?: "lead-acid" | "lifepo4";
  /** Batteries in series. Default: 1 (one unless told). Usual: 1 to 16. As in_series: 1 to 40. */
  readonly in_series?: number;
  /** Strings in parallel. Default: 1 (one unless told). Usual: 1 to 6. As in_parallel: 1 to 20. */
  readonly in_parallel?: number;
  /** One battery as bought; in_series and in_parallel multiply. */
  readonly each: EachDefinition;
  /**
   * Share of the label's capacity left. Default: 1 (as new unless told). Usual: 0.3 to 1.1. As health: 0.01 to
   * 1.2.
   */
  readonly health?: number;
  /**
   * The reserve: share of the charge to keep. Default: 0.5 lead-acid, 0.2 lifepo4 (battery suppliers' advice on
   * depth of discharge). Usual: up to 0.8. As use_down_to: 0 to below 1.
   */
  readonly use_down_to?: number;
  /** A lithium battery's own cut-off, for the whole battery. */
  readonly protection?: ProtectionDefinition;
  /** The charger, for the whole battery. */
  readonly charger?: ChargerDefinition;
}

/** One battery as bought; in_series and in_parallel multiply. */
export interface EachDefinition {
  /** Nominal voltage. Usual: 2 V to 80 V. As voltage_V: 0.5 to 1000. */
  readonly voltage_V: number;
  /**
   * Cells in series inside it. Default: lead-acid volts / 2; lifepo4 12 V 4, 24 V 8, 36 V 12, 48 V 16 (2 V and 3.2
   * V cells: common practice, no source). Usual: 1 to 24. As cells: 1 to 400.
   */
  readonly cells?: number;
  /** Capacity, as one figure or at several hour rates, at 25 °C. Usual: 2 Ah to 600 Ah. */
  readonly capacity?: Capacity;
  /**
   * Peukert exponent, with one rate only. Default: 1.2 for lead-acid (flooded 1.2 to 1.6, AGM 1.05 to 1.15:
   * battery suppliers' figures). Usual: 1 to 1.6. As peukert: 1 to 2.
   */
  readonly peukert?: number;
  /** The two wells given. */
  readonly kinetic?: KineticDefinition;
  /**
   * Rested volts against state of charge. Default: by chemistry (lead-acid: a battery maker's table; lifepo4: a
   * C/32 test of a cell (open data), full 3.40 V a cell after a night's rest (D. Burkitt's collection)). Usual: 1
   * V to 110 V.
   */
  readonly rested_voltage?: readonly (readonly [share: number, volts: number])[];
  /**
   * Internal resistance at 25 °C; cold raises it by chemistry, lead-acid 1.4 and lifepo4 2 times at 0 °C. Default:
   * lead-acid 0.3 ohm Ah / capacity per 12 V; lifepo4 with its management 1 ohm Ah / capacity per 12.8 V (span of
   * makers' figures: common practice, no source). Usual: 0.2 mohm to 300 mohm. As resistance_ohm: 0.000001 to 100.
   */
  readonly resistance_ohm?: number;
  /** Slow part of the voltage drop. */
  readonly polarisation?: PolarisationDefinition;
}

/** The two wells given. */
export interface KineticDefinition {
  /** Charge in both wells. Usual: 2 Ah to 900 Ah. As capacity_C: 36 to 360000000. */
  readonly capacity_C: number;
  /** Share of it in the available well. Usual: 0.05 to 0.95. As available_share: 0.01 to 1. */
  readonly available_share: number;
  /** Exponent rate at which the wells level. Usual: 0.05 /h to 20 /h. As exponent_rate_ps: 0 to 1. */
  readonly exponent_rate_ps: number;
}

/** Slow part of the voltage drop. */
export interface PolarisationDefinition {
  /** Polarisation resistance. Usual: 0.1 mohm to 500 mohm. As resistance_ohm: 0.000001 to 10. */
  readonly resistance_ohm: number;
  /** Time constant. Usual: 1 s to 1 h. As time_s: 0.1 to 1000000. */
  readonly time_s: number;
}

/** A lithium battery's own cut-off, for the whole battery. */
export interface ProtectionDefinition {
  /** Battery current above which it disconnects. Usual: 5 A to 1000 A. As current_A: 0.1 to 10000. */
  readonly current_A?: number;
  /**
   * How long current or voltage must stay beyond its limit. Default: 2 s (common practice, no source). Usual:
   * 0.005 s to 1 min, or 0. As delay_s: 0 to 3600.
   */
  readonly delay_s?: number;
  /** Volts below which it disconnects. Usual: 2 V to 100 V. As low_voltage_V: 0.1 to 2000. */
  readonly low_voltage_V?: number;
  /** Volts above which it disconnects. Usual: 3 V to 130 V. As high_voltage_V: 0.1 to 2000. */
  readonly high_voltage_V?: number;
}

/** The charger, for the whole battery. */
export interface ChargerDefinition {
  /** Most current it gives. Usual: 0.5 A to 100 A. As current_A: 0.01 to 10000. */
  readonly current_A: number;
  /** Volts it goes up to and holds. Usual: 3 V to 130 V. As voltage_V: 0.5 to 2000. */
  readonly voltage_V: number;
}

/** Cables, breaker or fuse, and steady loads. */
export interface WiringDefinition {
  /** Cable between battery and controller. */
  readonly battery_cable?: BatteryCableDefinition;
  /** Cable between controller and motor. */
  readonly motor_cable?: BatteryCableDefinition;
  /** Circuit breaker in the battery lead. */
  readonly breaker?: BreakerDefinition;
  /** Fuse in the battery lead. */
  readonly fuse?: FuseDefinition;
  /** Switch that parts the battery from everything. */
  readonly isolator?: IsolatorDefinition;
  /** Dead-man's switch, which opens when the driver lets go. */
  readonly dead_man?: IsolatorDefinition;
  /** Reversing switch: in the motor's leads, or before the controller's own reverse. */
  readonly reverser?: IsolatorDefinition;
  /**
   * Lamps, horn and other steady load. Default: 0 W (none unless told). Usual: 0.1 W to 500 W, or 0. As
   * accessories_W: 0 to 10000.
   */
  readonly accessories_W?: number;
}

/** Cable between battery and controller. */
export interface BatteryCableDefinition {
  /**
   * Length of cable, there and back. Default: 2 m to the battery, 1.5 m to the motor (common practice, no source).
   * Usual: 100 mm (3.94 in) to 20 m (65.6 ft), or 0. As length_m: 0 to 100.
   */
  readonly length_m?: number;
  /**
   * Area of the copper. Default: 16 mm^2 (common practice, no source). Usual: 1 mm² to 150 mm². As area_mm2: 0.05
   * to 1000.
   */
  readonly area_mm2?: number;
}

/** Circuit breaker in the battery lead. */
export interface BreakerDefinition {
  /** Rated current. Usual: 2 A to 500 A. As rating_A: 0.1 to 10000. */
  readonly rating_A: number;
  /** Magnetic band of IEC 60898-1. Default: C (common practice, no source). */
  readonly curve?: "B" | "C" | "D";
}

/** Fuse in the battery lead. */
export interface FuseDefinition {
  /** Rated current. Usual: 2 A to 500 A. As rating_A: 0.1 to 10000. */
  readonly rating_A: number;
}

/** Switch that parts the battery from everything. */
export interface IsolatorDefinition {
  /** Current it carries for ever. Usual: 0.5 A to 1000 A. As rating_A: 0.01 to 10000. */
  readonly rating_A: number;
  /** Direct current it can break, at the volts it is rated for. Usual: 1 A to 10000 A. As breaks_A: 0.01 to 100000. */
  readonly breaks_A?: number;
  /** Volts of direct current it is rated for. Usual: 5 V to 1000 V. As voltage_V: 0.1 to 2000. */
  readonly voltage_V?: number;
  /**
   * Volts of alternating current printed on it, which say nothing for direct current. Usual: 12 V to 1000 V. As
   * ac_voltage_V: 0.1 to 2000.
   */
  readonly ac_voltage_V?: number;
  /**
   * The circuit it stands in: the main one, or the control circuit of a contactor or the controller. Default: main
   * (the circuit that asks more of it).
   */
  readonly stands?: "main" | "control";
}

/** One of these: brakes of the loco. */
export interface BrakeDefinition {
  /** Force of the hand on the lever. Usual: 10 N (2.25 lbf) to 500 N (112 lbf). As hand_force_N: 0.1 to 5000. */
  readonly hand_force_N?: number;
  /** Force at the blocks for each newton of the hand. Usual: 0.5 to 50. As linkage_ratio: 0.01 to 1000. */
  readonly linkage_ratio?: number;
  /** Share of the force that comes through the linkage. Usual: 0.3 to 0.98. As linkage_efficiency: 0.01 to 1. */
  readonly linkage_efficiency?: number;
  /** Friction of block on wheel. Usual: 0.05 to 0.7. As block_friction: 0.01 to 1. */
  readonly block_friction?: number;
  /** Braking force at the rail. Usual: 10 N (2.25 lbf) to 5000 N (1124 lbf). As rail_force_N: 0.1 to 1000000. */
  readonly rail_force_N?: number;
  /**
   * Braking torque on a shaft. Usual: 0.3 N m (0.221 lbf ft) to 500 N m (369 lbf ft). As torque_Nm: 0.01 to
   * 100000.
   */
  readonly torque_Nm?: number;
  /** Shaft the torque acts on. */
  readonly on?: "motor" | "axle";
  /**
   * Share of this vehicle's weight on braked wheels. Default: 1 (all wheels braked unless told). Usual: 0.1 to 1.
   * As braked_share: 0.01 to 1.
   */
  readonly braked_share?: number;
  /**
   * Time before it begins to bite. Default: 0.3 s (common practice, no source). Usual: 0.05 s to 3 s. As delay_s:
   * 0 to 60.
   */
  readonly delay_s?: number;
  /**
   * Time from nothing to full force. Default: 0.6 s (common practice, no source). Usual: 0.05 s to 5 s. As
   * build_up_s: 0 to 60.
   */
  readonly build_up_s?: number;
  /** What it is for. Default: both (common practice, no source). */
  readonly use?: "service" | "parking" | "both";
  /** Who puts it on. Default: driver (common practice, no source). */
  readonly by?: "driver" | "guard";
  /** Does releasing the dead-man's switch put it on?. Default: no (the safe assumption). */
  readonly on_dead_man?: boolean;
}

/** The track and the state of its rail. */
export interface TrackDefinition {
  /** The profile CSV. Named in files alone: a program hands over what such a file holds. */
  readonly profile?: string;
  /** Does the line close on itself?. Default: circuit (most club tracks: common practice, no source). */
  readonly kind?: "circuit" | "end-to-end";
  /** How an end-to-end train comes back. Default: propel (common practice, no source). */
  readonly at_ends?: "propel" | "run-round" | "turn";
  /**
   * State of the rail: grip 0.25, 0.20, 0.15 or 0.08. Default: dry (dry, damp, wet: a table of traction texts;
   * greasy: common practice, no source).
   */
  readonly rail?: "dry" | "damp" | "wet" | "greasy";
  /** Grip as a share of weight, in place of rail. Usual: 0.05 to 0.4. As adhesion: 0.01 to 1. */
  readonly adhesion?: number;
  /**
   * Wind against the train; all the way round on a circuit: the bad case. Default: 0 m/s (still air unless told).
   * Usual: -43.2 km/h (-26.8 mph) to 43.2 km/h (26.8 mph). As wind_mps: -20 to 20.
   */
  readonly wind_mps?: number;
  /**
   * Spread a misclosure of any size along the length. Default: no (a survey that does not close is usually a
   * mistake).
   */
  readonly spread_misclosure?: boolean;
}

/** The driver. */
export interface DriverDefinition {
  /**
   * Mass of the driver. Default: 80 kg (common practice, no source). Usual: 40 kg (88.2 lb) to 150 kg (331 lb), or
   * 0. As mass_kg: 0 to 250.
   */
  readonly mass_kg?: number;
  /** Loco, or the name of the car the driver sits on. Default: loco (common practice, no source). */
  readonly rides?: string;
}

/** One of these: cars behind the loco, in order. */
export interface CarDefinition {
  /** What the car is called. Default: car and its number. */
  readonly name?: string;
  /**
   * How many of these cars run one behind another. Default: 1 (one unless told). Usual: 1 to 12. As count: 1 to
   * 50.
   */
  readonly count?: number;
  /** Mass of one empty car. Usual: 10 kg (22 lb) to 1500 kg (3307 lb). As mass_kg: 1 to 20000. */
  readonly mass_kg: number;
  /** Length of one car over couplings. Usual: 400 mm (15.7 in) to 6 m (19.7 ft). As length_m: 0.3 to 30. */
  readonly length_m: number;
  /** Seats in one car. Default: 0 (none unless told). Usual: up to 16. As seats: 0 to 40. */
  readonly seats?: number;
  /** Bearings of the axles. Default: as the loco (one workshop builds both: common practice, no source). */
  readonly bearings?: "ball" | "plain";
  /**
   * Rolling resistance as a share of weight. Default: as the loco; by its bearings where they are not the loco's
   * (on average club track 0.008 to 0.012 with ball bearings, 0.012 to 0.020 with plain: common practice, no
   * source; measure it with a spring balance). Usual: 0.003 to 0.04. As rolling: 0 to 0.2.
   */
  readonly rolling?: number;
  /**
   * Growth of the rolling resistance with speed, as a share of weight per m/s. Default: as the loco (common
   * practice, no source). Usual: up to 0.01 s/m. As rolling_per_speed_spm: 0 to 0.05.
   */
  readonly rolling_per_speed_spm?: number;
  /**
   * Resistance to starting from rest as a share of weight. Default: as the loco; by its bearings and its rolling
   * where one of them is not the loco's (plain ones: 20 lb a ton to start and 6 to run (W. L. Webb, Railroad
   * Construction, pp. 594-595); ball bearings: common practice, no source). Usual: 0.003 to 0.1. As breakaway: 0
   * to 0.5.
   */
  readonly breakaway?: number;
  /**
   * Curve resistance as a share of weight is this length over the radius. Default: 0.2 × (gauge + wheelbase) / 2
   * (sliding of a rigid wheelbase, after Morrison in Molesworth's Pocket-book p. 219; good to a factor of 1.5).
   * Usual: up to 500 mm (19.7 in). As sliding_length_m: 0 to 10.
   */
  readonly sliding_length_m?: number;
  /**
   * Rigid wheelbase: of one bogie if it has bogies. Default: 2.2 × gauge (common practice, no source). Usual: 100
   * mm (3.94 in) to 3 m (9.84 ft). As wheelbase_m: 0.01 to 20.
   */
  readonly wheelbase_m?: number;
  /** Number of axles. Default: 4 (common practice, no source). Usual: 2 to 8. As axles: 1 to 12. */
  readonly axles?: number;
  /**
   * Wheel diameter on the tread. Default: 0.6 × gauge (common practice, no source). Usual: 30 mm (1.18 in) to 500
   * mm (19.7 in). As wheel_diameter_m: 0.01 to 2.
   */
  readonly wheel_diameter_m?: number;
  /**
   * Moment of inertia of one wheelset about its axle. Default: two steel discs 15 mm thick: 7850 π 0.015 (d/2)^4
   * kg m² (solid discs; steel at 7850 kg/m³, the thickness from common practice, no source). Usual: 0.0001 kg m²
   * to 10 kg m². As wheelset_inertia_kgm2: 0.000001 to 1000.
   */
  readonly wheelset_inertia_kgm2?: number;
  /** Brakes of the car. */
  readonly brakes?: readonly BrakeDefinition[];
}

/** One of these: stops of the working. */
export interface StopDefinition {
  /** A place of the profile. */
  readonly place: string;
  /** Time at the stop. Usual: 1 s to 1 h, or 0. As dwell_s: 0 to 86400. */
  readonly dwell_s: number;
  /** Direction it stops in. Default: both (common practice, no source). */
  readonly direction?: "out" | "back" | "both";
  /** Passengers aboard after the stop. Usual: up to 100. As passengers: 0 to 1000. */
  readonly passengers?: number;
}
