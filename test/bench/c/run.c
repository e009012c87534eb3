// Ports run.ts: the driver looks up every tenth of a second, rolling along every half; between moves the train obeys its physics.
#include "core.h"

static void lookForTheEnd(const Working *w) {
  if (w->time_s >= ONE_DAY_s) unported("day of 24 hours");
  if (w->mode.train != 0 || !leverSettled(w)) return;
  unported("train that stalls");
}

/** With `states`, what stands there at the first look of every minute, and at the end, is written: time and state. */
static void tell(FILE *states, const Working *w) {
  fwrite(&w->time_s, sizeof w->time_s, 1, states);
  fwrite(w->y, sizeof w->y, 1, states);
}

/** Carries it on until the driver looks up again; tells at which tenth of a second that is. */
static int goOn(Working *w, Stepper *s, int from, double step_s) {
  const double looksASecond = round(1 / DRIVER_s);
  const int seen = w->eventCount;
  const int looksIn = w->looksIn;
  const int tenthIn = (int)ceil(DRIVER_s / step_s - ROUNDING);
  const int inTenth = tenthIn > 1 ? tenthIn : 1;
  const int parts = inTenth > 1 ? looksIn * inTenth : (int)ceil((looksIn * DRIVER_s) / step_s - ROUNDING);
  for (int n = 1; n <= parts && w->eventCount == seen; n++)
    advance(s, w, (double)(from * parts + n * looksIn) / (looksASecond * parts));
  if (w->eventCount == seen) return from + looksIn;
  const int tenth = (int)ceil(w->time_s * looksASecond - ROUNDING);
  const int next = tenth > from + 1 ? tenth : from + 1;
  for (int n = 1; n <= inTenth; n++) {
    const double until_s = (double)((next - 1) * inTenth + n) / (looksASecond * inTenth);
    while (w->time_s < until_s && !w->ended) advance(s, w, until_s);
  }
  return next;
}

Working *run(const Numbers *n, LapCounter *counter, FILE *states) {
  Working *w = startWorking(n);
  if (n->plan.stops != 0) unported("stops");
  if (n->train.controller.brakes) unported("electric brake");
  const double step_s = chooseStep_s(w);
  double books_s = 0, told_s = 0;
  Stepper s;
  *counter = (LapCounter){.lowest_V = INFINITY, .hottest_degC = -INFINITY};
  createStepper(&s, w, counter);
  lookAgain(&s, w);
  for (int tenth = 0; !w->ended;) {
    mustBeNumbers(w);
    if (w->time_s >= books_s) {
      mustClose(w, false);
      books_s += LOOKS_AT_BOOKS_s;
    }
    if (states && w->time_s >= told_s) {
      tell(states, w);
      told_s += n->toldEvery_s;
    }
    w->looksIn = 1;
    drive(w);
    lookAgain(&s, w);
    lookForTheEnd(w);
    tenth = goOn(w, &s, tenth, step_s);
  }
  mustBeNumbers(w);
  mustClose(w, true);
  if (states) tell(states, w);
  free(s.line.bends);
  return w;
}
