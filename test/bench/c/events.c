// Ports loop/events.ts and, of driver/marks.ts, the end of a lap: the events that the day meets, and what each changes.
#include "core.h"

static const char *const MARGIN_NAMES[] = MARGIN_WORDS;

static void leave(Working *w, int way) {
  w->mode.train = way;
  if (w->mode.wheels == 0) w->mode.rim = way;
  logEvent(w, STARTS);
}

static void reachMark(Working *w) {
  w->lapsDone++;
  logEvent(w, LAP);
  w->mark_m = (w->lapsDone + 1) * w->track->length_m;
}

static void act(Working *w, int margin) {
  if (margin == AT_leaves_forwards_N) leave(w, 1);
  else if (margin == AT_mark_m) reachMark(w);
  else unported(MARGIN_NAMES[margin]);
}

bool settle(Working *w, double *margins, double *dydt) {
  int acted = 0;
  while (!w->ended) {
    motion(w, dydt, w->y, w->time_s);
    fillMargins(w, w->y, margins);
    const int first = firstNegative(margins);
    if (first < 0) return true;
    if (++acted > MOST_AT_ONCE) unported("events that chase each other");
    act(w, first);
  }
  return false;
}

int firstNegative(const double *margins) {
  for (int i = 0; i < MARGINS; i++)
    if (margins[i] < 0) return i;
  return -1;
}

double nextDue_s(const Working *w) { return w->cutoutDue_s < w->durationDue_s ? w->cutoutDue_s : w->durationDue_s; }

void actOnDues(Working *w) {
  if (w->time_s >= w->durationDue_s) end(w);
  if (w->time_s >= w->cutoutDue_s) unported("cut-out");
}
