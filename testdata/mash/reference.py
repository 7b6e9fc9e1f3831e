#!/usr/bin/python3
"""Integrates the equations of package calc/mash (its doc comment) with SciPy's
LSODA, independently of the Go program, and prints the states as JSON.

    /usr/bin/python3 reference.py            > reference.json
    /usr/bin/python3 reference.py --check    compares with reference.json

Needs Debian's python3-scipy. Constants: constants.json, written by the Go test
(go test -tags ci ./calc/mash -run Constants -update)."""
import json
import math
import os
import platform
import sys

import numpy
import scipy
from scipy.integrate import solve_ivp

HERE = os.path.dirname(os.path.abspath(__file__))
R = 8.314e-3
NAMES = ["gelled", "open", "limit", "glucose", "maltose", "maltotriose", "alpha", "beta", "limitase"]


def load(name):
    with open(os.path.join(HERE, name), encoding="utf-8") as f:
        return json.load(f)


K = load("constants.json")

# enzymes: base malt's share of the starch. raw: (share of starch, °C hotter
# than barley). guard: mol/L of maltose when all starch has become maltose.
CASES = [
    {"name": "one hour at 66", "enzymes": 1.0, "raw": [], "guard": 0.62, "thick_c": 0.0,
     "legs": [[0, 60, 66, 66]], "times": [1, 5, 10, 20, 40, 60]},
    {"name": "steps with ramps", "enzymes": 1.0, "raw": [], "guard": 0.5, "thick_c": -1.2,
     "legs": [[0, 15, 50, 50], [15, 28, 50, 63], [28, 58, 63, 63], [58, 67, 63, 72], [67, 87, 72, 72], [87, 91, 72, 76]],
     "times": [10, 20, 28, 45, 58, 62, 75, 87, 91]},
    {"name": "raw maize", "enzymes": 0.6, "raw": [[0.4, 11.0]], "guard": 0.75, "thick_c": 1.5,
     "legs": [[0, 90, 67, 67]], "times": [2, 15, 45, 90]},
    {"name": "hot", "enzymes": 1.0, "raw": [], "guard": 0.62, "thick_c": 0.0,
     "legs": [[0, 60, 75, 75]], "times": [1, 3, 10, 60]},
    {"name": "cool", "enzymes": 1.0, "raw": [], "guard": 0.62, "thick_c": 0.0,
     "legs": [[0, 120, 57, 57]], "times": [5, 30, 120]},
]


def arr(e, t_c):
    return math.exp(e / R * (1 / 338.15 - 1 / (t_c + 273.15)))


def classes(case):
    tail, n = K["GelTail"], 4
    total = sum(tail ** i for i in range(n))
    out = [(case["enzymes"] * tail ** i / total, i * K["GelStepC"]) for i in range(n)]
    return out + [tuple(r) for r in case["raw"]]


def solve(case):
    cl = classes(case)

    def rhs(t, y, leg):
        t0, t1, c0, c1 = leg
        tc = c0 + (c1 - c0) * (t - t0) / (t1 - t0)
        s, d, l, _, m, _, a, b, x = y[:9]
        gel = [K["GelRate"] * arr(K["GelE"], tc)
               / (1 + math.exp(-(tc - K["GelMidC"] - shift - case["thick_c"]) / K["GelWidthC"])) * y[9 + i]
               for i, (_, shift) in enumerate(cl)]
        ka = K["AlphaRate"] * arr(K["AlphaE"], tc)
        cut = ka * a * s
        beta = K["BetaRate"] * arr(K["BetaE"], tc) * b * d
        deb = K["LimitRate"] * arr(K["LimitE"], tc) * x * l
        u, v = K["AlphaTrim"] * ka * a * d, K["AlphaTrim"] * ka * a * l
        yd = 1 - K["YieldGlucose"] - K["YieldMaltose"] - K["YieldMaltotriose"] - K["YieldLimit"]
        n = K["BetaMaltotriose"]
        return [
            sum(gel) - cut,
            yd * cut - beta - u + deb,
            K["YieldLimit"] * cut - v - deb,
            K["YieldGlucose"] * cut + K["TrimGlucose"] * (u + v),
            K["YieldMaltose"] * cut + (1 - n) * beta + K["TrimMaltose"] * (u + v),
            K["YieldMaltotriose"] * cut + n * beta + K["TrimMaltotriose"] * (u + v),
            -K["AlphaLoss"] * arr(K["AlphaLossE"], tc) * a,
            -K["BetaLoss"] * arr(K["BetaLossE"], tc) * b / (1 + case["guard"] * m / K["BetaGuard"]),
            -K["LimitLoss"] * arr(K["LimitLossE"], tc) * x,
        ] + [-g for g in gel]

    e = case["enzymes"]
    y = [0.0] * 6 + [e, e, e] + [share for share, _ in cl]
    rows = []
    for leg in case["legs"]:
        at = sorted({t for t in case["times"] if leg[0] < t <= leg[1]} | {leg[1]})
        sol = solve_ivp(rhs, (leg[0], leg[1]), y, method="LSODA", t_eval=at, args=(leg,), rtol=1e-12, atol=1e-15)
        if not sol.success:
            raise SystemExit(sol.message)
        for i, t in enumerate(sol.t):
            if t in case["times"]:
                rows.append({"minute": float(t), "state": [float(v) for v in sol.y[:, i]]})
        y = sol.y[:, -1]
    return {**case, "rows": rows}


def main():
    out = {
        "versions": {"python": platform.python_version(), "numpy": numpy.__version__, "scipy": scipy.__version__},
        "method": "scipy.integrate.solve_ivp, LSODA, rtol 1e-12, atol 1e-15",
        "states": NAMES + ["raw starch, class by class"],
        "constants": K,
        "cases": [solve(c) for c in CASES],
    }
    if "--check" in sys.argv[1:]:
        worst = 0.0
        for a, b in zip(out["cases"], load("reference.json")["cases"], strict=True):
            for ra, rb in zip(a["rows"], b["rows"], strict=True):
                for x, z in zip(ra["state"], rb["state"], strict=True):
                    worst = max(worst, abs(x - z) / max(abs(z), 1e-6))
        print(f"largest relative difference {worst:.1e}")
        raise SystemExit(0 if worst < 1e-8 else 1)
    json.dump(out, sys.stdout, indent=1)
    print()


if __name__ == "__main__":
    main()
