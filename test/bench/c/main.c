// The port as c.js runs it: reads the numbers, then runs the day and writes all that came of it, or times the day, the derivative
// or a Runge-Kutta step: each by the processor's time, the least of several, ns.
#define _POSIX_C_SOURCE 200809L
#include <time.h>
#include "core.h"

static double now_ns(void) {
  struct timespec t;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return 1e9 * t.tv_sec + t.tv_nsec;
}

static FILE *opened(const char *path, const char *how) {
  FILE *file = fopen(path, how);
  if (!file) {
    perror(path);
    exit(2);
  }
  return file;
}

static void tellDay(const Numbers *n, const char *states, const char *rest) {
  LapCounter counter;
  FILE *out = opened(states, "wb");
  Working *w = run(n, &counter, out);
  fclose(out);
  out = opened(rest, "wb");
  for (int i = 0; i < counter.count; i++) fwrite(&counter.rows[i], sizeof counter.rows[i], 1, out);
  for (int i = 0; i < w->eventCount; i++) {
    const Event *e = &w->events[i];
    const double told[] = {e->kind, e->lap, e->time_s, e->chainage_m};
    fwrite(told, sizeof told, 1, out);
  }
  fclose(out);
  printf("%ld %ld\n", w->steps, w->derivatives);
}

static void timeDay(const Numbers *n, int times) {
  double least = INFINITY;
  for (int i = 0; i < times; i++) {
    LapCounter counter;
    const double from = now_ns();
    Working *w = run(n, &counter, NULL);
    const double took = now_ns() - from;
    if (took < least) least = took;
    free(counter.rows);
    freeWorking(w);
  }
  printf("%.0f 0\n", least);
}

/** States of the day, each with its time, its lever and whether that pulls. */
typedef struct {
  double time_s, lever, powered, y[SIZE];
} Sample;

static void timePart(const Numbers *n, const char *path, bool step, int times, int passes) {
  FILE *in = opened(path, "rb");
  fseek(in, 0, SEEK_END);
  const int count = (int)(ftell(in) / (long)sizeof(Sample));
  rewind(in);
  Sample *samples = malloc(count * sizeof *samples);
  if (fread(samples, sizeof *samples, count, in) != (size_t)count) exit(2);
  fclose(in);
  Working *w = startWorking(n);
  w->mode.train = w->mode.rim = 1;
  Stepper s = {0};
  double least = INFINITY, sum = 0, found[SIZE];
  for (int t = 0; t < times; t++) {
    sum = 0;
    const double from = now_ns();
    for (int i = 0; i < count * passes; i++) {
      const Sample *each = &samples[i % count];
      w->lever = each->lever;
      w->mode.powered = each->powered != 0;
      if (step) {
        memcpy(found, each->y, sizeof found);
        s.firstStageKnown = false;
        rk4Step(w, found, each->time_s, DRIVER_s, &s);
      } else motion(w, found, each->y, each->time_s);
      sum += found[SPEED] + found[WINDING];
    }
    const double took = (now_ns() - from) / ((double)count * passes);
    if (took < least) least = took;
  }
  printf("%.3f %.17g\n", least, sum);
}

int main(int argc, char **argv) {
  if (argc < 4) return 2;
  FILE *in = opened(argv[1], "rb");
  Numbers n;
  readNumbers(&n, in);
  fclose(in);
  if (strcmp(argv[2], "tell") == 0 && argc == 5) tellDay(&n, argv[3], argv[4]);
  else if (strcmp(argv[2], "day") == 0) timeDay(&n, atoi(argv[3]));
  else if (strcmp(argv[2], "motion") == 0 && argc == 6) timePart(&n, argv[3], false, atoi(argv[4]), atoi(argv[5]));
  else if (strcmp(argv[2], "step") == 0 && argc == 6) timePart(&n, argv[3], true, atoi(argv[4]), atoi(argv[5]));
  else return 2;
  return 0;
}
