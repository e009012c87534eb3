// What the port's files share: a working as it stands, and what each file does with it. Names and order of work are those of
// the TypeScript that each file ports, so that a change there is found here. Every figure is read from the core at run time
// (numbers.h, which numbers.js writes); what the measured day never comes to is not ported and ends the program (unported).
#pragma once
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include "numbers.h"

// state.ts: what is fixed during a step
typedef struct {
  int train, wheels, rim;
  bool powered, braking, full, connected;
} Mode;

// state.ts: all that is worked out from a state at one instant
typedef struct {
  double rested_V, emf_V, duty, motor_A, motor_V, battery_A, terminal_V, supply_V, flux_NmpA, airGap_Nm, winding_ohm, brush_V;
  double excitation_V, shaft_N, rim_N, contact_N, brakeRim_N, brakeShaft_N, brakeAxles_N, locked_N, gravity_N, curves_N;
  double locoGravity_N, locoCurves_N, rolling_N, air_N, acceleration_mps2, rimAcceleration_mps2, hold_N, onDrivers_N;
  double staticGrip_N, slidingGrip_N;
  int limitedBy;
} Instant;

// event.ts: kinds of events that the day has
enum { STARTS, LAP, COMPLETED };
typedef struct {
  int kind, lap;
  double time_s, chainage_m;
} Event;

// working.ts, as far as the day uses it
typedef struct {
  const Plan *plan;
  const Train *train;
  const Track *track;
  Mode mode;
  Instant now;
  double y[SIZE], start[SIZE];
  double time_s, lever, leverWanted, wind_mps, air_degC, mark_m, shifted_J, fastSince_s;
  double cutoutDue_s, durationDue_s;
  bool minding, tooHot, ended;
  int looksIn, lapsDone, eventCount, mostEvents;
  Event *events;
  double *heights_m, *turns_rad;
  int *hints;
  // Of this port alone: what was done, to be held against the core's own.
  long steps, derivatives;
} Working;

// laps.ts: what its observer keeps
typedef struct {
  double time_s, energy_J, charge_C, stateOfCharge, lowest_V, hottest_degC;
} LapRow;
typedef struct {
  LapRow *rows;
  int count;
  double lowest_V, hottest_degC, doneTime_s, doneEnergy_J, doneCharge_C;
} LapCounter;

// bends.ts, stepper.ts: what their closures hold
typedef struct {
  const Working *w;
  double *bends, head_m;
  int count, way;
  bool known;
} LineAhead;
typedef struct {
  int limitedBy, knot;
  bool pulls;
} DriveBefore;
typedef struct {
  double margins[MARGINS], from[SIZE], firstStage[SIZE];
  bool fired[MARGINS], firstStageKnown;
  LineAhead line;
  DriveBefore drive;
  LapCounter *counter;
  double second;
  int events;
} Stepper;

_Noreturn void unported(const char *what);

// working.c
Working *startWorking(const Numbers *n);
void freeWorking(Working *w);
double chainage_m(const Working *w);
void logEvent(Working *w, int kind);
void end(Working *w);
void moveLever(Working *w, double wanted, double time_s);
void shutLever(Working *w);
// motion.c, line.c, motion.books.c
void motion(Working *w, double *restrict dydt, const double *y, double time_s);
void lieOfTheLine(Working *w, double head_m);
void batteryAndHeat(Working *w, double *restrict dydt, const double *y, double drag_W);
void mechanicalBooks(Working *w, double *restrict dydt, double speed_mps, double rim_mps, double drag_W);
// electrics.c
void solveElectrics(const Train *train, const Mode *mode, double lever, const double *y, double motor_radps, Instant *now);
// margins.c, standing.c
void fillMargins(const Working *w, const double *y, double *restrict margins);
double leavingForwards_N(const Working *w);
double leavingBackwards_N(const Working *w);
double pullAtRest_N(const Working *w);
double contactAt_N(const Working *w, double share, double resisting_N);
// step.c, bends.c
double chooseStep_s(const Working *w);
int partsOfStep(const Working *w);
void lookAtLine(LineAhead *line, const Working *w);
double nextLineBend_s(LineAhead *line);
void keepDrive(DriveBefore *d, const Working *w);
bool driveHasBent(const DriveBefore *d, const Working *w);
// events.c, rk4.c, stepper.c
bool settle(Working *w, double *margins, double *dydt);
int firstNegative(const double *margins);
double nextDue_s(const Working *w);
void actOnDues(Working *w);
void rk4Step(Working *w, double *restrict y, double t, double dt, Stepper *s);
void createStepper(Stepper *s, Working *w, LapCounter *counter);
void lookAgain(Stepper *s, Working *w);
void advance(Stepper *s, Working *w, double until_s);
// driver.c, lever.c, limits.c
void drive(Working *w);
bool leverSettled(const Working *w);
double leverForSpeed(Working *w, double asked_N);
double brakesMissing_N(const Working *w, double shaft_N, double asked_N);
double targetSpeed_mps(const Working *w);
void lookForLimits(Working *w);
bool limitToEaseFor(const Working *w);
// balance.c, laps.c, run.c
void mustBeNumbers(const Working *w);
void mustClose(const Working *w, bool ended);
double stateOfCharge(const Working *w);
void lookOn(LapCounter *c, const Working *w);
void closeRow(LapCounter *c, const Working *w);
Working *run(const Numbers *n, LapCounter *counter, FILE *states);
