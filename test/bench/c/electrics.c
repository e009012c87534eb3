// Ports drive/electrics.ts: battery, cables, controller and motor solved together at one instant.
#include "circuit.h"

static void driveCurrent(const Train *train, const Mode *mode, double lever, double flux, double motor_radps,
                         double path_ohm, double open_V, Instant *now);

void solveElectrics(const Train *train, const Mode *mode, double lever, const double *y, double motor_radps, Instant *now) {
  const Battery *battery = &train->battery;
  const Motor *motor = &train->motor;
  const double flux = fluxFactor(motor, y[CASE]);
  const double winding_ohm = motorResistance_ohm(motor, y[WINDING]);
  const double path_ohm = winding_ohm + train->motorPath_ohm;
  const double available = labelShare(battery, y[AVAILABLE] / train->availableFull_C);
  const double rested = rested_V(battery, available);
  if (mode->braking) unported("braking with the motor");
  if (available < battery->kneeShare) unported("battery below its knee");
  const double well_V = rested;
  const double emf_V = well_V - battery->polarisation_ohm * y[POLARISATION];
  const double standing_A = mode->connected ? train->standing_A : 0;
  const double open_V = emf_V - train->source_ohm * standing_A;

  now->motor_A = 0;
  now->duty = 0;
  now->limitedBy = BY_lever;
  now->excitation_V = INFINITY;
  if (mode->powered) driveCurrent(train, mode, lever, flux, motor_radps, path_ohm, open_V, now);

  const double motor_A = now->motor_A;
  const double battery_A = now->duty * motor_A + standing_A;
  now->rested_V = rested;
  now->emf_V = emf_V;
  now->battery_A = battery_A;
  now->terminal_V = terminal_V(battery, well_V, y[POLARISATION], battery_A);
  now->supply_V = emf_V - train->source_ohm * battery_A;
  now->winding_ohm = winding_ohm;
  now->flux_NmpA = flux * interpolate(motor->current_A, motor->flux_NmpA, fabs(motor_A));
  now->brush_V = sign(motor_A) * interpolate(motor->current_A, motor->brush_V, fabs(motor_A));
  now->airGap_Nm = now->flux_NmpA * motor_A;
  now->motor_V = motor_A == 0 ? 0 : now->flux_NmpA * motor_radps + path_ohm * motor_A + now->brush_V;
}

static void driveCurrent(const Train *train, const Mode *mode, double lever, double flux, double motor_radps,
                         double path_ohm, double open_V, Instant *now) {
  const Motor *motor = &train->motor;
  const double source_ohm = train->source_ohm;
  const double duty = lever;
  const double total_ohm = path_ohm + duty * duty * source_ohm;
  if (motor->series && mode->rim < 0) unported("series motor turned backwards");
  now->motor_A = currentAtVolts(motor, flux, motor_radps, total_ohm, duty * open_V);
  const double motor_A = now->motor_A;
  if (lever >= 1) now->limitedBy = BY_duty;
  if (motor_A == 0) now->limitedBy = BY_no_load_speed;
  else if (2 * duty * source_ohm * motor_A > open_V) now->limitedBy = BY_battery;
  if (motor_A > train->controller.motorLimit_A) unported("controller's limit of motor current");
  if (duty * motor_A > train->controller.batteryLimit_A) unported("controller's limit of battery current");
  now->motor_A = motor_A;
  now->duty = duty;
}
