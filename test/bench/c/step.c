// Ports loop/step.ts and what it asks of loop/slipping.ts and parts/motor.points.ts: the step that follows this train.
#include "meshes.h"

static double steepest_Nm2pA2(const Motor *m) {
  const double *current_A = m->current_A.at, *flux_NmpA = m->flux_NmpA.at;
  const int last = m->flux_NmpA.count - 1;
  double steepest = flux_NmpA[last] * flux_NmpA[last];
  for (int i = 1; i <= last; i++) {
    const double rise = (flux_NmpA[i] - flux_NmpA[i - 1]) / (current_A[i] - current_A[i - 1]);
    steepest = most(steepest, flux_NmpA[i] * (flux_NmpA[i] + rise * current_A[i]));
  }
  return steepest;
}

static double rimRate_ps(const Train *train, double along_kg) {
  const double pull_Nms = steepest_Nm2pA2(&train->motor) / (train->motor.resistance20_ohm + train->motorPath_ohm);
  const double perRadius_pm = train->gears.ratio / train->radius_m;
  return (pull_Nms + train->motor.dragPerSpeed_Nms) * (perRadius_pm * perRadius_pm) * slowedBy_pkg(&train->meshes, along_kg);
}

static double shortestTime_s(const Working *w) {
  const Train *train = w->train;
  const Battery *battery = &train->battery;
  const Heat *heat = &train->heat;
  double time_s = 1 / (rimRate_ps(train, train->translating_kg) + train->rolling_Nspm / train->effective_kg);
  if (battery->polarisation_ohm > 0) time_s = least(time_s, battery->polarisation_s);
  if (battery->exponentRate_ps > 0) time_s = least(time_s, 1 / battery->exponentRate_ps);
  time_s = least(time_s, heat->winding_JpK * heat->windingToCase_KpW);
  return least(time_s, (heat->case_JpK * heat->windingToCase_KpW * heat->caseToAir_KpW) /
                           (heat->windingToCase_KpW + heat->caseToAir_KpW));
}

double chooseStep_s(const Working *w) {
  const double most_s = least(LONGEST_s, most(SHORTEST_s, SHARE * shortestTime_s(w)));
  const double look_s = most_s >= DRIVER_s ? LONGEST_s : DRIVER_s;
  return look_s / ceil(look_s / most_s);
}

int partsOfStep(const Working *w) {
  if (w->mode.wheels == 0 || w->mode.rim == 0) return 1;
  unported("wheels that slide");
}
