"""Write ../withdrawal.csv: what is left in a cylinder as vapour is drawn off, integrated on teqp's equilibria.

The cylinder's volume and temperature are fixed. In each of many small steps its content is split into liquid and vapour
by Newton's method on teqp's fugacities and pressures (both phases' concentrations and the share of the volume the
vapour fills), and vapour of that composition leaves; a midpoint step of Runge and Kutta. Nothing of ours but the pair
parameters enters. Half as many steps change no row by more than a hundredth of the tolerance.

    python withdrawal.py
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

# Components, percent by mass (ANSI/ASHRAE 34).
BLENDS = {
    "R-410A": (("R-32", "R-125"), (50, 50)),
    "R-454B": (("R-32", "R-1234yf"), (68.9, 31.1)),
    "R-407C": (("R-32", "R-125", "R-134a"), (23, 25, 52)),
    "R-448A": (("R-32", "R-125", "R-1234yf", "R-134a", "R-1234ze(E)"), (26, 26, 20, 21, 7)),
    "R-455A": (("R-744", "R-32", "R-1234yf"), (3, 21.5, 75.5)),
}
TEMPERATURES = (268.15, 298.15)  # K
VAPOUR_SPACE = 0.2  # of the cylinder at the start
DRAWN = (0.1, 0.3, 0.5, 0.8)  # of the mass
STEPS = 400  # for all of them
SOURCE = "teqp 0.23.2 with CoolProp 8.0.0's pure-fluid files and the published pair parameters; scripts/withdrawal.py"


def split(model, t, content, guess):
    """Concentrations of liquid and vapour and the vapour's share of the volume, their mean being `content`."""
    n, (liquid, vapour, share) = len(content), guess
    rt = model.get_R(content / content.sum()) * t
    for _ in range(50):
        f_l, p_l, df_l, dp_l = compare.phase(model, t, rt, liquid)
        f_v, p_v, df_v, dp_v = compare.phase(model, t, rt, vapour)
        residual = np.concatenate([f_v - f_l, [(p_v - p_l) / p_v], (1 - share) * liquid + share * vapour - content])
        matrix = np.zeros((2 * n + 1, 2 * n + 1))  # in ln liquid, ln vapour, share
        matrix[:n, :n], matrix[:n, n:-1] = -df_l * liquid, df_v * vapour
        matrix[n, :n], matrix[n, n:-1] = -dp_l * liquid / p_v, dp_v * vapour / p_v
        matrix[n + 1:, :n], matrix[n + 1:, n:-1] = np.diag((1 - share) * liquid), np.diag(share * vapour)
        matrix[n + 1:, -1] = vapour - liquid
        step = np.linalg.solve(matrix, residual)
        step *= 0.3 / max(0.3, np.abs(step).max())
        liquid, vapour, share = liquid * np.exp(-step[:n]), vapour * np.exp(-step[n:-1]), share - step[-1]
        if np.abs(step).max() < 1e-10:
            return liquid, vapour, share
    raise ArithmeticError(f"no split at {t} K")


def drawn(model, t, content, start, molar_masses, steps):
    """Mass fractions left after each share of DRAWN; `steps` steps of equal mass."""
    total, phases, left = content @ molar_masses, start, {}
    loss = total * max(DRAWN) / steps

    def vapour_of(mass):
        return phases[1] * (mass / (phases[1] @ molar_masses))

    for k in range(1, steps + 1):
        phases = split(model, t, content, phases)
        phases = split(model, t, content - vapour_of(0.5 * loss), phases)
        content = content - vapour_of(loss)
        gone = k * max(DRAWN) / steps
        for share in DRAWN:
            if abs(gone - share) < 1e-9:
                left[share] = content * molar_masses / (content @ molar_masses)
    return left


def rows():
    for name, (components, mass) in BLENDS.items():
        molar_masses = np.array([CP.PropsSI("M", models.reference_names()[each]) for each in components])
        z = np.array(mass) / molar_masses
        z /= z.sum()
        model = models.teqp_model(components)
        state, _ = models.coolprop_state(components, z)
        for t in TEMPERATURES:
            state.update(CP.QT_INPUTS, 0, t)
            vapour = np.array(state.mole_fractions_vapor()) * state.saturated_vapor_keyed_output(CP.iDmolar)
            liquid = z * state.rhomolar()
            content = z * ((1 - VAPOUR_SPACE) * state.rhomolar() + VAPOUR_SPACE * vapour.sum())
            start = split(model, t, content, (liquid, vapour, VAPOUR_SPACE))
            fine = drawn(model, t, content, start, molar_masses, STEPS)
            coarse = drawn(model, t, content, start, molar_masses, STEPS // 2)
            worst = max(np.abs(fine[share] - coarse[share]).max() for share in DRAWN)
            print(name, t, f"half as many steps: {worst:.1e}")
            assert worst < 1e-5
            for share in DRAWN:
                for component, left in zip(components, fine[share], strict=True):
                    yield (f"{name}-{t:.0f}K-{share:.0%}-{component}".replace("%", "pct"), name, t,
                           f"{content @ molar_masses:.6f}", share, component, f"{left:.7f}", "1e-3", SOURCE,
                           "reference library")


def main():
    with (HERE.parent / "withdrawal.csv").open("w", newline="") as out:
        out.write("# Mass fraction of a component left in a closed cylinder after a share of its mass was drawn as vapour.\n")
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(("case", "in_refrigerant", "in_temperature_k", "in_density_kg_m3", "in_mass_share_drawn",
                         "in_component", "exp_mass_fraction_left", "tol_abs", "source", "mark"))
        writer.writerows(rows())


if __name__ == "__main__":
    main()
