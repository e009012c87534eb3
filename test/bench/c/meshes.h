// Ports drive/meshes.ts: what turns between motor and rail, and the meshes between.
#pragma once
#include "parts.h"

static inline double throughMeshes_N(const Meshes *m, double shaft_N, double acceleration_mps2, int way) {
  double force_N = shaft_N;
  for (int i = 0; i < m->efficiency.count; i++) {
    force_N -= m->turning_kg.at[i] * acceleration_mps2;
    force_N *= passed(force_N, way, m->efficiency.at[i]);
  }
  return force_N;
}

static inline double shaftFor_N(const Meshes *m, double wheels_N, double acceleration_mps2, int way) {
  double force_N = wheels_N;
  for (int i = m->efficiency.count - 1; i >= 0; i--)
    force_N = force_N / passed(force_N, way, m->efficiency.at[i]) + m->turning_kg.at[i] * acceleration_mps2;
  return force_N;
}

static inline void turn(const Meshes *m, double shaft_N, double against_N, double along_kg, int way, Instant *found) {
  const int last = m->efficiency.count;
  const double atWheels_kg = m->turning_kg.at[last] + along_kg;
  double acceleration_mps2 = 0;
  double force_N = 0;
  double before_kg = NAN;
  for (int step = 0; step <= last + 2; step++) {
    force_N = shaft_N;
    double moved_kg = 0;
    for (int i = 0; i < last; i++) {
      force_N -= m->turning_kg.at[i] * acceleration_mps2;
      const double share = passed(force_N, way, m->efficiency.at[i]);
      force_N *= share;
      moved_kg = (moved_kg + m->turning_kg.at[i]) * share;
    }
    moved_kg += atWheels_kg;
    if (moved_kg == before_kg) break;
    before_kg = moved_kg;
    acceleration_mps2 += (force_N - against_N - atWheels_kg * acceleration_mps2) / moved_kg;
  }
  found->rimAcceleration_mps2 = acceleration_mps2;
  found->rim_N = force_N;
}

static inline double slowedBy_pkg(const Meshes *m, double along_kg) {
  double moved_kg = m->turning_kg.at[0];
  double share = 1;
  for (int i = 0; i < m->efficiency.count; i++) {
    share *= m->efficiency.at[i];
    moved_kg += share * m->turning_kg.at[i + 1];
  }
  return 1 / (moved_kg + share * along_kg);
}
