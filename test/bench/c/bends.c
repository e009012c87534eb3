// Ports loop/bends.ts: when a coupling next passes a post at which the line bends, and whether the drive has bent.
#include "parts.h"

static double slope(const Track *t, Column ys, int i) {
  const double *d = t->distance_m.at;
  return (ys.at[i + 1] - ys.at[i]) / (d[i + 1] - d[i]);
}

static bool alike(const Track *t, Column ys, int i, int before) {
  return fabs(slope(t, ys, i) - slope(t, ys, before)) < ALIKE;
}

static void bendsOf(LineAhead *line, const Track *t) {
  const int last = t->distance_m.count - 2;
  line->bends = malloc((last + 1) * sizeof *line->bends);
  line->count = 0;
  for (int i = 0; i <= last; i++) {
    const int before = i == 0 ? last : i - 1;
    if (!alike(t, t->height_m, i, before) || !alike(t, t->turned_rad, i, before))
      line->bends[line->count++] = t->distance_m.at[i];
  }
}

void lookAtLine(LineAhead *line, const Working *w) {
  *line = (LineAhead){.w = w, .head_m = NAN};
  bendsOf(line, w->track);
}

/** How many of the rising values are no greater than `x`, by halves. */
static int countTo(const double *values, int count, double x) {
  int low = 0;
  int high = count;
  while (low < high) {
    const int middle = (low + high) >> 1;
    if (values[middle] <= x) low = middle + 1;
    else high = middle;
  }
  return low;
}

static double nextHead_m(const LineAhead *line, double from_m, int way) {
  const Column ends = line->w->train->ends_m;
  const double length_m = line->w->track->length_m;
  const double *bends = line->bends;
  double nearest_m = way * INFINITY;
  for (int k = 0; k < ends.count; k++) {
    const double end_m = ends.at[k];
    const double along_m = from_m - end_m + way * PASSED_m;
    const double laps = floor(along_m / length_m);
    const int beyond = countTo(bends, line->count, along_m - laps * length_m);
    const int i = way > 0 ? beyond : beyond - 1;
    const bool found = i >= 0 && i < line->count;
    if (!found && line->count == 0) continue;
    const double bend_m = found ? bends[i] : way > 0 ? bends[0] + length_m : bends[line->count - 1] - length_m;
    const double head_m = bend_m + laps * length_m + end_m;
    if (way * (nearest_m - head_m) > 0) nearest_m = head_m;
  }
  return nearest_m;
}

double nextLineBend_s(LineAhead *line) {
  const Working *w = line->w;
  const double *y = w->y;
  if (w->mode.train == 0) return INFINITY;
  const double left_m = line->way * (line->head_m - y[POSITION]);
  if (!line->known || w->mode.train != line->way || !(left_m > PASSED_m)) {
    line->known = true;
    line->way = w->mode.train;
    line->head_m = nextHead_m(line, y[POSITION], line->way);
  }
  const double along_m = line->way * (line->head_m - y[POSITION]);
  if (along_m == INFINITY) return along_m;
  const double speed_mps = most(0, line->way * y[SPEED]);
  const double square = speed_mps * speed_mps + 2 * line->way * w->now.acceleration_mps2 * along_m;
  if (!(square > 0)) return INFINITY;
  return w->time_s + (2 * along_m) / (speed_mps + sqrt(square));
}

static int knotOf(const Working *w) { return stretch(w->train->motor.current_A, fabs(w->now.motor_A), 0); }

void keepDrive(DriveBefore *d, const Working *w) {
  d->limitedBy = w->now.limitedBy;
  d->pulls = w->now.rim_N >= 0;
  d->knot = knotOf(w);
}

bool driveHasBent(const DriveBefore *d, const Working *w) {
  return w->now.limitedBy != d->limitedBy || (w->now.rim_N >= 0) != d->pulls || knotOf(w) != d->knot;
}
