/* Workload W1 in C, one thread, tiles of 256 draws, histograms of 2,048 intervals.
   cc -O3 -march=native -ffast-math w1.c -o w1 -lm; w1 DRAWS REPEATS FILE
   Prints seconds and the 36 means of each run. */
#include <ctype.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define TILE 256
#define YEARS 6
#define CROPS 3
#define LAGS 6
#define BINS 2048
typedef double tile[TILE];

static double numbers[400];
static int at;
static double take(void) { return numbers[at++]; }

static struct crop {
  double price[YEARS], first, own, phi, yield[YEARS], sd, past[LAGS], pastyield[LAGS], reference[YEARS], loan, share, top, guarantee, most, base, acres, payment, sigma[YEARS], carry[YEARS];
} crops[CROPS];
static double limit, loadings[6][6];

static inline double rounded(double x) { return floor(x * 100.0 * (1 + 1e-12) + 0.5) / 100.0; }

struct tally { double sum, top, scale; uint64_t zero, paying; uint32_t count[BINS + 1]; };
static struct tally per[YEARS][CROPS][2], totals[YEARS][8];
static uint64_t ahead[YEARS][CROPS];

static void add(struct tally *t, const double *x) {
  double sum = 0;
  int place[TILE];
  uint64_t zero = 0;
  for (int i = 0; i < TILE; i++) { sum += x[i]; zero += x[i] == 0; place[i] = (int)fmin(x[i] * t->scale, BINS); }
  for (int i = 0; i < TILE; i++) t->count[place[i]]++;
  t->sum += sum; t->zero += zero;
}

static uint64_t lanes[8][2];
static void uniforms(double *u, int n) { /* eight interleaved xorshift128+ streams */
  for (int i = 0; i < n; i += 8)
    for (int l = 0; l < 8; l++) {
      uint64_t a = lanes[l][0], b = lanes[l][1];
      lanes[l][0] = b; a ^= a << 23; lanes[l][1] = a ^ b ^ (a >> 17) ^ (b >> 26);
      u[i + l] = ((lanes[l][1] + b) >> 12) * 0x1p-52 + 0x1p-53;
    }
}
static void normals(double *z) { /* Box and Muller */
  tile u, v;
  uniforms(u, TILE / 2); uniforms(v, TILE / 2);
  for (int i = 0; i < TILE / 2; i++) {
    double r = sqrt(-2 * log(u[i])), a = 6.283185307179586 * v[i];
    z[i] = r * cos(a); z[i + TILE / 2] = r * sin(a);
  }
}

static tile price[LAGS + YEARS][CROPS], yields[LAGS + YEARS][CROPS], shock[YEARS][CROPS], target, bench, benchyield, pay[CROPS][2], raw[6], z, total[8];

static void olympic(double *dst, double *const v[5], const double *floors) {
  for (int i = 0; i < TILE; i++) {
    double f = floors ? floors[i] : -1e9, a = fmax(v[0][i], f), b = fmax(v[1][i], f), c = fmax(v[2][i], f), d = fmax(v[3][i], f), e = fmax(v[4][i], f);
    double low = fmin(fmin(fmin(a, b), fmin(c, d)), e), high = fmax(fmax(fmax(a, b), fmax(c, d)), e);
    dst[i] = (a + b + c + d + e - low - high) / 3;
  }
}

static void draw(void) {
  for (int t = 0; t < YEARS; t++) {
    for (int j = 0; j < 6; j++) normals(raw[j]);
    for (int k = 0; k < CROPS; k++) {
      struct crop *c = &crops[k];
      double own = sqrt(1 - c->carry[t] * c->carry[t]), half = c->sigma[t] * c->sigma[t] / 2;
      const double *l = loadings[k], *m = loadings[3 + k];
      for (int i = 0; i < TILE; i++) {
        double x = l[0] * raw[0][i] + l[1] * raw[1][i] + l[2] * raw[2][i];
        if (t) x = c->carry[t] * shock[t - 1][k][i] + own * x;
        shock[t][k][i] = x;
        price[LAGS + t][k][i] = rounded(c->price[t] * exp(c->sigma[t] * x - half));
      }
      for (int i = 0; i < TILE; i++) {
        double y = m[0] * raw[0][i] + m[1] * raw[1][i] + m[2] * raw[2][i] + m[3] * raw[3][i] + m[4] * raw[4][i] + m[5] * raw[5][i];
        yields[LAGS + t][k][i] = rounded(fmax(0, c->yield[t] + c->sd * y));
      }
      double *five[5], *fiveyields[5];
      for (int j = 0; j < 5; j++) { five[j] = price[t + j][k]; fiveyields[j] = yields[t + j][k]; }
      olympic(target, five, NULL);
      double most = rounded(c->top * c->reference[t]), per_acre = c->acres / c->base;
      for (int i = 0; i < TILE; i++) target[i] = rounded(fmin(most, fmax(c->reference[t], rounded(c->share * target[i]))));
      olympic(bench, five, target);
      olympic(benchyield, fiveyields, NULL);
      const double *p = price[LAGS + t][k], *y = yields[LAGS + t][k];
      uint64_t more = 0;
      for (int i = 0; i < TILE; i++) {
        double revenue = rounded(rounded(benchyield[i]) * rounded(bench[i])), actual = fmax(p[i], c->loan);
        double plc = rounded(fmax(0, target[i] - actual)) * (c->payment * per_acre);
        double arc = fmin(rounded(c->most * revenue), fmax(0, rounded(rounded(c->guarantee * revenue) - rounded(y[i] * actual)))) * per_acre;
        pay[k][0][i] = plc; pay[k][1][i] = arc; more += arc > plc;
      }
      ahead[t][k] += more;
      add(&per[t][k][0], pay[k][0]); add(&per[t][k][1], pay[k][1]);
    }
    for (int choice = 0; choice < 8; choice++) {
      for (int i = 0; i < TILE; i++) {
        double sum = 0;
        for (int k = 0; k < CROPS; k++) sum += crops[k].base * pay[k][choice >> k & 1][i];
        total[choice][i] = fmin(limit, sum);
      }
      add(&totals[t][choice], total[choice]);
    }
  }
}

static double percentile(const struct tally *t, double place) {
  if (place < t->zero) return 0;
  double below = t->zero;
  for (int i = 0; i <= BINS; i++) {
    double n = t->count[i] - (i ? 0 : (double)t->zero);
    if (place < below + n) return fmin(t->top, (i + (place - below + 0.5) / n) / t->scale);
    below += n;
  }
  return t->top;
}

int main(int n, char **args) {
  if (n != 4) return 2;
  long draws = atol(args[1]);
  FILE *f = fopen(args[3], "r");
  if (!f) return 2;
  static char text[8192];
  text[fread(text, 1, sizeof text - 1, f)] = 0;
  int count = 0;
  for (char *s = text; *s;) {
    if (isdigit((unsigned char)*s) || (*s == '-' && isdigit((unsigned char)s[1]))) numbers[count++] = strtod(s, &s);
    else s++;
  }
  take(); limit = take();
  for (int k = 0; k < CROPS; k++) {
    struct crop *c = &crops[k];
    for (int i = 0; i < 6; i++) c->price[i] = take();
    c->first = take(); c->own = take(); c->phi = take();
    for (int i = 0; i < 6; i++) c->yield[i] = take();
    c->sd = take();
    for (int i = 0; i < 6; i++) c->past[i] = take();
    for (int i = 0; i < 6; i++) c->pastyield[i] = take();
    for (int i = 0; i < 6; i++) c->reference[i] = take();
    c->loan = take(); c->share = take(); c->top = take(); c->guarantee = take(); c->most = take();
    c->base = take(); c->acres = take(); c->payment = take();
    c->sigma[0] = c->first;
    for (int t = 1; t < YEARS; t++) { c->sigma[t] = hypot(c->phi * c->sigma[t - 1], c->own); c->carry[t] = c->phi * c->sigma[t - 1] / c->sigma[t]; }
    for (int j = 0; j < LAGS; j++) for (int i = 0; i < TILE; i++) { price[j][k][i] = c->past[j]; yields[j][k][i] = c->pastyield[j]; }
  }
  for (int i = 0; i < 6; i++) for (int j = 0; j < 6; j++) loadings[i][j] = take();
  uint64_t seed = 88172645463325252ull;
  for (int l = 0; l < 8; l++) for (int j = 0; j < 2; j++) { seed ^= seed << 13; seed ^= seed >> 7; seed ^= seed << 17; lanes[l][j] = seed; }
  for (int run = atoi(args[2]); run > 0; run--) {
    struct timespec a, b;
    clock_gettime(CLOCK_MONOTONIC, &a);
    memset(per, 0, sizeof per); memset(totals, 0, sizeof totals); memset(ahead, 0, sizeof ahead);
    for (int t = 0; t < YEARS; t++) {
      for (int k = 0; k < CROPS; k++) {
        double high = rounded(crops[k].top * crops[k].reference[t]), share = crops[k].acres / crops[k].base;
        double top[2] = {(high - crops[k].loan) * crops[k].payment * share, crops[k].most * 4 * crops[k].yield[t] * high * share};
        for (int p = 0; p < 2; p++) { per[t][k][p].top = top[p]; per[t][k][p].scale = BINS / top[p]; }
      }
      for (int c = 0; c < 8; c++) { totals[t][c].top = limit; totals[t][c].scale = BINS / limit; }
    }
    for (long i = 0; i < draws; i += TILE) draw();
    double sink = 0;
    static const double at5[5] = {.05, .25, .5, .75, .95};
    for (int t = 0; t < YEARS; t++) for (int j = 0; j < 5; j++) {
      for (int k = 0; k < CROPS; k++) for (int p = 0; p < 2; p++) sink += percentile(&per[t][k][p], at5[j] * (draws - 1));
      for (int c = 0; c < 8; c++) sink += percentile(&totals[t][c], at5[j] * (draws - 1));
    }
    clock_gettime(CLOCK_MONOTONIC, &b);
    printf("%.6f", (b.tv_sec - a.tv_sec) + (b.tv_nsec - a.tv_nsec) * 1e-9 + 0 * sink);
    for (int t = 0; t < YEARS; t++) for (int k = 0; k < CROPS; k++) for (int p = 0; p < 2; p++) printf(" %.6f", per[t][k][p].sum / draws);
    printf("\n");
  }
  return 0;
}
