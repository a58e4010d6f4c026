"""Random states of moist air by PsychroLib 2.5.0: the rows of psychrolib.csv, and a check of many more.

    python tests/reference/scripts/psychrolib_states.py > tests/reference/psychrolib.csv
    python tests/reference/scripts/psychrolib_states.py --check 10000

The check sends that many states through `cargo run -p kingvalve-tests --bin moist_air`, all properties of each, and
prints the worst difference of each property; it fails where one is beyond its tolerance. PsychroLib's two iterations
(wet bulb, dew point) are run to 1e-9 K instead of its 1e-3 K, so that the tolerances here speak of the library under test.

Where the wet bulb lies near freezing, ASHRAE's equations for a wet and for an iced bulb can both have a solution for the
same air. PsychroLib gives whichever its bisection meets, this library the wet one; those states are checked by putting
the wet bulb found back into PsychroLib's equation.
"""

import argparse
import random
import subprocess
import sys

sys.modules["numba"] = None  # plain Python, whatever is installed
import psychrolib as psy

SEED = 20_17
ROWS = 2000
# Property, column, absolute and relative tolerance: those of sums and logarithms in another order.
PROPERTIES = [
    ("wet_bulb", "exp_wet_bulb_degC", 1e-6, ""),
    ("dew_point", "exp_dew_point_degC", 1e-6, ""),
    ("relative_humidity", "exp_rh_fraction", "", 1e-9),
    ("enthalpy", "exp_enthalpy_J_per_kg_da", 1e-6, 1e-9),
    ("volume", "exp_volume_m3_per_kg_da", "", 1e-9),
    ("density", "exp_density_kg_per_m3", "", 1e-9),
]


def states(count):
    """Dry bulb in °C, humidity ratio and pressure in Pa: any weather and furnace outlet from sea to mountains."""
    source = random.Random(SEED)
    while count:
        t = round(source.uniform(-40.0, 60.0), 3)
        p = round(source.uniform(60_000.0, 108_000.0), 0)
        most = psy.GetSatHumRatio(t, p)
        w = float(f"{most * source.uniform(0.01, 0.999):.9g}")
        if w > psy.MIN_HUM_RATIO:
            count -= 1
            yield t, w, p


def properties(t, w, p):
    volume = psy.GetMoistAirVolume(t, w, p)
    return {
        "wet_bulb": psy.GetTWetBulbFromHumRatio(t, w, p),
        "dew_point": psy.GetTDewPointFromHumRatio(t, w, p),
        "relative_humidity": psy.GetRelHumFromHumRatio(t, w, p),
        "enthalpy": psy.GetMoistAirEnthalpy(t, w),
        "volume": volume,
        "density": psy.GetMoistAirDensity(t, w, p),
    }


def two_bulbs(t, w, p):
    """Whether a wet and an iced bulb both give this air: between what the two equations say at 0 °C."""
    if t < 0:
        return False
    saturated = psy.GetSatHumRatio(0.0, p)
    wet, iced = ((h * saturated - 1.006 * t) / (h + 1.86 * t) for h in (2501.0, 2830.0))
    return wet <= w <= iced


def table():
    print("# Random states of moist air by PsychroLib 2.5.0 (its iterations run to 1e-9 K), one property of each.")
    print(f"# Made by scripts/psychrolib_states.py, seed {SEED}; see there for states with both a wet and an iced bulb.")
    columns = [column for _, column, *_ in PROPERTIES]
    print(f"case,in_t_degC,in_w_kg_per_kg,in_p_Pa,{','.join(columns)},tol_abs,tol_rel,source,mark")
    left_out = 0
    for at, (t, w, p) in enumerate(states(ROWS)):
        name, column, absolute, relative = PROPERTIES[at % len(PROPERTIES)]
        if name == "wet_bulb" and two_bulbs(t, w, p):
            left_out += 1
            continue
        filled = [f"{properties(t, w, p)[name]:.12g}" if each == column else "" for each in columns]
        print(f"{name}_{at},{t},{w},{p:.0f},{','.join(filled)},{absolute},{relative},PsychroLib 2.5.0,reference library")
    print(f"# Left out: {left_out} wet bulbs of air that has both a wet and an iced one.")


def check(count):
    given = list(states(count))
    lines = "".join(f"{t} {w} {p}\n" for t, w, p in given)
    run = ["cargo", "run", "--quiet", "--release", "-p", "kingvalve-tests", "--bin", "moist_air"]
    answers = subprocess.run(run, input=lines, capture_output=True, text=True, check=True).stdout.splitlines()
    assert len(answers) == count, (len(answers), count)
    worst = dict.fromkeys((name for name, *_ in PROPERTIES), 0.0)
    failed, both = [], 0
    for (t, w, p), answer in zip(given, answers, strict=True):
        ours = [float(x) for x in answer.split()]
        theirs = properties(t, w, p)
        for (name, _, absolute, relative), value in zip(PROPERTIES, ours, strict=True):
            wanted = theirs[name]
            if name == "wet_bulb" and two_bulbs(t, w, p):
                both += 1
                value, wanted = psy.GetHumRatioFromTWetBulb(t, value, p), w
                assert abs(value - wanted) < 1e-9, (t, w, p, value)
                continue
            off = abs(value - wanted) / (1.0 if absolute else abs(wanted))
            worst[name] = max(worst[name], off)
            if off > max(absolute or 0.0, (relative or 0.0) * (abs(wanted) if absolute else 1.0)):
                failed.append((name, t, w, p, value, wanted))
    print(f"{count} states, of which {both} with both a wet and an iced bulb")
    for name, *_ in PROPERTIES:
        print(f"{name:<18} worst difference {worst[name]:.1e}")
    if failed:
        sys.exit(f"{len(failed)} beyond tolerance, the first: {failed[0]}")


if __name__ == "__main__":
    psy.SetUnitSystem(psy.SI)
    psy.PSYCHROLIB_TOLERANCE = 1e-9
    arguments = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    arguments.add_argument("--check", type=int, metavar="COUNT", help="compare the library on so many states")
    count = arguments.parse_args().check
    check(count) if count else table()
