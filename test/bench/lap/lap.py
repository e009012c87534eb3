"""A lap at one lever by scipy's integrators, as test/bench/scipy.js asks for it by JSON on standard input. First the derivative
is held to the core's at states of the lap; then each method goes straight through or from edge to edge, at the loosest
tolerance at which it errs no more than the core does. Answers by JSON. Processor time of the solver alone, least of several."""

import json
import sys
from time import process_time_ns

import scipy
from scipy.integrate import ode, odeint

from motion import derivative

TIMES = 5
FINEST = 1e-12
MOST_STEPS = 1_000_000


def lsoda(rates, state, from_m, edges, tolerance):
    """odeint: `ode` takes as long for the same steps, `solve_ivp` longer"""
    for to_m in edges:
        state = odeint(rates, state, [from_m, to_m], tfirst=True, rtol=tolerance, atol=tolerance, mxstep=MOST_STEPS)[-1]
        from_m = to_m
    return state


def dop853(rates, state, from_m, edges, tolerance):
    """the compiled one of `ode`: that of `solve_ivp` is Python itself"""
    solver = ode(rates).set_integrator("dop853", rtol=tolerance, atol=tolerance, nsteps=MOST_STEPS)
    for to_m in edges:
        state = solver.set_initial_value(state, from_m).integrate(to_m)
        from_m = to_m
    return state


def cpu_ns(does):
    taken = []
    for _ in range(TIMES):
        start = process_time_ns()
        does()
        taken.append(process_time_ns() - start)
    return min(taken)


def furthest(found, truth):
    return max(abs(x - t) / max(1, abs(t)) for x, t in zip(found, truth))


def main():
    asked = json.load(sys.stdin)
    plain = derivative(asked)
    rates = lambda head_m, state: plain(head_m, state.tolist())
    count = 0

    def counted(head_m, state):
        nonlocal count
        count += 1
        return rates(head_m, state)

    samples = [(head_m, state, own) for head_m, state, own in asked["samples"]]
    derivativeOff = max(furthest(plain(head_m, state), own) for head_m, state, own in samples)
    derivative_ns = cpu_ns(lambda: [plain(head_m, state) for head_m, state, _ in samples]) / len(samples)

    def off(state):
        return furthest([state[i] for i in asked["shown"]], asked["truth"])

    start, from_m = asked["start"], 0.0
    rows = []
    for name, method in {"LSODA": lsoda, "DOP853": dop853}.items():
        for way, edges in asked["ways"].items():
            finest = off(method(rates, start, from_m, edges, FINEST))
            found = next((t for t in asked["tolerances"] if off(method(rates, start, from_m, edges, t)) <= asked["error"]), None)
            row = {"method": name, "way": way, "finest": finest, "tolerance": found}
            if found is not None:
                count = 0
                row["error"] = off(method(counted, start, from_m, edges, found))
                row["derivatives"] = count
                row["ms"] = cpu_ns(lambda: method(rates, start, from_m, edges, found)) / 1e6
            rows.append(row)
    answer = {"scipy": scipy.__version__, "python": sys.version.split()[0]}
    json.dump(answer | {"derivativeOff": derivativeOff, "derivative_ns": derivative_ns, "rows": rows}, sys.stdout)


main()
