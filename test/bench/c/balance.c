// Ports record/balance.ts and record/sound.ts: the books, which must close on the way and at the end.
#include "parts.h"

static double areaTo(Column x, Column y, double to) {
  const double *xs = x.at, *ys = y.at;
  const int n = x.count;
  if (to <= xs[0]) return ys[0] * (to - xs[0]);
  double area = 0;
  for (int i = 0; i + 1 < n; i++) {
    if (to <= xs[i + 1]) {
      const double at = ys[i] + ((ys[i + 1] - ys[i]) * (to - xs[i])) / (xs[i + 1] - xs[i]);
      return area + ((ys[i] + at) / 2) * (to - xs[i]);
    }
    area += ((ys[i] + ys[i + 1]) / 2) * (xs[i + 1] - xs[i]);
  }
  return area + ys[n - 1] * (to - xs[n - 1]);
}

static double ofWell_J(const Battery *b, double full_C, double left_C) {
  if (!(full_C > 0)) return 0;
  const double empty = areaTo(b->rested.x, b->rested.y, labelShare(b, 0));
  return (full_C / b->span) * (areaTo(b->rested.x, b->rested.y, labelShare(b, left_C / full_C)) - empty);
}

static double energy_J(const Battery *b, double available_C, double bound_C) {
  const double inAvailable_C = b->availableShare * b->wells_C;
  return ofWell_J(b, inAvailable_C, available_C) + ofWell_J(b, b->wells_C - inAvailable_C, bound_C);
}

static double heightAreaTo_m2(const Track *track, double at_m) {
  const double x = onTheLine(track, at_m);
  const double laps = round((at_m - x) / track->length_m);
  const double *d = track->distance_m.at, *h = track->height_m.at, *area = track->heightArea_m2.at;
  const int posts = track->distance_m.count;
  const int i = stretch(track->distance_m, x, (int)floor((x / track->length_m) * posts));
  const double within = x - d[i];
  const double sine = (h[i + 1] - h[i]) / (d[i + 1] - d[i]);
  const double lean_m = track->leaning == 0 ? 0 : h[posts - 1] - h[0];
  const double leant_m2 = lean_m * laps * ((track->length_m * (laps - 1)) / 2 + x);
  return laps * area[posts - 1] + leant_m2 + area[i] + within * (h[i] + (sine * within) / 2);
}

static double potential_J(const Working *w, const double *y) {
  const Train *train = w->train;
  double sum_J = 0;
  for (int i = 0; i + 1 < train->ends_m.count; i++) {
    const double front_m = y[POSITION] - train->ends_m.at[i], back_m = y[POSITION] - train->ends_m.at[i + 1];
    sum_J += train->gravity_Npm.at[i] * (heightAreaTo_m2(w->track, front_m) - heightAreaTo_m2(w->track, back_m));
  }
  return sum_J;
}

static double square(double x) { return x * x; }

static double residualShare(const Working *w) {
  const Train *train = w->train;
  const Battery *b = &train->battery;
  const double *y = w->y, *start = w->start;
  const double held_J = energy_J(b, start[AVAILABLE], start[BOUND]);
  const double chemical_J = held_J - energy_J(b, y[AVAILABLE], y[BOUND]);
  const double rim_mps = w->mode.wheels == 0 ? y[SPEED] : y[RIM_SPEED];
  const double amounts_J[] = {
      y[RECOVERY], y[KNEE], y[POLARISATION_LOSS],
      0.5 * b->polarisation_ohm * b->polarisation_s * (square(y[POLARISATION]) - square(start[POLARISATION])),
      b->resistance_ohm * y[BATTERY_SQUARE], train->batteryCable_ohm * y[BATTERY_SQUARE], y[STANDING],
      train->controller.on_ohm * y[MOTOR_SQUARE], train->motorCable_ohm * y[MOTOR_SQUARE], y[COPPER], y[BRUSHES],
      y[MOTOR_DRAG], y[GEARS], y[SLIP], y[BRAKE_RESISTOR], y[BRAKES], y[ROLLING], y[CURVES], y[AIR],
      0.5 * train->translating_kg * (square(y[SPEED]) - square(start[SPEED])),
      0.5 * train->rim_kg * (square(rim_mps) - square(start[RIM_SPEED])),
      potential_J(w, y) - potential_J(w, start) - w->shifted_J,
  };
  double explained_J = 0, turnover_J = fabs(chemical_J);
  for (size_t i = 0; i < sizeof amounts_J / sizeof *amounts_J; i++) {
    explained_J += amounts_J[i];
    turnover_J += fabs(amounts_J[i]);
  }
  const double of_J = most(most(y[DRAWN], turnover_J / 2), most(LEAST_J, LEAST_SHARE * held_J));
  return (chemical_J - explained_J) / of_J;
}

void mustBeNumbers(const Working *w) {
  double sum = 0;
  for (int i = 0; i < SIZE; i++) sum += w->y[i];
  if (!isfinite(sum)) unported("state that is no number");
}

void mustClose(const Working *w, bool ended) {
  if (!(fabs(residualShare(w)) < (ended ? RESIDUAL : ON_THE_WAY))) unported("books that do not close");
}
