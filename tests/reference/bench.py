"""How long SciPy takes for the coconut and the milk case, at the accuracy of the program's own tolerance.

    python3 tests/reference/bench.py [coconut=1.2e-6] [milk=3.4e-7]

The numbers are the largest errors in pH over 0-36 h that `cargo bench` prints for the program; without them those of
the last measurement hold. LSODA then runs at the
largest relative tolerance (absolute the same) whose largest error in pH, against the run at 1e-10, is no larger: both
through `odeint`, which has the least overhead, and through `solve_ivp`. The right-hand side is plain Python as fast
as it goes for a few organisms: numbers and `math` only, factors of the steady temperature worked out beforehand, pH
by straight lines on a table fine enough (0.004 mmol/kg) to count as exact. Building that table is not timed; the
program's own tables are. Counts and readiness are followed by their logarithms, as in the program, or as they are,
whichever is faster at the same accuracy. Needs `pip install numpy scipy`.
"""
import sys
import time
import warnings
from math import exp, log

import numpy as np
from scipy.integrate import odeint, solve_ivp

import reference as ref

TIMES = np.linspace(0.0, 36.0, 241)
STEP = 0.004
ERRORS = {"coconut": 2.00e-8, "milk": 2.61e-7}


def table(pot):
    """pH on an even grid of lactic acid, mmol/kg."""
    return [ref.solve_ph(pot, STEP * i, 0.0) for i in range(int(260 / STEP))]


def right_hand_side(pot, ph_table, logs):
    """dy/dt at the pot's steady temperature, for pots without acetic acid."""
    c = pot.course[0][2][0]
    assert all(o["acetic_per_hexose"] == 0 and o["acid_exponent"] == 1 and len(o["partners"]) == 1 for o in pot.organisms)
    n = len(pot.organisms)
    released = any(o["galactose_released"] > 0 for o in pot.organisms) and pot.sugars[ref.LACTOSE] > 0
    there = [s for s in range(8) if pot.sugars[s] > 0 or (s == ref.GALACTOSE and released)]
    m, last = len(there), 2 * n + len(there)
    galactose = there.index(ref.GALACTOSE) if ref.GALACTOSE in there else -1
    cells = []
    for i, o in enumerate(pot.organisms):
        ripen = o["speed"] * o["growth_rate"] * ref.by_temperature(c, *o["temperature"])
        upkeep = o["speed"] * o["acid_per_cell_hour"] * ref.resting_warmth(c, o, pot.law)
        food = []
        for k, s in enumerate(there):
            if o["weights"][s] > 0:
                used = ref.HEXOSES[s] - (o["galactose_released"] if s == ref.LACTOSE else 0)
                goes = o["galactose_released"] if s == ref.LACTOSE and galactose >= 0 else 0.0
                food.append((k, float(o["weights"][s]), float(1 / (o["lactic_per_hexose"] * used)), goes))
        partner, share, half = o["partners"][0]
        low, best, high = o["ph"]
        cells.append((i, ripen, upkeep, 1 / o["acid_ceiling"], o["half_saturation"], food, partner, 1 - share, share, half,
                      low, best, high, 1e-6 * o["acid_per_cell"], 1e-6))
    ceiling, pka, per_step = 1 / pot.law["count_ceiling"], pot.lactic_pka, 1 / STEP

    def rhs(_t, y):
        y = y.tolist()
        lactic = y[last]
        x = lactic * per_step
        if x > 0:
            at = int(x)
            ph = ph_table[at]
            ph += (ph_table[at + 1] - ph) * (x - at)
        else:
            ph, lactic = ph_table[0], 0.0
        undissociated = lactic / (1 + 10 ** (ph - pka))
        counts = [exp(v) for v in y[:n]] if logs else y[:n]
        room = 1 - sum(counts) * ceiling
        sugars = y[2 * n:last]
        dy = [0.0] * (last + 1)
        for i, ripen, upkeep, per_acid, half, food, partner, c0, c1, help_half, low, best, high, per_growth, per_upkeep in cells:
            acid = 1 - undissociated * per_acid
            if acid < 0:
                acid = 0.0
            most, total, terms = 0.0, 0.0, []
            for k, weight, per, goes in food:
                s = sugars[k]
                term = weight * s / (s + half) if s > 0 else 0.0
                total += term
                if term > most:
                    most = term
                terms.append(term)
            factor = acid * most
            ready = y[n + i]
            if logs:
                dy[n + i] = ripen
                ready = 1 / (1 + exp(-ready))
            else:
                dy[n + i] = ripen * ready * (1 - ready)
            growth = 0.0
            if low < ph < high and room > 0:
                product = (ph - low) * (ph - high)
                help_ = c0 if partner is None else c0 + c1 * counts[partner] / (counts[partner] + help_half)
                growth = ripen * factor * help_ * ready * room * product / (product - (ph - best) ** 2)
            dy[i] = growth if logs else growth * counts[i]
            made = counts[i] * (per_growth * growth + per_upkeep * upkeep * factor)
            dy[last] += made
            if total > 0:
                share = made / total
                for (k, _, per, goes), term in zip(food, terms):
                    eaten = share * term * per
                    dy[2 * n + k] -= eaten
                    if goes:
                        dy[2 * n + galactose] += eaten * goes
        return dy

    a0 = [exp(-o["lag_work"]) for o in pot.organisms]
    head = [log(o["count"]) for o in pot.organisms] + [log(a / (1 - a)) for a in a0] if logs else [o["count"] for o in pot.organisms] + a0
    start = np.array(head + [pot.sugars[s] for s in there] + [0.0])
    return rhs, start, [1.0] * n if logs else [1e5] * n, n, m


def runners(pot, ph_table, logs):
    rhs, start, size, n, m = right_hand_side(pot, ph_table, logs)

    def atol(rtol):
        return np.array([rtol * s for s in size] + [rtol] * (n + m + 1))

    def by_odeint(rtol):
        return odeint(rhs, start, TIMES, tfirst=True, rtol=rtol, atol=atol(rtol), mxstep=100_000)[:, -1]

    def by_solve_ivp(rtol):
        return solve_ivp(rhs, (0.0, 36.0), start, method="LSODA", t_eval=TIMES, rtol=rtol, atol=atol(rtol)).y[-1]

    return {"odeint": by_odeint, "solve_ivp": by_solve_ivp}


def median_ms(run, rtol, runs=15):
    run(rtol)
    took = []
    for _ in range(runs):
        before = time.perf_counter()
        run(rtol)
        took.append((time.perf_counter() - before) * 1e3)
    return float(np.median(took))


def main():
    warnings.simplefilter("ignore")
    wanted = ERRORS | {k: float(v) for k, v in (arg.split("=") for arg in sys.argv[1:])}
    for pot in ref.cases():
        if pot.name not in wanted:
            continue
        exact = ref.outputs(pot, TIMES, ref.run(pot, TIMES, "LSODA", 1e-10))["ph"]
        ph_table = table(pot)
        for logs in (True, False):
            for way, run in runners(pot, ph_table, logs).items():
                def error(rtol):
                    lactic = np.maximum(run(rtol), 0)
                    return np.abs(np.interp(lactic / STEP, np.arange(len(ph_table)), ph_table) - exact).max()

                # From coarse to fine in twentieths of a power of ten: the first that is as exact as the program.
                rtol = next((r for r in 10 ** -np.arange(2.0, 12.0, 0.05) if error(r) <= wanted[pot.name]), None)
                form = "logarithms" if logs else "as they are"
                if rtol is None:
                    print(f"{pot.name}, {way}, counts {form}: not that exact at any tolerance")
                    continue
                print(f"{pot.name}, {way}, counts {form}: {median_ms(run, rtol):.2f} ms (median of 15), rtol {rtol:.1e}, "
                      f"largest error in pH {error(rtol):.1e} (program {wanted[pot.name]:.1e})")
        untabled(pot, exact, wanted[pot.name])


def untabled(pot, exact, wanted):
    """The same with the pH solved in the right-hand side, as in the reference: nothing is worked out beforehand."""
    def run(rtol):
        return ref.run(pot, TIMES, "LSODA", rtol)

    def error(rtol):
        return np.abs(np.asarray(ref.outputs(pot, TIMES, run(rtol))["ph"]) - np.asarray(exact)).max()

    rtol = next((r for r in 10 ** -np.arange(4.0, 12.0, 0.25) if error(r) <= wanted), None)
    if rtol is None:
        print(f"{pot.name}, LSODA, pH solved in the right-hand side: not that exact at any tolerance")
        return
    print(f"{pot.name}, LSODA, pH solved in the right-hand side: {median_ms(run, rtol):.1f} ms (median of 15), "
          f"rtol {rtol:.1e}, largest error in pH {error(rtol):.1e}")


if __name__ == "__main__":
    main()
