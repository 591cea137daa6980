"""The program's time per pot beside SciPy LSODA, CVODE from Python and CVODE in C, in one run and to the same error.

    python3 tests/reference/bench.py

needs `pip install numpy scipy`; with `pip install scikit-sundae` CVODE is timed from Python, with a C compiler and
SUNDIALS (Debian: libsundials-dev) in C. What is not there is left out and said so.

Pots: coconut and milk of reference.py, 241 points over 36 h. The program's error is the largest in pH against DOP853
at 1e-13. Every other solver runs at the largest relative tolerance, from 1e-4 down in twentieths of a decade, whose
error is no larger; the absolute one goes along. Counts and readiness are followed by their logarithms and as they are;
the faster of the two is shown. The program and every solver take turns for ROUNDS rounds, and the shortest time of each
counts.

The right-hand side in Python is that of rhs.py, whose text is frozen; one row has the reference's own, which takes any
pot. In C it is in cvode.c. pH is solved for from the last one to the program's accuracy, or comes from a table: in
Python one of straight lines that is not timed, in C of the program's kind, timed as the program's own is. The program's
time is for all its kinetic curves; of the others only pH is asked.
"""
import hashlib
import platform
import subprocess
import sys
import tempfile
import time
import warnings
from itertools import product
from pathlib import Path

import numpy as np
import scipy
from scipy.integrate import odeint, solve_ivp

import reference as ref
import rhs

try:
    from sksundae.cvode import CVODE
except ImportError:
    CVODE = None

HERE = Path(__file__).parent
TIMES = np.linspace(0.0, 36.0, 241)
FROZEN = "e33222b67e91714f2fed09e893b7025fc2fbbc172421812f2cdb1d419457734b"
ROUNDS = 7
RTOLS = 10 ** -np.arange(4.0, 12.0, 0.05)
FORMS = {"logs": True, "plain": False}


def check_frozen():
    """Stops if the Python right-hand side is not the one that earlier ratios were taken with."""
    found = hashlib.sha256((HERE / "rhs.py").read_bytes()).hexdigest()
    assert found == FROZEN, f"rhs.py has changed ({found}): ratios are no longer comparable"
    print(f"right-hand side in Python: {found[:16]}, frozen")


# Solvers: each a function of the relative tolerance that returns ns and the pH at the times, or None if it gives up.

def in_python(pot, ph_table, logs):
    return solvers(pot, None, ph_table, logs, "pH solved") | solvers(pot, ph_table, ph_table, logs, "pH by table")


def solvers(pot, inside, ph_table, logs, how):
    f, start = rhs.right_hand_side(pot, inside, logs)
    n = len(pot.organisms)
    size = np.array([1.0 if logs else 1e5] * n + [1.0] * (len(start) - n))

    def by_solve_ivp(rtol):
        return solve_ivp(f, (0.0, 36.0), start, method="LSODA", t_eval=TIMES, rtol=rtol, atol=rtol * size).y[-1]

    def by_odeint(rtol):
        return odeint(f, start, TIMES, tfirst=True, rtol=rtol, atol=rtol * size, mxstep=100_000)[:, -1]

    def by_cvode(method):
        def fill(t, y, dy):
            dy[:] = f(t, y)
        return lambda rtol: CVODE(fill, method=method, rtol=rtol, atol=rtol * size, max_num_steps=100_000).solve(TIMES, start).y[:, -1]

    def timed(run):
        def once(rtol):
            before = time.perf_counter_ns()
            lactic = run(rtol)
            ns = time.perf_counter_ns() - before
            if len(lactic) != len(TIMES):
                return None
            return ns, np.interp(np.maximum(lactic, 0) / rhs.STEP, np.arange(len(ph_table)), ph_table)
        return once

    runs = {"SciPy LSODA, solve_ivp": by_solve_ivp, "SciPy LSODA, odeint": by_odeint}
    if CVODE:
        runs |= {"CVODE BDF from Python": by_cvode("BDF"), "CVODE Adams from Python": by_cvode("Adams")}
    return {f"{name}, {how}": timed(run) for name, run in runs.items()}


def in_reference(pot):
    """The reference's own right-hand side, any pot and any course, with NumPy."""
    def once(rtol):
        before = time.perf_counter_ns()
        rows = ref.run(pot, TIMES, "LSODA", rtol)
        ns = time.perf_counter_ns() - before
        return ns, np.array(ref.outputs(pot, TIMES, rows)["ph"])
    return {"SciPy LSODA, solve_ivp, as reference.py": once}


def in_c(program, pot, form):
    text = pot_text(pot, FORMS[form])

    def by(method, ph):
        def once(rtol, repeats=1):
            got = subprocess.run([program, method, form, ph, repr(float(rtol)), str(repeats)], input=text, text=True, capture_output=True)
            if got.returncode != 0:
                return None
            first, *phs = got.stdout.splitlines()
            return int(first.split()[0]), np.array(phs, dtype=float)
        return once

    return {f"CVODE {method} in C, pH {how}": by(method.lower(), how.split()[-1])
            for method, how in product(["BDF", "Adams"], ["solved", "by table"])}


def pot_text(pot, logs):
    """A pot as cvode.c reads it."""
    there, galactose, cells = rhs.prepared(pot)
    out = [len(cells), len(there), len(pot.sites), galactose, pot.ph0, pot.activity, pot.lactic_pka, 1 / pot.law["count_ceiling"]]
    out += [x for site in pot.sites for x in site]
    for _, ripen, upkeep, per_acid, half, food, partner, *rest in cells:
        out += [ripen, upkeep, per_acid, half, *rest, -1 if partner is None else partner]
        eaten = {k: terms for k, *terms in food}
        out += [x for k in range(len(there)) for x in eaten.get(k, (0, 0, 0))]
    return "\n".join(repr(float(x)) for x in [*out, *rhs.start(pot, there, logs)])


def built(folder):
    """cvode.c as a program, or None."""
    libraries = [f"-lsundials_{name}" for name in ("cvode", "nvecserial", "sunmatrixdense", "sunlinsoldense")]
    program = str(Path(folder) / "cvode")
    for more in ([], ["-lsundials_core"]):
        try:
            got = subprocess.run(["cc", "-O2", "-o", program, str(HERE / "cvode.c"), *libraries, *more, "-lm"], capture_output=True)
        except FileNotFoundError:
            return None
        if got.returncode == 0:
            return program
    return None


def potset():
    """ns and pH of each pot by the program itself."""
    command = ["cargo", "bench", "-q", "--bench", "plain"]
    got = subprocess.run(command, cwd=HERE.parents[1], check=True, stdout=subprocess.PIPE, text=True)
    return {name: (int(ns), np.array(ph, dtype=float)) for name, ns, *ph in map(str.split, got.stdout.splitlines())}


def compared(pot, program, first):
    """The program's error, and each solver at the tolerance that it needs: (name, form, rtol, error, run)."""
    exact = np.array(ref.outputs(pot, TIMES, ref.run(pot, TIMES, "DOP853", 1e-13))["ph"])
    ph_table = rhs.table(pot)
    ours = np.abs(first - exact).max()
    found = []
    for form, logs in FORMS.items():
        runs = in_python(pot, ph_table, logs)
        if program:
            runs |= in_c(program, pot, form)
        if not logs:
            runs |= in_reference(pot)
        for name, run in runs.items():
            for rtol in RTOLS:
                got = run(rtol)
                if got and (error := np.abs(got[1] - exact).max()) <= ours:
                    found.append((name, form, rtol, error, run))
                    break
            else:
                print(f"{pot.name}, {name}, {form}: not that exact at any tolerance")
    return ours, found


def table(pot, ours, error, found, times):
    print(f"\n{pot.name:58} ms per pot   error in pH   times Potset")
    print(f"{'Potset':58} {ours * 1e-6:10.4f} {error:13.1e} {1:14.2f}")
    best = {}
    for (name, form, rtol, error, _), ns in zip(found, times):
        best[name] = min(best.get(name, (np.inf,)), (ns, f"{name}, {form}, rtol {rtol:.0e}", error))
    for ns, name, error in best.values():
        print(f"{name:58} {ns * 1e-6:10.4f} {error:13.1e} {ns / ours:14.2f}")


def main():
    warnings.simplefilter("ignore")
    print(f"Python {platform.python_version()}, NumPy {np.__version__}, SciPy {scipy.__version__}")
    check_frozen()
    if not CVODE:
        print("no scikit-sundae: CVODE is not timed from Python")
    with tempfile.TemporaryDirectory() as folder:
        program = built(folder)
        if not program:
            print("no C compiler or no SUNDIALS: CVODE is not timed in C")
        first = potset()
        pots = [pot for pot in ref.cases() if pot.name in first]
        plans = [compared(pot, program, first[pot.name][1]) for pot in pots]
        program_ns = {pot.name: np.inf for pot in pots}
        solver_ns = [[np.inf] * len(found) for _, found in plans]
        for _ in range(ROUNDS):
            now = potset()
            for pot, (_, found), best in zip(pots, plans, solver_ns):
                program_ns[pot.name] = min(program_ns[pot.name], now[pot.name][0])
                for i, (name, _, rtol, _, run) in enumerate(found):
                    turn = [run(rtol, 100)[0]] if " in C" in name else [run(rtol)[0] for _ in range(3)]
                    best[i] = min(best[i], *turn)
        for pot, (error, found), best in zip(pots, plans, solver_ns):
            table(pot, program_ns[pot.name], error, found, best)


if __name__ == "__main__":
    sys.exit(main())
