"""The right-hand side that Potset is timed against in Python. Frozen: bench.py refuses any other text of this file, so
that ratios of later versions stay comparable.

Plain Python as fast as it goes for a few organisms: numbers and `math` only, factors of the steady temperature worked
out beforehand. pH either by straight lines on a table fine enough (0.004 mmol/kg) to count as exact, or solved for from
the last one. For pots at a steady temperature without acetic acid. Counts and readiness are followed by their
logarithms, as in the program, or as they are.
"""
from math import exp, log

import numpy as np

import reference as ref

STEP = 0.004


def table(pot):
    """pH on an even grid of lactic acid, mmol/kg."""
    return [ref.solve_ph(pot, STEP * i, 0.0) for i in range(int(260 / STEP))]


def solver(pot):
    """pH after lactic acid, mmol/kg, by Newton's rule from the last pH; it ends as the program's does."""
    sites = [(amount, n, 10 ** (-n * pk)) for amount, pk, n in pot.sites]
    held, activity, acid_factor, ln10 = pot.held_at_start, pot.activity, 10 ** pot.lactic_pka, log(10)
    last = pot.ph0

    def ph_of(lactic):
        nonlocal last
        ph = last
        for _ in range(50):
            h = 10 ** ph
            free = 1e3 / (h * activity)
            share = h / (h + acid_factor)
            gap, slope = free - held - lactic * share, -free - lactic * share * (1 - share)
            for amount, n, factor in sites:
                share = 1 / (1 + (h if n == 1 else h ** n) * factor)
                gap += amount * share
                slope -= amount * n * share * (1 - share)
            step = gap / (slope * ln10)
            ph -= step
            if -1e-7 < step < 1e-7:
                break
        last = ph
        return ph

    return ph_of


def prepared(pot):
    """Sugars that are there, the place of galactose among them or -1, and each organism's constants."""
    c = pot.course[0][2][0]
    assert all(o["acetic_per_hexose"] == 0 and o["acid_exponent"] == 1 and len(o["partners"]) == 1 for o in pot.organisms)
    released = any(o["galactose_released"] > 0 for o in pot.organisms) and pot.sugars[ref.LACTOSE] > 0
    there = [s for s in range(8) if pot.sugars[s] > 0 or (s == ref.GALACTOSE and released)]
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
    return there, galactose, cells


def right_hand_side(pot, ph_table, logs):
    """dy/dt at the pot's steady temperature, and the state at the start; without a table pH is solved for."""
    n = len(pot.organisms)
    there, galactose, cells = prepared(pot)
    last = 2 * n + len(there)
    ceiling, pka, per_step, ph0 = 1 / pot.law["count_ceiling"], pot.lactic_pka, 1 / STEP, pot.ph0
    ph_of = None if ph_table else solver(pot)

    def rhs(_t, y):
        y = y.tolist()
        lactic = y[last]
        if lactic <= 0:
            ph, lactic = ph0, 0.0
        elif ph_table:
            x = lactic * per_step
            at = int(x)
            ph = ph_table[at]
            ph += (ph_table[at + 1] - ph) * (x - at)
        else:
            ph = ph_of(lactic)
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

    return rhs, start(pot, there, logs)


def start(pot, there, logs):
    """Counts, readiness, sugars that are there, lactic acid."""
    ready = [exp(-o["lag_work"]) for o in pot.organisms]
    counts = [o["count"] for o in pot.organisms]
    if logs:
        counts, ready = [log(c) for c in counts], [log(a / (1 - a)) for a in ready]
    return np.array(counts + ready + [pot.sugars[s] for s in there] + [0.0])
