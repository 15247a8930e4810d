/* What the peers in C share: the fork of the table, a clock, a line of the answer. */
#ifndef PEER_H
#define PEER_H
#define _GNU_SOURCE
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define PA 101325.0 /* ambient and trapped air, Pa */
#define EXPONENT 1.3/* exponent */
#define END 0.3     /* travel, m */

/* A coil, the two chambers of an air spring and the gas over the oil: rate and preload; then area,
   length at full extension and pressure of each gas space. Areas below 0 grow. */
static const double rate = 2500, preload = 0.012;
static const struct { double a, l, p; } gas[3] = {{7.5e-4, 0.38, 9e5}, {-7.0e-4, 0.08, 7e5}, {9.0e-4, 0.45, PA}};

static inline double force(double x) {
  double f = rate * (x + preload);
  for (int i = 0; i < 3; i++) {
    double s = gas[i].a < 0 ? -1 : 1;
    f += gas[i].a * (gas[i].p * pow(gas[i].l / (gas[i].l - s * x), EXPONENT) - PA);
  }
  return f;
}

static double now(void) { /* of the processor, so that other work on the machine does not count */
  struct timespec t;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return t.tv_sec + 1e-9 * t.tv_nsec;
}

/* A line: the work, who did it, s of the processor a unit (the least of five samples of some 20 ms) and an
   answer to compare by. */
static void report(const char *work, const char *who, void (*call)(void), double units, const double *answer) {
  long n = 1;
  double t, least = 1e9;
  for (;; n *= 2) {
    t = now();
    for (long i = 0; i < n; i++) call();
    if ((t = now() - t) > 0.01) break;
  }
  n = n * 0.02 / t + 1;
  for (int j = 0; j < 5; j++) {
    t = now();
    for (long i = 0; i < n; i++) call();
    least = fmin(least, (now() - t) / n);
  }
  printf("%s\t%s\t%.9g\t%.12g\n", work, who, least / units, *answer);
}
#endif
