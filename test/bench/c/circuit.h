// Ports drive/circuit.ts: the motor's volts and currents against each other, straight from knot to knot.
#pragma once
#include "parts.h"

static inline double motorVolts(const Motor *m, double flux, double motor_radps, double path_ohm, double current_A) {
  return flux * interpolate(m->current_A, m->flux_NmpA, current_A) * motor_radps + path_ohm * current_A +
         interpolate(m->current_A, m->brush_V, current_A);
}

static inline double currentAtVolts(const Motor *m, double flux, double motor_radps, double total_ohm, double open_V) {
  const double *current_A = m->current_A.at, *flux_NmpA = m->flux_NmpA.at, *brush_V = m->brush_V.at;
  double from_A = current_A[0];
  double missing_V = open_V - flux * flux_NmpA[0] * motor_radps - brush_V[0];
  if (missing_V <= 0) return 0;
  for (int i = 1; i < m->current_A.count; i++) {
    const double to_A = current_A[i];
    const double left_V = open_V - flux * flux_NmpA[i] * motor_radps - brush_V[i] - total_ohm * to_A;
    if (left_V <= 0) return from_A + ((to_A - from_A) * missing_V) / (missing_V - left_V);
    from_A = to_A;
    missing_V = left_V;
  }
  return from_A + missing_V / total_ohm;
}

static inline double rootOfPower(double at0_V, double slope_ohm, double power_W) {
  return (2 * power_W) / (at0_V + sqrt(at0_V * at0_V + 4 * slope_ohm * power_W));
}

static inline double dutyFor(double motor_V, double motor_A, double open_V, double source_ohm) {
  const double root = open_V * open_V - 4 * source_ohm * motor_A * motor_V;
  return root < 0 ? NAN : (2 * motor_V) / (open_V + sqrt(root));
}

static inline double currentForTorque(const Motor *m, double flux, double airGap_Nm) {
  const double *current_A = m->current_A.at, *flux_NmpA = m->flux_NmpA.at;
  const int last = m->current_A.count - 1;
  const double torque_Nm = airGap_Nm / flux;
  for (int i = 0; i < last; i++) {
    if (flux_NmpA[i + 1] * current_A[i + 1] < torque_Nm) continue;
    const double slope = (flux_NmpA[i + 1] - flux_NmpA[i]) / (current_A[i + 1] - current_A[i]);
    return rootOfPower(flux_NmpA[i] - slope * current_A[i], slope, torque_Nm);
  }
  return torque_Nm / flux_NmpA[last];
}
