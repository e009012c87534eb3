// Ports numeric/tables.ts, the small pure functions of parts/ and drive/meshes.ts: short enough that every caller has them in
// itself, as V8's compiler may.
#pragma once
#include "core.h"

static inline double most(double a, double b) { return a > b ? a : b; }
static inline double least(double a, double b) { return a < b ? a : b; }
static inline double sign(double x) { return x > 0 ? 1 : x < 0 ? -1 : x; }

// numeric/tables.ts
static inline int stretch(Column column, double x, int hint) {
  const double *xs = column.at;
  if (hint >= 0 && hint + 1 < column.count && x >= xs[hint] && x < xs[hint + 1]) return hint;
  const int last = column.count - 2;
  int low = hint < 0 ? 0 : hint > last ? last : hint;
  int high = low + 1;
  for (int stride = 1; low > 0 && x < xs[low]; stride *= 2) {
    high = low;
    low = low - stride > 0 ? low - stride : 0;
  }
  for (int stride = 1; high <= last && x >= xs[high]; stride *= 2) {
    low = high;
    high = high + stride < last + 1 ? high + stride : last + 1;
  }
  while (high - low > 1) {
    const int middle = (low + high) >> 1;
    if (x < xs[middle]) high = middle;
    else low = middle;
  }
  return low;
}

static inline double interpolate(Column xs, Column ys, double x) {
  const int n = xs.count;
  if (x <= xs.at[0]) return ys.at[0];
  if (x >= xs.at[n - 1]) return ys.at[n - 1];
  int i = 0;
  for (int high = n - 1; high - i > 1;) {
    const int middle = (i + high) >> 1;
    if (x < xs.at[middle]) high = middle;
    else i = middle;
  }
  return ys.at[i] + ((ys.at[i + 1] - ys.at[i]) * (x - xs.at[i])) / (xs.at[i + 1] - xs.at[i]);
}

// parts/battery.ts, battery.wells.ts
static inline double flow_A(const Battery *b, double available_C, double bound_C) {
  return b->exponentRate_ps * (b->availableShare * bound_C - (1 - b->availableShare) * available_C);
}
static inline double labelShare(const Battery *b, double fill) { return 1 - b->span * (1 - fill); }
static inline double rested_V(const Battery *b, double share) { return interpolate(b->rested.x, b->rested.y, share); }
static inline double terminal_V(const Battery *b, double emf_V, double polarised_A, double current_A) {
  return emf_V - b->polarisation_ohm * polarised_A - b->resistance_ohm * current_A;
}
static inline double polarisationRate_Aps(const Battery *b, double polarised_A, double current_A) {
  return (current_A - polarised_A) / b->polarisation_s;
}

// parts/breaker.ts, heat.nodes.ts, motor.points.ts
static inline double imageRate_ps(const Breaker *b, double image, double current_A) {
  const double share = current_A / b->rating_A;
  return ((share * share) / b->imageSquare - image) / b->tau_s;
}
static inline double windingRate_Kps(const Heat *h, double made_W, double winding_degC, double case_degC) {
  return (made_W - (winding_degC - case_degC) / h->windingToCase_KpW) / h->winding_JpK;
}
static inline double caseRate_Kps(const Heat *h, double made_W, double winding_degC, double case_degC, double air_degC) {
  if (h->fan_radps != 0) unported("fan on the motor's shaft");
  const double cooled = 1;
  return ((winding_degC - case_degC) / h->windingToCase_KpW + made_W - (cooled * (case_degC - air_degC)) / h->caseToAir_KpW) /
         h->case_JpK;
}
static inline double motorResistance_ohm(const Motor *m, double winding_degC) {
  return m->resistance20_ohm * (1 + COPPER_pK * (winding_degC - 20));
}
static inline double fluxFactor(const Motor *m, double case_degC) { return 1 + m->fluxPerKelvin_pK * (case_degC - 20); }

// parts/track.ts
static inline double onTheLine(const Track *track, double at_m) {
  return at_m - floor(at_m / track->length_m) * track->length_m;
}

// train/rolling.ts, drive/pull.ts
static inline double rollingAt_N(const Train *t, double speed_mps, int way) {
  if (t->law) unported("law of resistance of the user's own");
  return way * t->rolling_N + t->rolling_Nspm * speed_mps;
}
static inline double airAt_N(const Train *t, double air_mps) { return t->airFactor * air_mps * fabs(air_mps); }
static inline double motorDrag_N(const Train *t, double speed_mps) {
  return ((t->motor.drag_Nm + (t->motor.dragPerSpeed_Nms * speed_mps * t->gears.ratio) / t->radius_m) * t->gears.ratio) /
         t->radius_m;
}

// parts/gears.ts
static inline double rim_N(const Gears *gears, double radius_m, double shaft_Nm, int way) {
  const double lossless_N = (shaft_Nm * gears->ratio) / radius_m;
  return lossless_N * way >= 0 ? lossless_N * gears->efficiency : lossless_N / gears->efficiency;
}

// drive/meshes.ts
static inline double passed(double force_N, int way, double efficiency) {
  return force_N * way >= 0 ? efficiency : 1 / efficiency;
}
