// Ports loop/standing.ts and, of loop/grip.ts, what the driver asks: forces at standing rims, and how far the rail carries.
#include "parts.h"

static double rimForwards_N(const Working *w) {
  const Train *train = w->train;
  return rim_N(&train->gears, train->radius_m, w->now.airGap_Nm - train->motor.drag_Nm, 1);
}

static double rimBackwards_N(const Working *w) {
  const Train *train = w->train;
  return rim_N(&train->gears, train->radius_m, w->now.airGap_Nm + train->motor.drag_Nm, -1);
}

double pullAtRest_N(const Working *w) { return most(0, rimForwards_N(w)); }

double leavingForwards_N(const Working *w) {
  const Instant *now = &w->now;
  const double driven_N = most(rimForwards_N(w) - now->brakeRim_N, -now->staticGrip_N);
  return (w->mode.wheels == 0 ? driven_N : now->contact_N) - now->gravity_N - now->air_N;
}

double leavingBackwards_N(const Working *w) {
  const Instant *now = &w->now;
  const double driven_N = least(rimBackwards_N(w) + now->brakeRim_N, now->staticGrip_N);
  return now->gravity_N + now->air_N - (w->mode.wheels == 0 ? driven_N : now->contact_N);
}

/** Weight moved on to the driven axles: `end` tells which way, and is 0 where none is moved, as all of it is worked out. */
static double transferAt_N(const Working *w, double contact_N, double acceleration_mps2) {
  const Train *train = w->train;
  const Instant *now = &w->now;
  const Mode *mode = &w->mode;
  if (train->brakes != 0) unported("train with brakes");
  const double brake_N = 0;
  const int way = mode->train != 0 ? mode->train : mode->wheels < 0 ? -1 : 1;
  const double own_N = way * (train->locoRolling_N + now->locoCurves_N + brake_N) + now->locoGravity_N;
  const double drawbar_N = contact_N - own_N - train->locoTranslating_kg * acceleration_mps2;
  const double body_N = now->locoGravity_N + train->locoBody_kg * acceleration_mps2;
  const Transfer *t = &train->transfer;
  return t->end * ((drawbar_N * t->coupling_m + body_N * t->gravity_m) / t->base_m);
}

double contactAt_N(const Working *w, double share, double resisting_N) {
  const double perN_mps2 = w->mode.train == 0 ? 0 : 1 / w->train->translating_kg;
  const double at0_N = transferAt_N(w, 0, -resisting_N * perN_mps2);
  const double perN = transferAt_N(w, 1, (1 - resisting_N) * perN_mps2) - at0_N;
  return (share * (w->now.onDrivers_N + at0_N)) / (1 - share * perN);
}
