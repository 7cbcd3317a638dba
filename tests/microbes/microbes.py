"""Killing and growth over random histories as a plain Riemann sum, against what is handed in on standard input.

Needs numpy and scipy. `cargo test --test microbes -- --ignored numpy` runs it. The figures of the models come from
tests/reference/microbes/dynamic-cases.toml; below 60 °C Listeria has the line of `LOW` (source: an upper envelope of published
D values).
"""

import json
import pathlib
import sys
import tomllib

import numpy as np
from scipy.integrate import solve_ivp

STEP_H = 1.0 / 3600.0
WITHIN = 0.05
CREDIT_C = 54.4
CEILING = 9.0
LOW = {"d_ref_min": 7.18, "t_ref_c": 60.0, "z_c": 4.8}

figures = tomllib.loads((pathlib.Path(__file__).parents[1] / "reference/microbes/dynamic-cases.toml").read_text())
deaths = {
    "salmonella": figures["lethality"]["salmonella_meat"],
    "perfringens": figures["lethality"]["perfringens_cells"],
    "listeria": figures["lethality"]["listeria"],
}


def rate(g, t):
    num = (t - g["t_max_c"]) * (t - g["t_min_c"]) ** 2
    a = g["t_opt_c"] - g["t_min_c"]
    den = a * (a * (t - g["t_opt_c"]) - (g["t_opt_c"] - g["t_max_c"]) * (g["t_opt_c"] + g["t_min_c"] - 2 * t))
    inside = (t > g["t_min_c"]) & (t < g["t_max_c"])
    return np.where(inside, g["mu_opt_per_h"] * num / np.where(inside, den, 1.0), 0.0)


def d_min(name, t):
    d = deaths[name]
    high = d["d_ref_min"] * 10 ** ((d["t_ref_c"] - t) / d["z_c"])
    if name != "listeria":
        return high
    return np.where(t < 60.0, LOW["d_ref_min"] * 10 ** ((LOW["t_ref_c"] - t) / LOW["z_c"]), high)


def sampled(points):
    """Temperatures in the middle of each step of a second; a jump takes no time."""
    parts = []
    for (m0, c0), (m1, c1) in zip(points, points[1:]):
        n = round((m1 - m0) / 60.0 / STEP_H)
        parts.append(c0 + (c1 - c0) * (np.arange(n) + 0.5) / max(n, 1))
    return np.concatenate(parts) if parts else np.array([])


def grown(g, mu):
    ready = np.log(g["q0"]) + np.cumsum(mu) * STEP_H if g["lag"] else np.full(mu.shape, np.inf)
    rise = mu / (1.0 + np.exp(-ready))
    free = rise.sum() * STEP_H / np.log(10)
    if free < 6.0:
        return free
    # Near its ceiling the population feels itself: dy/dt = rise (1 - 10^(y - ceiling)), with time counted in `rise`.
    room = CEILING * np.log(10)
    end = rise.sum() * STEP_H
    solved = solve_ivp(lambda _, y: 1.0 - np.exp(y - room), (0.0, end), [0.0], method="LSODA", rtol=1e-8, atol=1e-10)
    return solved.y[0, -1] / np.log(10)


worst = {"reduction_log10": 0.0, "growth_log10": 0.0}
bad = 0
cases = json.load(sys.stdin)["cases"]
for case in cases:
    t = sampled(case["points"])
    hot = t[t >= CREDIT_C]
    for name, answer in case["answers"].items():
        pairs = [("growth_log10", answer["growth_log10"], grown(figures["growth"][name], rate(figures["growth"][name], t)))]
        if name in deaths:
            pairs.append(("reduction_log10", answer["reduction_log10"], (STEP_H * 60.0 / d_min(name, hot)).sum()))
        elif answer["reduction_log10"] is not None:
            bad += 1
            print(f"{name}: a reduction without a figure")
        for what, ours, theirs in pairs:
            # Beyond some twenty powers of ten the digits of a sum, not its tenths, are compared.
            off = abs(ours - theirs) / max(1.0, abs(theirs) / 20.0)
            worst[what] = max(worst[what], off)
            if not off < WITHIN:
                bad += 1
                print(f"{name} {what}: {ours} here, {theirs} by sum, {case['points']}")
print(f"{len(cases)} histories, worst: {worst}")
sys.exit(1 if bad or len(cases) < 1000 else 0)
