// Ports lieOfTheLine of motion.ts: gravity, curves and grip, from height and curvature under both ends of every vehicle.
#include "parts.h"

void lieOfTheLine(Working *w, double head_m) {
  const Train *train = w->train;
  const Track *track = w->track;
  Instant *now = &w->now;
  const double *d = track->distance_m.at, *h = track->height_m.at, *b = track->turned_rad.at;
  const int posts = track->distance_m.count;
  const double *ends = train->ends_m.at;
  const int count = train->ends_m.count;
  if (!track->circuit) unported("line that is no circuit");
  const double lean_m = track->leaning == 0 ? 0 : h[posts - 1] - h[0];
  double *heights_m = w->heights_m, *turns_rad = w->turns_rad;
  for (int i = 0; i < count; i++) {
    const double along_m = head_m - ends[i];
    const double laps = floor(along_m / track->length_m);
    const double x = along_m - laps * track->length_m;
    const int k = stretch(track->distance_m, x, w->hints[i]);
    const double share = (x - d[k]) / (d[k + 1] - d[k]);
    w->hints[i] = k;
    heights_m[i] = h[k] + share * (h[k + 1] - h[k]) + laps * lean_m;
    turns_rad[i] = b[k] + share * (b[k + 1] - b[k]) + laps * b[posts - 1];
  }
  double gravity_N = 0;
  double curves_N = 0;
  for (int i = 0; i + 1 < count; i++) {
    gravity_N += train->gravity_Npm.at[i] * (heights_m[i] - heights_m[i + 1]);
    curves_N += train->curving_Nprad.at[i] * (turns_rad[i] - turns_rad[i + 1]);
  }
  const int loco = (int)train->loco;
  now->locoGravity_N = train->gravity_Npm.at[loco] * (heights_m[loco] - heights_m[loco + 1]);
  now->locoCurves_N = train->curving_Nprad.at[loco] * (turns_rad[loco] - turns_rad[loco + 1]);
  const double sine = (heights_m[loco] - heights_m[loco + 1]) / (ends[loco + 1] - ends[loco]);
  now->onDrivers_N = train->driven_N * sqrt(1 - sine * sine);
  now->gravity_N = gravity_N;
  now->curves_N = curves_N;
  now->staticGrip_N = train->adhesion.held * now->onDrivers_N;
  now->slidingGrip_N = train->adhesion.sliding * now->onDrivers_N;
}
