// Ports run.ts: the driver looks up every tenth of a second; between his moves the train obeys its physics.
#include "core.h"

static void lookForTheEnd(const Working *w) {
  if (w->time_s >= ONE_DAY_s) unported("day of 24 hours");
  if (w->mode.train != 0 || !leverSettled(w)) return;
  unported("train that stalls");
}

/** With `states`, what stands there after every so many looks, and at the end, is written: time and state. */
static void tell(FILE *states, const Working *w) {
  fwrite(&w->time_s, sizeof w->time_s, 1, states);
  fwrite(w->y, sizeof w->y, 1, states);
}

Working *run(const Numbers *n, LapCounter *counter, FILE *states) {
  Working *w = startWorking(n);
  if (n->plan.stops != 0) unported("stops");
  if (n->train.controller.brakes) unported("electric brake");
  const double step_s = chooseStep_s(w);
  const int stepsALook = (int)round(DRIVER_s / step_s);
  const int stepsASecond = (int)round(1 / step_s);
  const int looksATelling = (int)n->looksATelling;
  Stepper s;
  *counter = (LapCounter){.lowest_V = INFINITY, .hottest_degC = -INFINITY};
  createStepper(&s, w, counter);
  lookAgain(&s, w);
  for (int i = 0; !w->ended; i++) {
    if (i % stepsALook == 0) {
      mustBeNumbers(w);
      if (i % ((int)LOOKS_AT_BOOKS * stepsALook) == 0) mustClose(w, false);
      if (states && i % (looksATelling * stepsALook) == 0) tell(states, w);
      drive(w);
      lookAgain(&s, w);
      lookForTheEnd(w);
    }
    advance(&s, w, (double)(i + 1) / stepsASecond);
  }
  mustBeNumbers(w);
  mustClose(w, true);
  if (states) tell(states, w);
  free(s.line.bends);
  return w;
}
