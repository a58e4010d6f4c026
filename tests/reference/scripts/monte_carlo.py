"""Writes monte_carlo.csv: the examples of JCGM 101:2008 section 9.

Rows marked `memory` are the values printed there, as remembered. Rows marked `reference library` are computed here by
another way than drawing: convolution, a noncentral chi-square distribution, or moments; where there is no other way,
by 20 million draws of numpy.

    pip install numpy==2.4.6 scipy==1.17.1 && python monte_carlo.py > ../monte_carlo.csv
"""

import numpy as np
from scipy import optimize, stats

LIBRARY = "scipy 1.17.1"
rows = []


def add(case, what, value, tol, source, mark):
    rows.append(f"{case}_{what}_{mark.split()[0]},{case},{what},{value:.10g},{tol:.3g},,\"{source}\",{mark}")


def printed(case, clause, **values):
    for what, (value, tol) in values.items():
        add(case, what, value, tol, f"JCGM 101:2008, {clause}", "memory")


def computed(case, how, **values):
    for what, (value, tol) in values.items():
        add(case, what, value, tol, f"{LIBRARY}: {how}", "reference library")


# 9.2 additive models
printed("additive_normal", "9.2.2, table 2", mean=(0, 0.01), standard=(2.0, 0.05), low=(-3.9, 0.05), high=(3.9, 0.05))
computed("additive_normal", "normal quantile", high=(2 * stats.norm.ppf(0.975), 0.01))

source = "JCGM 101:2008, 9.2.3, table 3; as quoted in the test suite of the Python library phonometry"
for what, value, tol in [("standard", 2.0, 0.005), ("low", -3.88, 0.01), ("high", 3.88, 0.01)]:
    add("additive_rectangular", what, value, tol, source, "published")
# The sum of four uniform numbers (Irwin and Hall) has tail t**4 / 24 at t from its end.
computed("additive_rectangular", "Irwin-Hall distribution", high=(np.sqrt(3) * (4 - 2 * (24 * 0.025) ** 0.25), 0.005))


def wide(x):
    """Distribution of three standard rectangulars and one ten times as wide."""
    grid = np.linspace(-3 * np.sqrt(3), 3 * np.sqrt(3), 200_001)
    step = grid[1] - grid[0]
    box = lambda t: stats.uniform.cdf(t, -10 * np.sqrt(3), 20 * np.sqrt(3))
    u = grid / (2 * np.sqrt(3)) + 1.5
    density = sum((-1) ** k * c * np.maximum(u - k, 0) ** 2 for k, c in enumerate([1, 3, 3, 1])) / 2 / (2 * np.sqrt(3))
    return np.sum(density * box(x - grid)) * step


printed("additive_one_wide", "9.2.4, table 4", standard=(10.1, 0.05), low=(-17.0, 0.05), high=(17.0, 0.05))
computed(
    "additive_one_wide",
    "convolution",
    standard=(np.sqrt(103), 0.02),
    high=(optimize.brentq(lambda x: wide(x) - 0.975, 10, 20), 0.03),
)

# 9.3 mass calibration, mg
printed(
    "mass", "9.3, table 6", mean=(1.2341, 0.0003), standard=(0.0754, 0.0002), low=(1.0834, 0.002), high=(1.3825, 0.002)
)
one, square = (lambda a, b: np.log(b / a) / (b - a)), (lambda a, b: 1 / (a * b))
weight, reference = (7000.0, 9000.0), (7950.0, 8050.0)
buoyancy = square(*weight) + square(*reference) - 2 * one(*weight) * one(*reference)
variance = 0.05**2 + 0.02**2 + (100_001.234**2) * (0.2**2 / 12) * buoyancy
computed("mass", "moments", mean=(1.234, 0.0003), standard=(np.sqrt(variance), 0.0002))

# 9.4 comparison loss, in units of 1e-6
for x1, values in {0: (50, 50, 0, 150), 10: (150, 112, 0, 367), 50: (2551, 502, 1590, 3543)}.items():
    mean, standard, low, high = values
    source = "9.4, tables 8 to 10"
    printed(f"loss_{x1}", source, mean=(mean, 1.5), standard=(standard, 1.5), low=(low, 6), high=(high, 6))
    lam = (x1 / 5) ** 2
    loss = stats.ncx2(2, lam) if lam else stats.chi2(2)
    narrow = optimize.minimize_scalar(
        lambda p: loss.ppf(p + 0.95) - loss.ppf(p), bounds=(0, 0.0499), method="bounded", options={"xatol": 1e-9}
    ).x
    narrow = 0 if x1 < 50 and loss.ppf(0.95) < loss.ppf(narrow + 0.95) - loss.ppf(narrow) else narrow
    computed(
        f"loss_{x1}",
        "noncentral chi-square distribution, shortest interval",
        mean=(25 * loss.mean(), 1),
        standard=(25 * loss.std(), 1),
        # Where the shortest interval lies is far less certain than how wide it is.
        low=(25 * loss.ppf(narrow), 12),
        high=(25 * loss.ppf(narrow + 0.95), 12),
        width=(25 * (loss.ppf(narrow + 0.95) - loss.ppf(narrow)), 4),
    )
# The same with correlation r = 0.9: only the spread changes (9.4.3); variance 2(u1⁴ + u2⁴ + 2 r² u1² u2²) + 4 x1² u1².
for x1 in (0, 10, 50):
    standard = np.sqrt(2 * 5**4 * (2 + 2 * 0.81) + 4 * x1**2 * 25)
    computed(f"loss_{x1}_correlated", "moments", mean=(x1**2 + 50, 1), standard=(standard, 1))

# 9.5 gauge block, nm
printed("gauge_block", "9.5, table 12 (99 %)", mean=(838, 0.5), standard=(36, 0.5), low=(745, 1.0), high=(932, 1.0))
rng = np.random.default_rng(1)
n = 20_000_000
t = lambda mean, scale, nu: mean + scale * rng.standard_t(nu, n)
trapezoid = lambda half, d: half * 0 + (half + d * rng.uniform(-1, 1, n)) * rng.uniform(-1, 1, n)
length = t(50_000_623, 25, 18)
drawn = length + t(215, 6, 24) + t(0, 4, 5) + t(0, 7, 8) - 50_000_000
theta = rng.normal(-0.1, 0.2, n) + 0.5 * np.sin(2 * np.pi * rng.uniform(size=n))
alpha = rng.uniform(9.5e-6, 13.5e-6, n)
drawn -= length * (trapezoid(1e-6, 0.1e-6) * theta + alpha * trapezoid(0.05, 0.025))
low, high = np.quantile(drawn, [0.005, 0.995])
LIBRARY = "numpy 2.4.6"
computed(
    "gauge_block",
    "20 million draws",
    mean=(drawn.mean(), 0.2),
    standard=(drawn.std(), 0.2),
    low=(low, 1.0),
    high=(high, 1.0),
)

print("# The examples of JCGM 101:2008 section 9; written by scripts/monte_carlo.py.")
print("# in_example names the example, in_what the figure asked for; loss in units of 1e-6, mass in mg, lengths in nm.")
print("case,in_example,in_what,exp_value,tol_abs,tol_rel,source,mark")
print("\n".join(rows))
