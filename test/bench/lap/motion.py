"""The derivative of motion.ts in plain Python, as far as a lap at one lever wants it: wheels that grip on a circuit, running
forwards without brakes, the lever held, a battery above its knee; no books but the energy drawn. Names and order of work are
those of test/bench/c, which has all of it. It goes by chainage, not by time. Every figure comes from the core."""

from bisect import bisect_right
from math import floor


def interpolate(xs, ys, x):
    """numeric/tables.ts"""
    if x <= xs[0]:
        return ys[0]
    if x >= xs[-1]:
        return ys[-1]
    i = bisect_right(xs, x) - 1
    return ys[i] + (ys[i + 1] - ys[i]) * (x - xs[i]) / (xs[i + 1] - xs[i])


def derivative(numbers):
    """The function of chainage and state [time, speed, wells, winding, case, drawn] that tells what each gains a metre."""
    plan, train, track = numbers["plan"], numbers["train"], numbers["track"]
    motor, gears, meshes, heat, battery = (train[part] for part in ("motor", "gears", "meshes", "heat", "battery"))
    lever, copper_pK = numbers["lever"], numbers["copper_pK"]
    length_m, d, h, b = (track[name] for name in ("length_m", "distance_m", "height_m", "turned_rad"))
    lean_m = 0 if track["leaning"] == 0 else h[-1] - h[0]
    last = len(d) - 2
    ends_m, vehicles = train["ends_m"], list(enumerate(zip(train["gravity_Npm"], train["curving_Nprad"])))
    perRadius_pm = gears["ratio"] / train["radius_m"]
    flux_NmpA, knots_A, brush_V = motor["flux_NmpA"], motor["current_A"], motor["brush_V"]
    stages = list(zip(meshes["turning_kg"], meshes["efficiency"]))
    along_kg = train["translating_kg"]
    atWheels_kg = meshes["turning_kg"][-1] + along_kg
    span, availableShare, exponent_ps = battery["span"], battery["availableShare"], battery["exponentRate_ps"]
    rested_x, rested_y = battery["rested"]["x"], battery["rested"]["y"]
    source_ohm, standing_A, full_C = train["source_ohm"], train["standing_A"], train["availableFull_C"]
    resistance_ohm, motorPath_ohm, winding20_ohm = battery["resistance_ohm"], train["motorPath_ohm"], motor["resistance20_ohm"]
    fluxPerKelvin_pK, drag0_Nm, drag_Nms = motor["fluxPerKelvin_pK"], motor["drag_Nm"], motor["dragPerSpeed_Nms"]
    airFactor, rolling_N, rolling_Nspm = train["airFactor"], train["rolling_N"], train["rolling_Nspm"]
    wind_mps, air_degC = plan["wind_mps"], plan["air_degC"]
    winding_JpK, case_JpK = heat["winding_JpK"], heat["case_JpK"]
    toCase_KpW, toAir_KpW = heat["windingToCase_KpW"], heat["caseToAir_KpW"]

    def resistingOfLine_N(head_m):
        heights_m, turns_rad = [], []
        for end_m in ends_m:
            along_m = head_m - end_m
            laps = floor(along_m / length_m)
            x = along_m - laps * length_m
            k = min(bisect_right(d, x) - 1, last)
            share = (x - d[k]) / (d[k + 1] - d[k])
            heights_m.append(h[k] + share * (h[k + 1] - h[k]) + laps * lean_m)
            turns_rad.append(b[k] + share * (b[k + 1] - b[k]) + laps * b[-1])
        gravity_N = curves_N = 0.0
        for i, (gravity_Npm, curving_Nprad) in vehicles:
            gravity_N += gravity_Npm * (heights_m[i] - heights_m[i + 1])
            curves_N += curving_Nprad * (turns_rad[i] - turns_rad[i + 1])
        return gravity_N + curves_N

    def currentAtVolts(flux, motor_radps, total_ohm, open_V):
        from_A = knots_A[0]
        missing_V = open_V - flux * flux_NmpA[0] * motor_radps - brush_V[0]
        if missing_V <= 0:
            return 0.0
        for i in range(1, len(knots_A)):
            to_A = knots_A[i]
            left_V = open_V - flux * flux_NmpA[i] * motor_radps - brush_V[i] - total_ohm * to_A
            if left_V <= 0:
                return from_A + (to_A - from_A) * missing_V / (missing_V - left_V)
            from_A, missing_V = to_A, left_V
        return from_A + missing_V / total_ohm

    def acceleration(shaft_N, against_N):
        acceleration_mps2, before_kg = 0.0, None
        for _ in range(len(stages) + 3):
            force_N, moved_kg = shaft_N, 0.0
            for turning_kg, efficiency in stages:
                force_N -= turning_kg * acceleration_mps2
                share = efficiency if force_N >= 0 else 1 / efficiency
                force_N *= share
                moved_kg = (moved_kg + turning_kg) * share
            moved_kg += atWheels_kg
            if moved_kg == before_kg:
                break
            before_kg = moved_kg
            acceleration_mps2 += (force_N - against_N - atWheels_kg * acceleration_mps2) / moved_kg
        return acceleration_mps2

    def rates(head_m, state):
        _, speed_mps, available_C, bound_C, winding_degC, case_degC, _ = state
        motor_radps = speed_mps * perRadius_pm
        flux = 1 + fluxPerKelvin_pK * (case_degC - 20)
        winding_ohm = winding20_ohm * (1 + copper_pK * (winding_degC - 20))
        emf_V = interpolate(rested_x, rested_y, 1 - span * (1 - available_C / full_C))
        open_V = emf_V - source_ohm * standing_A
        total_ohm = winding_ohm + motorPath_ohm + lever * lever * source_ohm
        motor_A = currentAtVolts(flux, motor_radps, total_ohm, lever * open_V)
        battery_A = lever * motor_A + standing_A
        drop_V = interpolate(knots_A, brush_V, motor_A) if motor_A > 0 else 0.0
        airGap_Nm = flux * interpolate(knots_A, flux_NmpA, motor_A) * motor_A

        drag_Nm = drag0_Nm + drag_Nms * motor_radps
        air_mps = speed_mps + wind_mps
        air_N = airFactor * air_mps * abs(air_mps)
        resisting_N = resistingOfLine_N(head_m) + air_N + rolling_N + rolling_Nspm * speed_mps
        speedingUp_mps2 = acceleration((airGap_Nm - drag_Nm) * perRadius_pm, resisting_N)

        flow_A = exponent_ps * (availableShare * bound_C - (1 - availableShare) * available_C)
        made_W = (winding_ohm * motor_A + drop_V) * motor_A
        passed_W = (winding_degC - case_degC) / toCase_KpW
        cooled_W = (case_degC - air_degC) / toAir_KpW
        drawn_W = max(0.0, (emf_V - resistance_ohm * battery_A) * battery_A)
        s = 1 / speed_mps
        return [
            s,
            s * speedingUp_mps2,
            s * (flow_A - battery_A),
            s * -flow_A,
            s * (made_W - passed_W) / winding_JpK,
            s * (passed_W + drag_Nm * motor_radps - cooled_W) / case_JpK,
            s * drawn_W,
        ]

    return rates
