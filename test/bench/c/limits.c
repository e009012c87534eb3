// Ports driver/limits.ts, and targetSpeed_mps of driver/driver.ts: limits under the train and ahead of it. What the core keeps
// for each line is made at the first look.
#include "parts.h"

static int *next;
static double *edges_m, *limits_mps;
static int stretches;

/** For each stretch the next one ahead with a lower limit, counted on beyond the lap; -1 where there is none. */
static void findNextLower(const Track *track) {
  const int count = track->distance_m.count - 1;
  const double *limit_mps = track->limit_mps.at;
  int *waiting = malloc(2 * count * sizeof *waiting);
  int waits = 0;
  next = malloc(count * sizeof *next);
  for (int i = 0; i < count; i++) next[i] = -1;
  for (int i = 0; i < 2 * count; i++) {
    while (waits > 0 && limit_mps[waiting[waits - 1] % count] > limit_mps[i % count]) {
      const int from = waiting[--waits];
      if (from < count) next[from] = i;
    }
    waiting[waits++] = i;
  }
  free(waiting);
}

static void findStretches(const Track *track) {
  const int count = track->distance_m.count - 1;
  edges_m = malloc((count + 1) * sizeof *edges_m);
  limits_mps = malloc(count * sizeof *limits_mps);
  stretches = 0;
  for (int i = 0; i < count; i++) {
    if (i > 0 && track->limit_mps.at[i] == track->limit_mps.at[i - 1]) continue;
    edges_m[stretches] = track->distance_m.at[i];
    limits_mps[stretches++] = track->limit_mps.at[i];
  }
  edges_m[stretches] = track->distance_m.at[count];
}

double targetSpeed_mps(const Working *w) {
  const Track *track = w->track;
  if (!edges_m) findStretches(track);
  double target_mps = w->plan->speed_mps;
  const double head_m = w->y[POSITION];
  for (double x = head_m - w->train->length_m; x <= head_m;) {
    const double along_m = onTheLine(track, x);
    const int i = stretch((Column){edges_m, stretches + 1}, along_m, 0);
    if (limits_mps[i] < target_mps) target_mps = limits_mps[i];
    x += most(edges_m[i + 1] - along_m, 1e-9);
  }
  return target_mps;
}

/** None; one that the train must slow for is not ported. */
bool limitToEaseFor(const Working *w) {
  const Track *track = w->track;
  const int count = track->distance_m.count - 1;
  const double head_m = w->y[POSITION];
  if (!next) findNextLower(track);
  const double along_m = onTheLine(track, head_m);
  for (int i = next[stretch(track->distance_m, along_m, w->hints[0])]; i >= 0;) {
    const int post = i % count;
    const double at_m = head_m - along_m + track->distance_m.at[post] + (i - post > 0 ? track->length_m : 0);
    if (at_m - head_m > LOOKS_AHEAD_m) break;
    if (track->limit_mps.at[post] < w->plan->speed_mps) unported("limit to slow for");
    const int further = next[post];
    i = further < 0 ? -1 : further + i - post;
    if (i >= 2 * count) break;
  }
  return false;
}

void lookForLimits(Working *w) {
  if (limitToEaseFor(w)) shutLever(w);
}
