#!/usr/bin/python3
"""Integrates the equations of calc/ferment independently: scipy's LSODA at
tight tolerance, in hours after pitching (not in the yeast's own clock), with
the constants typed anew. Writes reference.json beside it; with --check it
compares a fresh run with the committed file instead.

Debian 12: apt-get install python3-scipy; then /usr/bin/python3 reference.py
"""
import json
import math
import os
import sys

import numpy
import scipy
from scipy.integrate import solve_ivp
from scipy.optimize import brentq, minimize_scalar

R, ZERO = 1.987e-3, 273.15
UPTAKE, CARRIER_K, GROWTH, EA = 0.0151, 22.4, 11.3, 17.8  # fitted: calc/ferment/kinetics.go
HEXOSE, TRIOSE, HEXOSE_K, HEXOSE_BRAKE, ALCOHOL = 1.25, 0.6, 20.0, 120.0, 80.0
OWN, MOST, X0 = 1.5, 6.0, 125.0
DEXTRIN = 0.010
OPEN, CLOSE = 0.85, 0.1  # of the greatest rate: calc/ferment/honeywindow.go
GRAMS = (0.180156, 0.342297, 0.504438)  # g per mmol of hexose, maltose, maltotriose


def warmth(temperature):
    t = min(max(temperature, 4.0), 30.0)
    return math.exp(-EA / R * (1 / (t + ZERO) - 1 / (20.0 + ZERO)))


def activity(t, lag):
    u = (t - lag / 2) / lag
    return 0.0 if u <= 0 else 1.0 if u >= 1 else u * u * (3 - 2 * u)


def rates(y, x0, volume):
    """Per hour of the yeast at 20 °C."""
    g, m, n, d, x, done = y
    gc, mc, nc = max(g, 0) / volume, max(m, 0) / volume, max(n, 0) / volume
    ethanol = max(done, 0) / volume / 2.0665
    v = UPTAKE / (1 + ethanol / ALCOHOL)
    free = HEXOSE_BRAKE / (HEXOSE_BRAKE + gc)
    mu1 = HEXOSE * v * gc / (HEXOSE_K + gc)
    mu2 = v * free * mc / (CARRIER_K + mc + nc)
    mu3 = TRIOSE * v * free * nc / (CARRIER_K + mc + nc)
    room = max(0.0, 1 - x / (OWN * x0 + (MOST - OWN) * X0))
    p = ethanol / 101.6
    late = max(0.0, 1 - p * p * (1 + 0.1 * (1 - p) / (1 + p)))
    grow = GROWTH * (0.134 * mu1 + 0.268 * mu2 + 0.402 * mu3) * x * room * late
    hydrolysed = DEXTRIN * max(d, 0)
    gone = (GRAMS[0] * mu1 + GRAMS[1] * mu2 + GRAMS[2] * mu3) * x + hydrolysed
    return numpy.array([-mu1 * x, -mu2 * x, -mu3 * x, -hydrolysed, grow, gone])


def extract(y):
    return GRAMS[0] * y[0] + GRAMS[1] * y[1] + GRAMS[2] * y[2] + y[3]


def course(case, pulses, end):
    """Segments of dense solution from pitching to end."""
    x0 = X0 * case["pitch_billion_per_l"] / 9.0
    warm = warmth(case["temperature_c"])
    lag, s = case["lag_h"] / warm, case["rate_factor"]
    y = numpy.array([*case["start"], x0, 0.0])
    volume = 1.0
    changes = case.get("changes", [])
    stops = sorted({lag / 2, 1.5 * lag, end, *(p["hour"] for p in pulses), *(c["hour"] for c in changes)})
    segments, at = [], 0.0
    for stop in stops:
        if stop > at:
            f = lambda t, y, v=volume, w=warm: s * w * activity(t, lag) * rates(y, x0, v)
            # LSODA takes one long step over the dead time if it is let.
            sol = solve_ivp(f, (at, stop), y, method="LSODA", rtol=1e-12, atol=1e-13,
                            dense_output=True, max_step=2.0)
            if not sol.success:
                raise RuntimeError(sol.message)
            segments.append((at, stop, sol, f))
            y = sol.y[:, -1].copy()
            at = stop
        for p in pulses:
            if p["hour"] == stop:
                y[:4] += p["add"]
                volume += p["volume"]
        for c in changes:
            if c["hour"] == stop:
                warm = warmth(c["c"])
    return segments


def value(segments, t):
    for a, b, sol, f in segments:
        if a <= t < b or (t == b and b == segments[-1][1]):
            return sol.sol(t), f
    raise ValueError(t)


def milestones(case):
    end = 1500.0
    segments = course(case, [], end)
    total = extract(value(segments, 0.0)[0])

    def done(t):
        return 1 - extract(value(segments, t)[0]) / total

    def rate(t):
        y, f = value(segments, t)
        return -extract(f(t, y))

    grid = numpy.arange(0, end, 0.25)
    r = numpy.array([rate(t) for t in grid])
    i = int(r.argmax())
    top = minimize_scalar(lambda t: -rate(t), bounds=(grid[i] - 0.25, grid[i] + 0.25),
                          method="bounded", options={"xatol": 1e-9})
    height, peak = float(top.x), float(-top.fun)
    cross = lambda f, lo: brentq(f, lo, next(t for t in grid if t > lo and f(t) >= 0), xtol=1e-10)
    slow = cross(lambda t: OPEN * peak - rate(t), height)
    half = cross(lambda t: done(t) - 0.5, 0.0)
    opens = max(slow, half)
    closes = min(cross(lambda t: CLOSE * peak - rate(t), opens), cross(lambda t: done(t) - 0.9, 0.0))
    return {"height": height, "opens": opens, "closes": max(opens, closes),
            "finished": cross(lambda t: done(t) - 0.99, 0.0)}


CASES = [
    {"name": "ale at 20 with honey", "temperature_c": 20.0, "pitch_billion_per_l": 9.0, "lag_h": 8.0,
     "rate_factor": 1.0, "start": [90.0, 155.0, 16.0, 0.0],
     "pulses": [{"hour": 55.0, "add": [190.0, 5.0, 0.0, 0.0], "volume": 0.03}]},
    {"name": "lager at 10", "temperature_c": 10.0, "pitch_billion_per_l": 18.0, "lag_h": 12.0,
     "rate_factor": 1.0, "start": [90.0, 155.0, 26.0, 0.0], "pulses": []},
    {"name": "diastatic at 26", "temperature_c": 26.0, "pitch_billion_per_l": 9.0, "lag_h": 5.0,
     "rate_factor": 1.2, "start": [80.0, 150.0, 30.0, 12.0],
     "pulses": [{"hour": 20.0, "add": [60.0, 0.0, 0.0, 0.5], "volume": 0.0},
                {"hour": 90.0, "add": [60.0, 3.0, 0.0, 0.0], "volume": 0.02}]},
    {"name": "strong and warm", "temperature_c": 30.0, "pitch_billion_per_l": 20.0, "lag_h": 3.0,
     "rate_factor": 0.7, "start": [420.0, 170.0, 30.0, 0.0], "pulses": []},
    {"name": "weak, underpitched and cold", "temperature_c": 15.0, "pitch_billion_per_l": 3.0, "lag_h": 14.4,
     "rate_factor": 1.0, "start": [20.0, 40.0, 8.0, 0.0], "pulses": []},
    {"name": "lager raised for a rest", "temperature_c": 10.0, "pitch_billion_per_l": 18.0, "lag_h": 10.0,
     "rate_factor": 1.0, "start": [90.0, 155.0, 26.0, 0.0], "pulses": [],
     "changes": [{"hour": 120.0, "c": 18.0}, {"hour": 200.0, "c": 4.0}]},
]


def run():
    out = []
    for case in CASES:
        segments = course(case, case["pulses"], 337.0)
        hours = list(range(0, 337, 12))
        states = [[float(v) for v in value(segments, float(h))[0]] for h in hours]
        out.append({**case, "hours": hours, "states": states, "milestones": milestones(case)})
    return {
        "about": "written by reference.py: states G, M, N (mol/m3), D (g/L), X (mol/m3), fermented (g/L) per litre pitched",
        "versions": {"python": sys.version.split()[0], "numpy": numpy.__version__, "scipy": scipy.__version__},
        "fitted": {"uptake": UPTAKE, "carrier": CARRIER_K, "growth": GROWTH, "activation": EA},
        "cases": out,
    }


def main():
    path = os.path.join(os.path.dirname(os.path.abspath(__file__)), "reference.json")
    fresh = run()
    if sys.argv[1:] != ["--check"]:
        with open(path, "w") as f:
            json.dump(fresh, f, indent=1)
            f.write("\n")
        return 0
    with open(path) as f:
        committed = json.load(f)
    bad = 0
    for a, b in zip(fresh["cases"], committed["cases"], strict=True):
        x, y = numpy.array(a["states"]), numpy.array(b["states"])
        worst = float(numpy.max(numpy.abs(x - y) / (numpy.abs(y) + 1e-3)))
        late = max(abs(a["milestones"][k] - v) for k, v in b["milestones"].items())
        print(f"{a['name']}: states differ by {worst:.1e} at most, milestones by {late:.1e} h")
        bad |= not (worst < 1e-7 and late < 1e-4)
    return int(bad)


if __name__ == "__main__":
    sys.exit(main())
