// Ports working.ts: one working from standing ready, its lever and its log.
#include "parts.h"

void unported(const char *what) {
  fprintf(stderr, "not in the port to C: %s; the day is another than the one it was written for\n", what);
  exit(3);
}

Working *startWorking(const Numbers *n) {
  Working *w = calloc(1, sizeof *w);
  const int ends = n->train.ends_m.count;
  w->plan = &n->plan;
  w->train = &n->train;
  w->track = &n->track;
  if (n->start.count != SIZE) unported("such a state");
  memcpy(w->y, n->start.at, sizeof w->y);
  memcpy(w->start, n->start.at, sizeof w->start);
  w->mode.connected = true;
  w->wind_mps = n->plan.wind_mps;
  w->air_degC = n->plan.air_degC;
  w->mark_m = n->track.length_m;
  w->fastSince_s = NAN;
  w->cutoutDue_s = INFINITY;
  w->durationDue_s = n->plan.duration_s;
  w->heights_m = calloc(ends, sizeof(double));
  w->turns_rad = calloc(ends, sizeof(double));
  w->hints = calloc(ends, sizeof(int));
  return w;
}

void freeWorking(Working *w) {
  free(w->events);
  free(w->heights_m);
  free(w->turns_rad);
  free(w->hints);
  free(w);
}

double chainage_m(const Working *w) { return onTheLine(w->track, w->y[POSITION]); }

void logEvent(Working *w, int kind) {
  if (w->eventCount == w->mostEvents) {
    w->mostEvents = w->mostEvents ? 2 * w->mostEvents : 16;
    w->events = realloc(w->events, w->mostEvents * sizeof *w->events);
  }
  w->events[w->eventCount++] = (Event){kind, w->lapsDone + 1, w->time_s, chainage_m(w)};
}

void end(Working *w) {
  if (w->ended) return;
  w->ended = true;
  logEvent(w, COMPLETED);
}

void moveLever(Working *w, double wanted, double time_s) {
  const double ramp_s = w->train->controller.ramp_s;
  const double reach = ramp_s > 0 ? time_s / ramp_s : 1;
  const double from = wanted * w->lever < 0 ? 0 : w->lever;
  w->leverWanted = wanted;
  w->lever = least(most(wanted, from - reach), from + reach);
  if (w->lever == 0) shutLever(w);
  w->mode.powered = w->lever != 0 && w->mode.connected;
  w->mode.braking = w->lever < 0 && w->mode.connected;
}

void shutLever(Working *w) {
  w->lever = 0;
  w->leverWanted = 0;
  w->mode.powered = false;
  w->mode.braking = false;
  w->cutoutDue_s = INFINITY;
}
