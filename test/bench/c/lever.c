// Ports driver/lever.ts: where the lever must be to ask a force of the rail, as far as the rail can pass it on.
#include "circuit.h"
#include "meshes.h"

static int wayOf(const Mode *mode) { return mode->rim == 0 ? 1 : mode->rim; }

static double resisting_N(const Working *w) {
  const Instant *now = &w->now;
  return now->gravity_N + now->air_N + now->rolling_N + w->mode.train * now->curves_N;
}

static double speedingUpAt_mps2(const Working *w, double contact_N) {
  return w->mode.train == 0 ? 0 : (contact_N - resisting_N(w)) / w->train->translating_kg;
}

static double contactAtGrip_N(const Working *w, double share) {
  return contactAt_N(w, share * w->train->adhesion.held, resisting_N(w));
}

static double shaftForContact_N(const Working *w, double contact_N, double brake_N) {
  const Meshes *meshes = &w->train->meshes;
  const double speedingUp_mps2 = speedingUpAt_mps2(w, contact_N);
  const double wheels_N = contact_N + brake_N + meshes->turning_kg.at[meshes->efficiency.count] * speedingUp_mps2;
  return shaftFor_N(meshes, wheels_N, speedingUp_mps2, wayOf(&w->mode));
}

double brakesMissing_N(const Working *w, double shaft_N, double asked_N) {
  const Meshes *meshes = &w->train->meshes;
  const double speedingUp_mps2 = speedingUpAt_mps2(w, asked_N);
  const double wheels_N = throughMeshes_N(meshes, shaft_N, speedingUp_mps2, wayOf(&w->mode));
  return wheels_N - meshes->turning_kg.at[meshes->efficiency.count] * speedingUp_mps2 - asked_N;
}

static double leverForShaft(const Working *w, double shaft_N, double rim_mps) {
  const Train *train = w->train;
  const Instant *now = &w->now;
  const Motor *motor = &train->motor;
  const double motor_radps = (rim_mps * train->gears.ratio) / train->radius_m;
  const double drag_Nm = wayOf(&w->mode) * motor->drag_Nm + motor->dragPerSpeed_Nms * motor_radps;
  const double airGap_Nm = (shaft_N * train->radius_m) / train->gears.ratio + drag_Nm;
  const double flux = fluxFactor(motor, w->y[CASE]);
  if (airGap_Nm <= 0) {
    if (train->controller.brakes) unported("braking with the motor");
    return 0;
  }
  const double current_A = currentForTorque(motor, flux, airGap_Nm);
  const double motor_V = motorVolts(motor, flux, motor_radps, now->winding_ohm + train->motorPath_ohm, current_A);
  const double duty = dutyFor(motor_V, current_A, now->emf_V - train->source_ohm * train->standing_A, train->source_ohm);
  return isnan(duty) ? 1 : least(most(duty, LEAST_LEVER), 1);
}

double leverForSpeed(Working *w, double asked_N) {
  const Instant *now = &w->now;
  if (w->mode.wheels != 0) unported("wheels that slide");
  const double wanted_N = shaftForContact_N(w, asked_N, 0);
  const double most_N = shaftForContact_N(w, contactAtGrip_N(w, GRIP_SHARE), 0);
  const double least_N = least(0, shaftForContact_N(w, contactAtGrip_N(w, -GRIP_SHARE), now->brakeRim_N));
  w->minding = wanted_N > most_N || wanted_N < least_N;
  const double ahead_s = w->minding ? DRIVER_s : 0;
  const double slowing_mps = least(0, now->acceleration_mps2) * ahead_s;
  return leverForShaft(w, least(most(wanted_N, least_N), most_N), w->y[SPEED] + slowing_mps);
}
