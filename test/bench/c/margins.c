// Ports margins.ts: how far from each event, positive until it happens; Infinity where it cannot in the present mode.
#include "parts.h"

static void motionMargins(const Working *w, const double *y, double *restrict margins) {
  const Mode *mode = &w->mode;
  const Instant *now = &w->now;
  if (mode->train == 0) {
    margins[AT_leaves_forwards_N] = now->hold_N - leavingForwards_N(w);
    margins[AT_leaves_backwards_N] = now->hold_N - leavingBackwards_N(w);
  } else {
    margins[AT_train_stops_mps] = mode->train * y[SPEED];
    if (y[SPEED] == 0) margins[AT_gets_away_mps2] = mode->train * now->acceleration_mps2 + ROUNDING_mps2;
  }
  if (mode->wheels != 0) unported("wheels that slide");
  margins[AT_grip_N] = now->staticGrip_N - fabs(now->contact_N);
  if (mode->train != 0 && w->train->brakes != 0) unported("train with brakes");
  // No stop stands on this line, so no approach and no overrun; a lap ends at its mark.
  margins[AT_mark_m] = w->mark_m - y[POSITION];
  if (mode->train < 0) unported("train that rolls back");
}

static void electricalMargins(const Working *w, const double *y, double *restrict margins) {
  const Train *train = w->train;
  const Instant *now = &w->now;
  const Mode *mode = &w->mode;
  if (!mode->connected) unported("battery that is cut off");
  if (train->controller.cutout_V > 0 && mode->powered) {
    if (w->cutoutDue_s == INFINITY) margins[AT_cutout_V] = now->supply_V - train->controller.cutout_V;
    else unported("cut-out that is waiting");
  }
  margins[AT_empty_C] = y[AVAILABLE];
  if (mode->full || mode->braking) unported("braking with the motor");
  margins[AT_breaker_heating] = 1 - y[BREAKER];
  margins[AT_breaker_magnetic_A] = train->breaker.magnetic_A - now->battery_A;
  if (train->breaking != 0) unported("switches that say what they break");
  if (train->protection != 0) unported("battery with protection of its own");
  if (mode->powered) margins[AT_excitation_V] = now->excitation_V;
  margins[AT_burns_out_degC] = BURNT_OUT_degC - most(y[WINDING], y[CASE]);
  if (!w->tooHot) margins[AT_winding_degC] = train->heat.limit_degC - y[WINDING];
}

void fillMargins(const Working *w, const double *y, double *restrict margins) {
  for (int i = 0; i < MARGINS; i++) margins[i] = INFINITY;
  motionMargins(w, y, margins);
  electricalMargins(w, y, margins);
}
