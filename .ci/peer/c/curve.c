/* A fork's curve and a fit to an air spring in C with libm, and the fit by GSL where it is installed:
   gcc -O3 -march=native curve.c -lm [-DGSL -lgsl -lgslcblas] */
#include "peer.h"

#define POINTS 1000
static double xs[POINTS], out[3][POINTS], sum;

static void __attribute__((noinline)) forces(void) {
  for (int i = 0; i < POINTS; i++) out[0][i] = force(xs[i]);
  sum = out[0][500];
}

/* Force, rate and energy share one power a gas space. */
static void __attribute__((noinline)) points(void) {
  for (int i = 0; i < POINTS; i++) {
    double x = xs[i], f = rate * (x + preload), k = rate, e = rate * x * (x / 2 + preload);
    for (int j = 0; j < 3; j++) {
      double a = gas[j].a, s = a < 0 ? -1 : 1, l = gas[j].l, w = l - s * x, q = gas[j].p * pow(l / w, EXPONENT);
      f += a * (q - PA);
      k += s * a * EXPONENT * q / w;
      e += s * a * (q * w - gas[j].p * l) / (EXPONENT - 1) - a * PA * x;
    }
    out[0][i] = f, out[1][i] = k, out[2][i] = e;
  }
  sum = out[0][500] + out[2][500];
}

/* Rate (N/mm), preload (mm) and gas volume (mL) of a coil and a gas space, 61 readings of an air
   spring; projected Levenberg-Marquardt. */
#define READINGS 61
static const double lo[3] = {2, 0, 175}, hi[3] = {12, 30, 400}, start[3] = {5, 10, 250}, area = 9.6e-4;
static double read_x[READINGS], read_f[READINGS], theta[3], cost;

static void readings(double l1, double l2, double p) {
  for (int i = 0; i < READINGS; i++) {
    double x = 0.17 * i / (READINGS - 1);
    read_x[i] = x;
    read_f[i] = 7.5e-4 * (p * pow(l1 / (l1 - x), EXPONENT) - PA) - 7.0e-4 * (p * pow(l2 / (l2 + x), EXPONENT) - PA);
  }
}

static double residual(const double *p, int i, double j[3]) {
  double x = read_x[i], u = 1 - area * 1e6 / p[2] * x, q = area * PA * pow(u, -EXPONENT);
  j[0] = 1e3 * x + p[1];
  j[1] = p[0];
  j[2] = EXPONENT * q * (1 - 1 / u) / p[2];
  return p[0] * j[0] + q - area * PA - read_f[i];
}

static double normal(const double *p, double a[3][3], double g[3]) {
  double c = 0, j[3];
  memset(a, 0, 9 * sizeof(double));
  memset(g, 0, 3 * sizeof(double));
  for (int i = 0; i < READINGS; i++) {
    double r = residual(p, i, j);
    c += r * r / 2;
    for (int k = 0; k < 3; k++) {
      g[k] += j[k] * r;
      for (int l = 0; l < 3; l++) a[k][l] += j[k] * j[l];
    }
  }
  return c;
}

static void solve3(double m[3][3], double r[3], double d[3]) {
  for (int k = 0; k < 3; k++)
    for (int i = k + 1; i < 3; i++) {
      double q = m[i][k] / m[k][k];
      for (int j = k; j < 3; j++) m[i][j] -= q * m[k][j];
      r[i] -= q * r[k];
    }
  for (int k = 2; k >= 0; k--) {
    d[k] = r[k];
    for (int j = k + 1; j < 3; j++) d[k] -= m[k][j] * d[j];
    d[k] /= m[k][k];
  }
}

static void fit(void) {
  double p[3], a[3][3], g[3], lambda = 1e-3;
  memcpy(p, start, sizeof p);
  double c = normal(p, a, g);
  for (int it = 0; it < 200; it++) {
    double m[3][3], r[3], d[3], next[3], a2[3][3], g2[3], step = 0;
    memcpy(m, a, sizeof m);
    memcpy(r, g, sizeof r);
    for (int k = 0; k < 3; k++) {
      m[k][k] *= 1 + lambda;
      if ((p[k] <= lo[k] && g[k] > 0) || (p[k] >= hi[k] && g[k] < 0)) {
        for (int l = 0; l < 3; l++) m[k][l] = m[l][k] = 0;
        m[k][k] = 1, r[k] = 0;
      }
    }
    solve3(m, r, d);
    for (int k = 0; k < 3; k++) {
      next[k] = fmin(fmax(p[k] - d[k], lo[k]), hi[k]);
      step = fmax(step, fabs(next[k] - p[k]) / (hi[k] - lo[k]));
    }
    if (step < 1e-10) break;
    double c2 = normal(next, a2, g2);
    if (c2 > c) {
      lambda *= 8;
      continue;
    }
    int done = c - c2 <= 1e-13 * c;
    memcpy(p, next, sizeof p), memcpy(a, a2, sizeof a), memcpy(g, g2, sizeof g);
    c = c2, lambda *= 0.1;
    if (done) break;
  }
  memcpy(theta, p, sizeof p);
  cost = c;
}

#ifdef GSL
#include <gsl/gsl_blas.h>
#include <gsl/gsl_multifit_nlinear.h>

/* Bounds by a sine, analytic derivatives. */
static void bounded(const gsl_vector *z, double p[3], double d[3]) {
  for (int k = 0; k < 3; k++) {
    double t = gsl_vector_get(z, k), h = (hi[k] - lo[k]) / 2;
    p[k] = lo[k] + h * (1 + sin(t));
    d[k] = h * cos(t);
  }
}

static int gsl_f(const gsl_vector *z, void *_, gsl_vector *f) {
  double p[3], d[3], j[3];
  bounded(z, p, d);
  for (int i = 0; i < READINGS; i++) gsl_vector_set(f, i, residual(p, i, j));
  return GSL_SUCCESS;
}

static int gsl_df(const gsl_vector *z, void *_, gsl_matrix *J) {
  double p[3], d[3], j[3];
  bounded(z, p, d);
  for (int i = 0; i < READINGS; i++) {
    residual(p, i, j);
    for (int k = 0; k < 3; k++) gsl_matrix_set(J, i, k, j[k] * d[k]);
  }
  return GSL_SUCCESS;
}

static void gsl_fit(void) {
  gsl_multifit_nlinear_parameters q = gsl_multifit_nlinear_default_parameters();
  gsl_multifit_nlinear_fdf f = {gsl_f, gsl_df, NULL, READINGS, 3, NULL, 0, 0, 0};
  gsl_multifit_nlinear_workspace *w = gsl_multifit_nlinear_alloc(gsl_multifit_nlinear_trust, &q, READINGS, 3);
  double z[3];
  int info;
  for (int k = 0; k < 3; k++) z[k] = asin(2 * (start[k] - lo[k]) / (hi[k] - lo[k]) - 1);
  gsl_vector_view v = gsl_vector_view_array(z, 3);
  gsl_multifit_nlinear_init(&v.vector, &f, w);
  gsl_multifit_nlinear_driver(200, 1e-8, 1e-8, 1e-10, NULL, NULL, &info, w);
  gsl_vector *r = gsl_multifit_nlinear_residual(w);
  gsl_blas_ddot(r, r, &cost);
  cost /= 2;
  gsl_multifit_nlinear_free(w);
}
#endif

int main(void) {
  for (int i = 0; i < POINTS; i++) xs[i] = END * i / POINTS;
  report("force", "C libm", forces, POINTS, &sum);
  report("points", "C libm", points, POINTS, &sum);
  for (int b = 0; b < 2; b++) {
    if (b) readings(0.215, 0.06, 9e5);
    else readings(0.24, 0.04, 8e5);
    const char *work = b ? "fit on a bound" : "fit";
    report(work, "C Levenberg-Marquardt", fit, 1, &cost);
#ifdef GSL
    report(work, "GSL multifit", gsl_fit, 1, &cost);
#endif
  }
}
