// Ports ode-rk4, with the derivative that the stepper gives it: the first stage is the kept one where that is known.
#include "core.h"

static void derivative(Working *w, double *restrict dydt, const double *y, double t, Stepper *s) {
  if (s->firstStageKnown) memcpy(dydt, s->firstStage, sizeof s->firstStage);
  else motion(w, dydt, y, t);
  s->firstStageKnown = false;
}

void rk4Step(Working *w, double *restrict y, double t, double dt, Stepper *s) {
  double at[SIZE], k1[SIZE], k2[SIZE], k3[SIZE], k4[SIZE];
  derivative(w, k1, y, t, s);
  for (int i = 0; i < SIZE; i++) at[i] = y[i] + k1[i] * dt * 0.5;
  derivative(w, k2, at, t + dt * 0.5, s);
  for (int i = 0; i < SIZE; i++) at[i] = y[i] + k2[i] * dt * 0.5;
  derivative(w, k3, at, t + dt * 0.5, s);
  for (int i = 0; i < SIZE; i++) at[i] = y[i] + k3[i] * dt;
  derivative(w, k4, at, t + dt, s);
  const double dto6 = dt / 6.0;
  for (int i = 0; i < SIZE; i++) y[i] += dto6 * (k1[i] + 2 * k2[i] + 2 * k3[i] + k4[i]);
}
