// Ports batteryAndHeat and mechanicalBooks of motion.ts: what follows from the forces for battery, heat and the books.
#include "parts.h"

void batteryAndHeat(Working *w, double *restrict dydt, const double *y, double drag_W) {
  const Train *train = w->train;
  const Instant *now = &w->now;
  const Battery *battery = &train->battery;
  const Heat *heat = &train->heat;
  const double flow = flow_A(battery, y[AVAILABLE], y[BOUND]);
  const double current_A = now->battery_A;
  dydt[AVAILABLE] = flow - current_A;
  dydt[BOUND] = -flow;
  dydt[POLARISATION] = polarisationRate_Aps(battery, y[POLARISATION], current_A);

  const double copper_W = now->winding_ohm * now->motor_A * now->motor_A;
  const double brush_W = now->brush_V * now->motor_A;
  dydt[WINDING] = windingRate_Kps(heat, copper_W + brush_W, y[WINDING], y[CASE]);
  dydt[CASE] = caseRate_Kps(heat, drag_W, y[WINDING], y[CASE], w->air_degC);
  dydt[BREAKER] = imageRate_ps(&train->breaker, y[BREAKER], current_A);

  const double terminal_W = now->terminal_V * current_A;
  dydt[DRAWN_CHARGE] = current_A;
  dydt[DRAWN] = most(0, terminal_W);
  dydt[RETURNED] = most(0, -terminal_W);
  dydt[BATTERY_SQUARE] = current_A * current_A;
  dydt[MOTOR_SQUARE] = now->motor_A * now->motor_A;
  dydt[RECOVERY] =
      flow == 0 ? 0 : flow * (rested_V(battery, labelShare(battery, y[BOUND] / train->boundFull_C)) - now->rested_V);
  dydt[KNEE] = (now->rested_V - now->emf_V - battery->polarisation_ohm * y[POLARISATION]) * current_A;
  dydt[POLARISATION_LOSS] = battery->polarisation_ohm * y[POLARISATION] * y[POLARISATION];
  dydt[STANDING] = (current_A - now->duty * now->motor_A) * now->supply_V;
  if (w->mode.braking) unported("braking with the motor");
  dydt[BRAKE_RESISTOR] = 0;
  dydt[COPPER] = copper_W;
  dydt[BRUSHES] = brush_W;
}

void mechanicalBooks(Working *w, double *restrict dydt, double speed_mps, double rim_mps, double drag_W) {
  const Train *train = w->train;
  const Mode *mode = &w->mode;
  const Instant *now = &w->now;
  dydt[MOTOR_DRAG] = drag_W;
  const double intoMeshes_N =
      now->shaft_N - mode->rim * now->brakeShaft_N - train->beforeLastMesh_kg * now->rimAcceleration_mps2;
  dydt[GEARS] = (intoMeshes_N - now->rim_N) * rim_mps;
  dydt[SLIP] = now->contact_N * (rim_mps - speed_mps) + mode->train * now->locked_N * speed_mps;
  const double brakeOnWheels_N = now->brakeRim_N - now->brakeShaft_N / train->gears.efficiency;
  const double onDriven_W = mode->rim * (brakeOnWheels_N + now->brakeShaft_N) * rim_mps;
  dydt[BRAKES] = onDriven_W + mode->train * (now->brakeAxles_N - now->locked_N) * speed_mps;
  dydt[ROLLING] = now->rolling_N * speed_mps;
  dydt[CURVES] = mode->train * now->curves_N * speed_mps;
  dydt[AIR] = now->air_N * speed_mps;
}
