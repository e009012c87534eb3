// Ports driver/driver.ts: one look and one move of a driver to a speed, with nothing to come in to and no brake.
#include "parts.h"

static void noteSpeed(Working *w) {
  const double speed_mps = w->y[SPEED];
  const double target_mps = targetSpeed_mps(w);
  if (speed_mps <= TOO_FAST * target_mps) w->fastSince_s = NAN;
  else if (isnan(w->fastSince_s)) w->fastSince_s = w->time_s;
  if (w->time_s - w->fastSince_s < BORNE_s || isnan(w->fastSince_s)) return;
  unported("train that runs too fast for long");
}

static double forceFor_N(const Working *w, double wanted_mps2) {
  const Train *train = w->train;
  const Instant *now = &w->now;
  const double running_N = rollingAt_N(train, w->y[SPEED], 1) + now->curves_N;
  const double asked_N = train->translating_kg * wanted_mps2 + now->gravity_N + now->air_N + running_N;
  return w->mode.train == 0
             ? most(asked_N, BREAKAWAY_HAND * (train->breakaway_N + now->curves_N) + now->gravity_N + now->air_N)
             : asked_N;
}

static double forceForSpeed_N(const Working *w, double ahead_s) {
  const Plan *plan = w->plan;
  const double speed_mps = w->y[SPEED];
  const double then_mps = most(0, speed_mps + w->now.acceleration_mps2 * ahead_s);
  const double target_mps = targetSpeed_mps(w);
  // With nothing to come in to there is no curve: its speed is the target, its slope nothing.
  const double curve_mps = target_mps, curve_mps2 = 0;
  const double alongCurve_mps2 = curve_mps > 0 ? (curve_mps2 * most(then_mps, CREEP_mps)) / curve_mps : curve_mps2;
  const double gap_mps = least(target_mps, curve_mps) - then_mps;
  const double wanted_mps2 = least(
      most(alongCurve_mps2 + gap_mps / CLOSES_GAP_s, least(-plan->serviceBraking_mps2, curve_mps2 / SHARE_USED)),
      plan->acceleration_mps2);
  return forceFor_N(w, wanted_mps2);
}

static bool rollsAlong(const Working *w) {
  // There is nothing to stop or draw up for, and no limit to ease for.
  if (w->mode.train <= 0 || w->mode.wheels != 0 || w->minding) return false;
  if (fabs(w->lever - w->leverWanted) > LEVER_ROUNDING) return false;
  const double target_mps = targetSpeed_mps(w);
  if (fabs(w->y[SPEED] - target_mps) > AT_SPEED * target_mps) return false;
  return !limitToEaseFor(w);
}

static void holdUntilItPulls(Working *w) {
  double scratch[SIZE];
  motion(w, scratch, w->y, w->time_s);
  // Letting off has no brake to let off.
}

static double leftToBrakes_N(Working *w, double asked_N) {
  double scratch[SIZE];
  motion(w, scratch, w->y, w->time_s);
  if (w->mode.wheels != 0) unported("wheels that slide");
  if (w->mode.braking) unported("braking with the motor");
  return brakesMissing_N(w, -motorDrag_N(w->train, w->y[SPEED]), asked_N);
}

static void slow(Working *w, double force_N) {
  if (force_N > 0 && w->lever > 0) shutLever(w);
  if (w->train->brakes != 0) unported("train with brakes");
}

void drive(Working *w) {
  w->minding = false;
  if (isnan(w->plan->speed_mps)) unported("lever that is held");
  noteSpeed(w);
  if (w->mode.train > 0) lookForLimits(w);
  const double asked_N = forceForSpeed_N(w, 0);
  const double ofMotor_N = least(asked_N, most(0, asked_N));
  moveLever(w, leverForSpeed(w, ofMotor_N), DRIVER_s);
  if (rollsAlong(w)) w->looksIn = (int)ROLLING_ALONG;
  if (w->mode.train == 0) holdUntilItPulls(w);
  else slow(w, asked_N < 0 ? leftToBrakes_N(w, asked_N) : 0);
}

bool leverSettled(const Working *w) { return w->lever > 0 && fabs(w->lever - w->leverWanted) < LEVER_ROUNDING; }
