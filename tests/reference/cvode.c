/* CVODE in C on the equations of rhs.py: what bench.py times Potset against.
 *
 *     cvode bdf|adams logs|plain solved|table RTOL REPEATS < pot
 *
 * Each repeat starts from nothing, as the program does: solver, pH table, run, pH at the 241 times. Prints the shortest
 * time in ns, steps, right-hand sides, and the 241 pH values. `logs`: counts and readiness by their logarithms;
 * `solved`: pH by Newton's rule on the sites from the last pH; `table`: from quintics on a grid, as in the program.
 * BDF solves its steps by Newton's rule with a dense Jacobian, Adams by fixed-point iteration. */
#include <cvode/cvode.h>
#include <math.h>
#include <nvector/nvector_serial.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sundials/sundials_version.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>
#include <sunnonlinsol/sunnonlinsol_fixedpoint.h>
#include <time.h>

#define MOST 8
#define STATES (3 * MOST + 1)
#define SITES 16
#define TIMES 241
#define GRID (1.0 / 64)
#define ACID_GRID 0.5
#define ACIDS 512

typedef struct {
    double ripen, upkeep, per_acid, half, c0, c1, help_half, low, best, high, per_growth, per_upkeep;
    double weight[MOST], per[MOST], goes[MOST];
    int partner;
} Cells;

/* One step of pH down from the start: uptake and dissociated share as powers of u, 0 to 1; the acid at the two ends; u as
 * powers of the acid above the first. */
typedef struct { double uptake[6], lactic[6], acid[2], guess[3]; } Cell;

typedef struct {
    int n, m, sites, galactose, logs, tabled;
    double ph0, activity, pka, ceiling;
    double amount[SITES], pk[SITES], hill[SITES], factor[SITES];
    Cells cells[MOST];
    double start[STATES];
    double held, acid_factor, last_ph;
    int count, begin[ACIDS];
    Cell *grid;
    long calls;
} Pot;

/* Protons held by sites and as free ions at a pH, mmol/kg, and the slope. */
static double held(const Pot *p, double ph, double *slope) {
    double h = exp(M_LN10 * ph), free = 1e3 / (h * p->activity), sum = free;
    *slope = -M_LN10 * free;
    for (int i = 0; i < p->sites; i++) {
        double power = p->hill[i] == 1.0 ? h : exp(M_LN10 * p->hill[i] * ph);
        double share = 1 / (1 + power * p->factor[i]);
        sum += p->amount[i] * share;
        *slope -= p->amount[i] * p->hill[i] * M_LN10 * share * (1 - share);
    }
    return sum;
}

static double dissociated(const Pot *p, double ph) { return 1 / (1 + p->acid_factor * exp(-M_LN10 * ph)); }

/* Adds a site to a node: value, first and half the second derivative by u. */
static void add(double *node, double amount, double k, double x) {
    double share = 1 / (1 + x), value = amount * share, slope = k * value * (1 - share);
    node[0] += value;
    node[1] += slope;
    node[2] += 0.5 * k * slope * (1 - 2 * share);
}

static void quintic(const double *a, const double *b, double *out) {
    double r = b[0] - a[0] - a[1] - a[2], s = b[1] - a[1] - 2 * a[2], t = b[2] - a[2];
    memcpy(out, a, 3 * sizeof *a);
    out[3] = 10 * r - 4 * s + t;
    out[4] = -15 * r + 7 * s - 2 * t;
    out[5] = 6 * r - 3 * s + t;
}

static double at(const double *c, double u, double *slope) {
    *slope = c[1] + u * (2 * c[2] + u * (3 * c[3] + u * (4 * c[4] + u * 5 * c[5])));
    return c[0] + u * (c[1] + u * (c[2] + u * (c[3] + u * (c[4] + u * c[5]))));
}

static void build_table(Pot *p) {
    double step = M_LN10 * GRID, uptake[2][3], lactic[2][3], x[SITES], falls[SITES];
    double free = 1e3 * exp(-M_LN10 * p->ph0) / p->activity, from_pka = exp(M_LN10 * (p->ph0 - p->pka));
    double free_grows = exp(step), pka_falls = exp(-step);
    for (int j = 0; j < p->sites; j++) {
        x[j] = exp(M_LN10 * p->hill[j] * (p->ph0 - p->pk[j]));
        falls[j] = exp(-step * p->hill[j]);
    }
    p->count = (int)ceil((p->ph0 - fmin(2.4, p->ph0 - 0.5)) / GRID);
    p->grid = malloc(p->count * sizeof *p->grid);
    int entries = 0;
    for (int i = 0; i <= p->count; i++) {
        double *new = uptake[i % 2], *old = uptake[(i + 1) % 2], *share = lactic[i % 2], *old_share = lactic[(i + 1) % 2];
        new[0] = free - p->held, new[1] = step * free, new[2] = 0.5 * step * step * free;
        share[0] = 1, share[1] = share[2] = 0;
        for (int j = 0; j < p->sites; j++) {
            add(new, p->amount[j], step * p->hill[j], x[j]);
            x[j] *= falls[j];
        }
        add(share, -1, step, from_pka);
        free *= free_grows;
        from_pka *= pka_falls;
        if (i == 0) continue;
        Cell *c = &p->grid[i - 1];
        quintic(old, new, c->uptake);
        quintic(old_share, share, c->lactic);
        c->acid[0] = old[0] / old_share[0];
        c->acid[1] = new[0] / share[0];
        double per = 1 / (c->acid[1] - c->acid[0]);
        double first = old_share[0] / (old[1] - c->acid[0] * old_share[1]) / per;
        double last = share[0] / (new[1] - c->acid[1] * share[1]) / per;
        c->guess[0] = first * per;
        c->guess[1] = (3 - 2 * first - last) * per * per;
        c->guess[2] = (first + last - 2) * per * per * per;
        while (entries < ACIDS && entries * ACID_GRID < c->acid[1]) p->begin[entries++] = i - 1;
    }
    while (entries < ACIDS) p->begin[entries++] = p->count - 1;
}

/* pH from the table, by Newton's rule on its polynomials. */
static double ph_by_table(const Pot *p, double lactic) {
    int i = p->begin[(int)fmin(lactic / ACID_GRID, ACIDS - 1)];
    while (i < p->count - 1 && p->grid[i].acid[1] < lactic) i++;
    const double *g = p->grid[i].guess;
    double more = lactic - p->grid[i].acid[0], place = i + more * (g[0] + more * (g[1] + more * g[2]));
    for (int round = 0; round < 50; round++) {
        i = (int)fmin(fmax(place, 0), p->count - 1);
        double slope, share_slope, gap = at(p->grid[i].uptake, place - i, &slope);
        gap -= lactic * at(p->grid[i].lactic, place - i, &share_slope);
        double step = gap / (slope - lactic * share_slope);
        place -= step;
        if (fabs(step) < 5e-5) break;
    }
    return p->ph0 - place * GRID;
}

/* pH that closes the charge balance; after a step of 1e-7 the residual is far below 1e-9 mmol/kg. */
static double ph_of(Pot *p, double lactic) {
    if (lactic <= 0) return p->ph0;
    if (p->tabled) return ph_by_table(p, lactic);
    double ph = p->last_ph;
    for (int round = 0; round < 50; round++) {
        double slope, gap = held(p, ph, &slope) - p->held;
        double share = dissociated(p, ph);
        gap -= lactic * share;
        slope -= lactic * M_LN10 * share * (1 - share);
        double step = gap / slope;
        ph -= step;
        if (fabs(step) < 1e-7) break;
    }
    return p->last_ph = ph;
}

static int rhs(double t, N_Vector state, N_Vector rates, void *data) {
    (void)t;
    Pot *p = data;
    p->calls++;
    int n = p->n, m = p->m;
    const double *y = N_VGetArrayPointer(state), *sugars = y + 2 * n;
    double *dy = N_VGetArrayPointer(rates), counts[MOST], total = 0, lactic = fmax(y[2 * n + m], 0);
    double ph = ph_of(p, lactic), undissociated = lactic * (1 - dissociated(p, ph));
    for (int i = 0; i < n; i++) total += counts[i] = p->logs ? exp(y[i]) : y[i];
    double room = 1 - total * p->ceiling;
    memset(dy, 0, (2 * n + m + 1) * sizeof *dy);
    for (int i = 0; i < n; i++) {
        const Cells *c = &p->cells[i];
        double acid = fmax(1 - undissociated * c->per_acid, 0), most = 0, sum = 0, terms[MOST];
        for (int k = 0; k < m; k++) {
            terms[k] = sugars[k] > 0 && c->weight[k] > 0 ? c->weight[k] * sugars[k] / (sugars[k] + c->half) : 0;
            sum += terms[k];
            most = fmax(most, terms[k]);
        }
        double factor = acid * most, ready = y[n + i], growth = 0;
        dy[n + i] = p->logs ? c->ripen : c->ripen * ready * (1 - ready);
        if (p->logs) ready = 1 / (1 + exp(-ready));
        if (ph > c->low && ph < c->high && room > 0) {
            double product = (ph - c->low) * (ph - c->high), away = ph - c->best;
            double partner = c->partner < 0 ? 0 : counts[c->partner];
            double help = c->c0 + c->c1 * partner / (partner + c->help_half);
            growth = c->ripen * factor * help * ready * room * product / (product - away * away);
        }
        dy[i] = p->logs ? growth : growth * counts[i];
        double made = counts[i] * (c->per_growth * growth + c->per_upkeep * c->upkeep * factor);
        dy[2 * n + m] += made;
        if (sum <= 0) continue;
        for (int k = 0; k < m; k++) {
            double eaten = made / sum * terms[k] * c->per[k];
            dy[2 * n + k] -= eaten;
            if (c->goes[k] > 0) dy[2 * n + p->galactose] += eaten * c->goes[k];
        }
    }
    return 0;
}

/* One run; the pH at the times. Returns the steps, or -1. */
static long run(Pot *p, SUNContext context, int lmm, double rtol, double *ph) {
    int n = p->n, length = 2 * n + p->m + 1, fault = 0;
    long steps = -1;
    double slope;
    p->calls = 0;
    p->last_ph = p->ph0;
    p->held = held(p, p->ph0, &slope);
    if (p->tabled) build_table(p);
    N_Vector y = N_VNew_Serial(length, context), atol = N_VNew_Serial(length, context);
    for (int i = 0; i < length; i++) {
        NV_Ith_S(y, i) = p->start[i];
        NV_Ith_S(atol, i) = rtol * (!p->logs && i < n ? 1e5 : 1);
    }
    void *solver = CVodeCreate(lmm, context);
    SUNMatrix matrix = NULL;
    SUNLinearSolver linear = NULL;
    SUNNonlinearSolver fixed = NULL;
    fault |= CVodeInit(solver, rhs, 0, y) | CVodeSVtolerances(solver, rtol, atol) | CVodeSetUserData(solver, p)
        | CVodeSetMaxNumSteps(solver, 100000);
    if (lmm == CV_BDF) {
        matrix = SUNDenseMatrix(length, length, context);
        linear = SUNLinSol_Dense(y, matrix, context);
        fault |= CVodeSetLinearSolver(solver, linear, matrix);
    } else {
        fixed = SUNNonlinSol_FixedPoint(y, 0, context);
        fault |= CVodeSetNonlinearSolver(solver, fixed);
    }
    ph[0] = p->ph0;
    for (int i = 1; i < TIMES && !fault; i++) {
        double t;
        fault = CVode(solver, 36.0 * i / (TIMES - 1), y, &t, CV_NORMAL);
        ph[i] = ph_of(p, fmax(NV_Ith_S(y, length - 1), 0));
    }
    if (!fault) CVodeGetNumSteps(solver, &steps);
    CVodeFree(&solver);
    if (matrix) SUNMatDestroy(matrix);
    if (linear) SUNLinSolFree(linear);
    if (fixed) SUNNonlinSolFree(fixed);
    N_VDestroy(y);
    N_VDestroy(atol);
    if (p->tabled) free(p->grid);
    return steps;
}

static double number(void) {
    double x;
    if (scanf("%lf", &x) != 1) exit(2);
    return x;
}

static void read_pot(Pot *p) {
    p->n = (int)number(), p->m = (int)number(), p->sites = (int)number(), p->galactose = (int)number();
    if (p->n > MOST || p->m > MOST || p->sites > SITES) exit(2);
    p->ph0 = number(), p->activity = number(), p->pka = number(), p->ceiling = number();
    p->acid_factor = exp(M_LN10 * p->pka);
    for (int i = 0; i < p->sites; i++) {
        p->amount[i] = number(), p->pk[i] = number(), p->hill[i] = number();
        p->factor[i] = exp(-M_LN10 * p->hill[i] * p->pk[i]);
    }
    for (int i = 0; i < p->n; i++) {
        Cells *c = &p->cells[i];
        double *all[] = {&c->ripen, &c->upkeep, &c->per_acid, &c->half, &c->c0, &c->c1, &c->help_half,
                         &c->low, &c->best, &c->high, &c->per_growth, &c->per_upkeep};
        for (size_t k = 0; k < sizeof all / sizeof *all; k++) *all[k] = number();
        c->partner = (int)number();
        for (int k = 0; k < p->m; k++) c->weight[k] = number(), c->per[k] = number(), c->goes[k] = number();
    }
    for (int i = 0; i < 2 * p->n + p->m + 1; i++) p->start[i] = number();
}

int main(int count, char **words) {
    if (count != 6) return 2;
    static Pot pot;
    pot.logs = !strcmp(words[2], "logs");
    pot.tabled = !strcmp(words[3], "table");
    read_pot(&pot);
    SUNContext context;
#if SUNDIALS_VERSION_MAJOR >= 7
    if (SUNContext_Create(SUN_COMM_NULL, &context)) return 2;
    SUNContext_ClearErrHandlers(context);
#else
    if (SUNContext_Create(NULL, &context)) return 2;
#endif
    double ph[TIMES], shortest = INFINITY;
    long steps = -1;
    for (int i = atoi(words[5]); i > 0; i--) {
        struct timespec from, to;
        clock_gettime(CLOCK_MONOTONIC, &from);
        steps = run(&pot, context, strcmp(words[1], "bdf") ? CV_ADAMS : CV_BDF, atof(words[4]), ph);
        clock_gettime(CLOCK_MONOTONIC, &to);
        if (steps < 0) return 1;
        shortest = fmin(shortest, 1e9 * (to.tv_sec - from.tv_sec) + (to.tv_nsec - from.tv_nsec));
    }
    printf("%.0f %ld %ld\n", shortest, steps, pot.calls);
    for (int i = 0; i < TIMES; i++) printf("%.17g\n", ph[i]);
    SUNContext_Free(&context);
    return 0;
}
