/* A minute of road and an orbit in C: Dormand and Prince 5(4) of our own with libm, and GSL where it is
   installed. gcc -O3 -march=native -fno-tree-vectorize -fno-tree-slp-vectorize motion.c -lm: vectorized, the
   stages of four unknowns stall. */
#include "peer.h"

typedef void slope(double t, const double *y, double *d);

static void dormand_prince(slope *f, double t, double end, double *y, double rtol, double atol) {
  double k[7][4], w[4], next[4], h = 1e-4;
  static const double c[6] = {1. / 5, 3. / 10, 4. / 5, 8. / 9, 1, 1};
  int rejected = 0;
  f(t, y, k[0]);
  while (t < end) {
    double s = h;
    if (t + s * 1.0000001 >= end) s = end - t;
#define STAGE(n, v, sum) for (int i = 0; i < 4; i++) v[i] = y[i] + s * (sum); f(t + c[n - 1] * s, v, k[n])
#define K(n) k[n][i]
    STAGE(1, w, K(0) / 5);
    STAGE(2, w, 3. / 40 * K(0) + 9. / 40 * K(1));
    STAGE(3, w, 44. / 45 * K(0) - 56. / 15 * K(1) + 32. / 9 * K(2));
    STAGE(4, w, 19372. / 6561 * K(0) - 25360. / 2187 * K(1) + 64448. / 6561 * K(2) - 212. / 729 * K(3));
    STAGE(5, w, 9017. / 3168 * K(0) - 355. / 33 * K(1) + 46732. / 5247 * K(2) + 49. / 176 * K(3) - 5103. / 18656 * K(4));
    STAGE(6, next, 35. / 384 * K(0) + 500. / 1113 * K(2) + 125. / 192 * K(3) - 2187. / 6784 * K(4) + 11. / 84 * K(5));
    double sum = 0;
    for (int i = 0; i < 4; i++) {
      double e = s * (-71. / 57600 * K(0) + 71. / 16695 * K(2) - 71. / 1920 * K(3) + 17253. / 339200 * K(4) -
                      22. / 525 * K(5) + K(6) / 40);
      e /= atol + rtol * fmax(fabs(y[i]), fabs(next[i]));
      sum += e * e / 4;
    }
    double factor = sum < 1e-12 ? 10 : fmin(10, 0.9 * pow(sum, -0.1));
    if (sum <= 1) {
      t = t + s == t ? end : t + s;
      if (end - t < 1e-12 * end) t = end;
      memcpy(y, next, sizeof next);
      memcpy(k[0], k[6], sizeof next);
      if (rejected && factor > 1) factor = 1;
    } else
      factor = fmax(factor, 0.2);
    rejected = sum > 1;
    h = s * factor;
  }
}

/* Body 90 kg, wheel 14 kg, tire 150 N/mm, a damper in pieces, friction of 40 N, eight waves. */
static double sag, rest, state[4], answer;

static double damper(double v) {
  if (v >= 0) return v < 0.6 ? v * (700 + 500 * v) : 0.6 * (700 + 500 * 0.6) + 500 * (v - 0.6);
  v = -v;
  return v < 0.5 ? -v * (1300 + 900 * v) : -(0.5 * (1300 + 900 * 0.5) + 900 * (v - 0.5));
}

static void minute(double t, const double *y, double *d) {
  static const double a[8] = {0.060, 0.045, 0.040, 0.025, 0.012, 0.007, 0.004, 0.002},
                      hz[8] = {0.5, 1.1, 2.3, 3.7, 5.9, 8.3, 11.1, 14.9},
                      phase[8] = {0.1, 1.3, 2.7, 4.1, 5.3, 0.7, 3.3, 2.2};
  double road = 0, v = y[3] - y[1];
  for (int i = 0; i < 8; i++) road += a[i] * sin(2 * M_PI * hz[i] * t + phase[i]);
  double f = force(sag + y[2] - y[0]) + damper(v) + 40 * tanh(v / 0.01);
  d[0] = y[1], d[1] = f / 90 - 9.81, d[2] = y[3], d[3] = (150e3 * (rest + road - y[2]) - f) / 14 - 9.81;
}

static void orbit(double t, const double *y, double *d) {
  const double mu = 0.012277471, nu = 1 - mu;
  double a = y[0] + mu, b = y[0] - nu, p = a * a + y[2] * y[2], q = b * b + y[2] * y[2];
  p *= sqrt(p), q *= sqrt(q);
  d[0] = y[1], d[1] = y[0] + 2 * y[3] - nu * a / p - mu * b / q;
  d[2] = y[3], d[3] = y[2] - 2 * y[1] - nu * y[2] / p - mu * y[2] / q;
}

static const double orbit0[4] = {0.994, 0, 0, -2.00158510637908252240537862224},
                    period = 17.0652165601579625588917206249, zero[4];
static slope *volatile minute_f = minute, *volatile orbit_f = orbit; /* called, not inlined */

static void run_minute(void) {
  memcpy(state, zero, sizeof state);
  dormand_prince(minute_f, 0, 60, state, 1e-6, 1e-9);
  answer = state[0];
}

static void run_orbit(void) {
  memcpy(state, orbit0, sizeof state);
  dormand_prince(orbit_f, 0, period, state, 1e-9, 1e-9);
  answer = state[0];
}

#ifdef GSL
#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>

static int call(double t, const double *y, double *d, void *f) {
  ((slope *)f)(t, y, d);
  return GSL_SUCCESS;
}

static void gsl(slope *f, double end, double rtol, double atol) {
  gsl_odeiv2_system s = {call, NULL, 4, (void *)f};
  gsl_odeiv2_driver *d = gsl_odeiv2_driver_alloc_y_new(&s, gsl_odeiv2_step_rkf45, 1e-4, atol, rtol);
  double t = 0;
  gsl_odeiv2_driver_apply(d, &t, end, state);
  gsl_odeiv2_driver_free(d);
  answer = state[0];
}

static void gsl_minute(void) { memcpy(state, zero, sizeof state), gsl(minute, 60, 1e-6, 1e-9); }
static void gsl_orbit(void) { memcpy(state, orbit0, sizeof state), gsl(orbit, period, 1e-9, 1e-9); }
#endif

int main(void) {
  double lo = 0, hi = END;
  for (int i = 0; i < 80; i++) {
    sag = (lo + hi) / 2;
    if (force(sag) < 90 * 9.81) lo = sag;
    else hi = sag;
  }
  rest = (90 + 14) * 9.81 / 150e3;
  report("minute of road", "C Dormand-Prince", run_minute, 1, &answer);
  report("orbit", "C Dormand-Prince", run_orbit, 1, &answer);
#ifdef GSL
  report("minute of road", "GSL rkf45", gsl_minute, 1, &answer);
  report("orbit", "GSL rkf45", gsl_orbit, 1, &answer);
#endif
}
