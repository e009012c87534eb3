// Ports loop/stepper.ts: steps that end on every event and bend, and the derivative that is kept from each to the next.
#include "parts.h"

/** Margins of a state, the derivative there kept; has one gone negative? */
static bool look(Stepper *s, Working *w, double time_s) {
  motion(w, s->firstStage, w->y, time_s);
  fillMargins(w, w->y, s->margins);
  return firstNegative(s->margins) >= 0;
}

static bool tryStep(Stepper *s, Working *w, double dt_s) {
  rk4Step(w, w->y, w->time_s, dt_s, s);
  return look(s, w, w->time_s + dt_s);
}

/** From the copy. */
static void goBack(Stepper *s, Working *w) {
  memcpy(w->y, s->from, sizeof w->y);
  s->firstStageKnown = false;
}

static bool again(Stepper *s, Working *w, double dt_s) {
  goBack(s, w);
  return tryStep(s, w, dt_s);
}

static double driveBends(Stepper *s, Working *w, double whole_s) {
  double before_s = 0;
  double after_s = whole_s;
  while (after_s - before_s > whole_s * BENT_WITHIN) {
    const double middle_s = (before_s + after_s) / 2;
    again(s, w, middle_s);
    if (driveHasBent(&s->drive, w)) after_s = middle_s;
    else before_s = middle_s;
  }
  return after_s;
}

static double leastFired(Stepper *s, Working *w, double dt_s) {
  goBack(s, w);
  if (dt_s > 0) tryStep(s, w, dt_s);
  else look(s, w, w->time_s);
  double least_left = INFINITY;
  for (int i = 0; i < MARGINS; i++)
    if (s->fired[i] && s->margins[i] < least_left) least_left = s->margins[i];
  return least_left;
}

static double land(Stepper *s, Working *w, double whole_s) {
  for (int i = 0; i < MARGINS; i++) s->fired[i] = s->margins[i] < 0;
  double beyond_s = whole_s;
  double beyond = leastFired(s, w, whole_s);
  double short_s = 0;
  double short_by = most(0, leastFired(s, w, 0));
  int side = 0;
  for (int tries = 0; beyond_s - short_s > LANDING_s; tries++) {
    const double secant_s = short_s + ((beyond_s - short_s) * short_by) / (short_by - beyond);
    const double dt_s = tries % 8 == 7 ? (short_s + beyond_s) / 2
                                       : least(most(secant_s, short_s + LANDING_s / 4), beyond_s - LANDING_s / 4);
    const double left = leastFired(s, w, dt_s);
    if (left < 0) {
      beyond_s = dt_s;
      beyond = left;
      if (side < 0) short_by /= 2;
      side = -1;
    } else {
      short_s = dt_s;
      short_by = left;
      if (side > 0) beyond /= 2;
      side = 1;
    }
  }
  leastFired(s, w, beyond_s);
  return beyond_s;
}

static void countEvent(Stepper *s, const Working *w) {
  if (floor(w->time_s) != s->second) s->events = 0;
  s->second = floor(w->time_s);
  if (++s->events > MOST_A_SECOND) unported("events without end");
}

void lookAgain(Stepper *s, Working *w) {
  const int logged = w->eventCount;
  s->firstStageKnown = settle(w, s->margins, s->firstStage);
  lookOn(s->counter, w);
  if (w->eventCount > logged) closeRow(s->counter, w);
}

static void stepTo(Stepper *s, Working *w, double to_s) {
  const double start_s = w->time_s;
  if (++w->steps > MOST_STEPS) unported("so many steps");
  memcpy(s->from, w->y, sizeof s->from);
  keepDrive(&s->drive, w);
  bool landed = tryStep(s, w, to_s - start_s);
  if (driveHasBent(&s->drive, w)) {
    to_s = start_s + driveBends(s, w, to_s - start_s);
    landed = again(s, w, to_s - start_s);
  }
  w->time_s = landed ? start_s + land(s, w, to_s - start_s) : to_s;
  s->firstStageKnown = !landed;
  if (landed) countEvent(s, w);
  lookOn(s->counter, w);
  if (landed) lookAgain(s, w);
}

void createStepper(Stepper *s, Working *w, LapCounter *counter) {
  *s = (Stepper){.counter = counter};
  lookAtLine(&s->line, w);
  motion(w, s->firstStage, w->y, w->time_s);
}

void advance(Stepper *s, Working *w, double until_s) {
  const int logged = w->eventCount;
  while (w->time_s < until_s && !w->ended && w->eventCount == logged) {
    const double due_s = nextDue_s(w);
    const double bend_s = nextLineBend_s(&s->line);
    const double part_s = w->time_s + (until_s - w->time_s) / partsOfStep(w);
    stepTo(s, w, least(least(until_s, due_s), least(bend_s, part_s)));
    if (w->time_s < due_s) continue;
    actOnDues(w);
    lookAgain(s, w);
  }
}
