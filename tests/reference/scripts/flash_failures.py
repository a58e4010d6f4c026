"""Write ../flash_failures.csv: saturation states at which the flashes of CoolProp 8.0.0 fail or go astray, by teqp.

teqp 0.23.2 is walked along the line in steps of 2 K from a state at 0 °C that CoolProp does solve, each state the guess
of the next; nothing of ours but the pair parameters enters.

    python flash_failures.py
"""

import csv
import sys
from pathlib import Path

import CoolProp.CoolProp as CP
import numpy as np

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE.parents[1] / "properties"))

import compare  # noqa: E402
import models  # noqa: E402

# Components, percent by mass (ANSI/ASHRAE 34), line, and the temperatures in °C that are tried.
TRIED = {
    "R-410A": (("R-32", "R-125"), (50, 50), "bubble", np.arange(30.0, 69.55, 0.1)),
    "R-407C": (("R-32", "R-125", "R-134a"), (23, 25, 52), "bubble", np.arange(30.0, 84.05, 0.1)),
    "R-463A": (("R-744", "R-32", "R-125", "R-1234yf", "R-134a"), (6, 36, 30, 14, 14), "bubble", np.arange(30.0, 70.05, 0.1)),
}
STEP = 2.0  # K
AT_MOST = 24  # rows a refrigerant, spread over those found
SOURCE = "teqp 0.23.2 with CoolProp 8.0.0's pure-fluid files and the published pair parameters; scripts/flash_failures.py"


def walk(model, z, line, start, temperatures):
    """teqp's pressure at each temperature, Pa, walked up from 0 °C."""
    own, other = start
    pressures, t, wanted = {}, 273.15, sorted(temperatures)
    while wanted:
        t = min(t + STEP, wanted[0])
        p, own, other = compare.teqp_saturation(model, t, z, own, other)
        assert p > 0.0, (t, p)
        if t == wanted[0]:
            pressures[wanted.pop(0)] = p
    return pressures


def first_state(state, quality):
    state.update(CP.QT_INPUTS, quality, 273.15)
    liquid = np.array(state.mole_fractions_liquid()) * state.saturated_liquid_keyed_output(CP.iDmolar)
    vapour = np.array(state.mole_fractions_vapor()) * state.saturated_vapor_keyed_output(CP.iDmolar)
    return (vapour, liquid) if quality else (liquid, vapour)


def flash(state, quality, t):
    try:
        state.update(CP.QT_INPUTS, quality, t)
        return state.p()
    except ValueError:
        return None


def rows():
    for name, (components, mass, line, celsius) in TRIED.items():
        molar_masses = np.array([CP.PropsSI("M", models.reference_names()[each]) for each in components])
        moles = np.array(mass) / molar_masses
        z, quality = moles / moles.sum(), {"bubble": 0, "dew": 1}[line]
        state, _ = models.coolprop_state(components, z)
        temperatures = [round(float(c) + 273.15, 2) for c in celsius]
        truth = walk(models.teqp_model(components), z, line, first_state(state, quality), temperatures)
        found = []
        for t in temperatures:
            theirs = flash(state, quality, t)
            if theirs is None:
                found.append((t, "no answer"))
            elif abs(theirs / truth[t] - 1.0) > compare.WRONG:
                found.append((t, f"{theirs / truth[t] - 1.0:+.1%} without an error"))
        print(name, len(found), "of", len(temperatures), "fail, from", f"{found[0][0] - 273.15:.1f} °C" if found else "-")
        step = max(1, -(-len(found) // AT_MOST))
        kept = [each for k, each in enumerate(found) if k % step == 0 or "%" in each[1]]
        for t, what in kept:
            yield (f"{name}-{line}-{t - 273.15:.1f}", name, line, f"{t:.2f}", f"{truth[t]:.6f}", "1e-8", what, SOURCE,
                   "reference library")


def main():
    with (HERE.parent / "flash_failures.csv").open("w", newline="") as out:
        out.write("# Saturation states at which the flash of CoolProp 8.0.0 gives no answer or a wrong one (column `coolprop`).\n")
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(("case", "in_refrigerant", "in_line", "in_temperature_k", "exp_pressure_pa", "tol_rel", "coolprop",
                         "source", "mark"))
        writer.writerows(rows())


if __name__ == "__main__":
    main()
