// Ports motion.ts: the derivative, the whole train's physics in one reading.
#include "meshes.h"

static void brakes(Working *w);
static void roll(Working *w, double resisting_N);
static void stand(Working *w);

void motion(Working *w, double *restrict dydt, const double *y, double time_s) {
  (void)time_s; // Brakes alone are functions of time.
  const Train *train = w->train;
  const Mode *mode = &w->mode;
  Instant *now = &w->now;
  w->derivatives++;
  lieOfTheLine(w, y[POSITION]);

  const double speed_mps = y[SPEED];
  const double rim_mps = mode->wheels == 0 ? speed_mps : y[RIM_SPEED];
  const double motor_radps = (rim_mps * train->gears.ratio) / train->radius_m;
  solveElectrics(train, mode, w->lever, y, motor_radps, now);
  const double drag_Nm = mode->rim * train->motor.drag_Nm + train->motor.dragPerSpeed_Nms * motor_radps;
  now->shaft_N = ((now->airGap_Nm - drag_Nm) * train->gears.ratio) / train->radius_m;

  now->air_N = airAt_N(train, speed_mps + w->wind_mps);
  now->rolling_N = rollingAt_N(train, speed_mps, mode->train);
  brakes(w);
  const double resisting_N =
      now->gravity_N + now->air_N + now->rolling_N + mode->train * (now->curves_N + now->brakeAxles_N);
  if (mode->wheels != 0) unported("wheels that slide");
  else if (mode->train != 0) roll(w, resisting_N);
  else stand(w);

  now->hold_N = train->breakaway_N + now->curves_N + now->brakeAxles_N;

  dydt[POSITION] = speed_mps;
  dydt[SPEED] = now->acceleration_mps2;
  dydt[RIM_SPEED] = now->rimAcceleration_mps2;
  dydt[RUN] = mode->train * speed_mps;
  batteryAndHeat(w, dydt, y, drag_Nm * motor_radps);
  mechanicalBooks(w, dydt, speed_mps, rim_mps, drag_Nm * motor_radps);
}

static void stand(Working *w) {
  Instant *now = &w->now;
  now->acceleration_mps2 = 0;
  now->rimAcceleration_mps2 = 0;
  now->rim_N = pullAtRest_N(w);
  now->contact_N = now->rim_N - least(now->brakeRim_N, now->rim_N);
  if (w->train->transfer.end != 0) unported("weight moved by the pull");
}

static void roll(Working *w, double resisting_N) {
  const Train *train = w->train;
  const Mode *mode = &w->mode;
  Instant *now = &w->now;
  const double shaft_N = now->shaft_N - mode->rim * now->brakeShaft_N;
  const double brakeOnWheels_N = now->brakeRim_N - now->brakeShaft_N / train->gears.efficiency;
  turn(&train->meshes, shaft_N, resisting_N + mode->rim * brakeOnWheels_N, train->translating_kg, mode->rim, now);
  now->acceleration_mps2 = now->rimAcceleration_mps2;
  now->contact_N = train->translating_kg * now->acceleration_mps2 + resisting_N;
  if (train->transfer.end != 0) unported("weight moved by the pull");
}

static void brakes(Working *w) {
  Instant *now = &w->now;
  now->brakeRim_N = 0;
  now->brakeShaft_N = 0;
  now->brakeAxles_N = 0;
  now->locked_N = 0;
  if (w->train->brakes != 0) unported("train with brakes");
}
