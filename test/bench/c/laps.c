// Ports what studies/laps.ts does while it runs: looks on at every step and change, and closes a row at every lap.
#include "parts.h"

/** As record/trace.ts has it. */
double stateOfCharge(const Working *w) {
  return most(0, w->plan->charge - w->y[DRAWN_CHARGE] / w->train->battery.label_C);
}

void lookOn(LapCounter *c, const Working *w) {
  if (w->now.terminal_V < c->lowest_V) c->lowest_V = w->now.terminal_V;
  if (w->y[WINDING] > c->hottest_degC) c->hottest_degC = w->y[WINDING];
}

void closeRow(LapCounter *c, const Working *w) {
  if (w->lapsDone == c->count) return;
  const double energy_J = w->y[DRAWN] - w->y[RETURNED];
  c->rows = realloc(c->rows, (c->count + 1) * sizeof *c->rows);
  c->rows[c->count++] = (LapRow){
      .time_s = w->time_s - c->doneTime_s,
      .energy_J = energy_J - c->doneEnergy_J,
      .charge_C = w->y[DRAWN_CHARGE] - c->doneCharge_C,
      .stateOfCharge = stateOfCharge(w),
      .lowest_V = c->lowest_V,
      .hottest_degC = c->hottest_degC,
  };
  c->doneTime_s = w->time_s;
  c->doneEnergy_J = energy_J;
  c->doneCharge_C = w->y[DRAWN_CHARGE];
  c->lowest_V = INFINITY;
  c->hottest_degC = -INFINITY;
}
