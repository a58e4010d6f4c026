"""Our properties beside those of the reference libraries, refrigerant by refrigerant.

`compare.py GRID.jsonl [TABLE.csv]` reads what `property_grid` wrote, prints a line a refrigerant, and writes the
table that `docs/properties.md` is made from. `test_properties.py` holds a smaller grid to the limits.
"""

import csv
import importlib.metadata
import json
import math
import sys
from dataclasses import dataclass, field
from pathlib import Path

import CoolProp.CoolProp as CP
import models
import numpy as np

ALPHA_LIMIT = 1e-10
# Its terms of ±44 without density cancel to 2e-4 in a thin gas: the same numbers added in another order.
CANCELLING = {"R-21": 1e-9}
PRESSURE_LIMIT = 1e-6
# Beyond this a flash has not found another number for the same state but another state, or none.
WRONG = 1e-3
# Pa. CoolProp's flashes take the pressure of the liquid, which at less than this is what is left of terms a thousand
# million times as large; teqp is asked for the pressure of the vapour.
FAINT = 100.0
# Of the critical temperature: where two liquids are looked for.
COLD = 0.75

VERSIONS = {name: importlib.metadata.version(name) for name in ("CoolProp", "teqp")}

# Where a paper's own check table contradicts the references' coding of it we follow the paper: its gas constant moves
# every pressure of the pure fluid by the same 1e-6 or less. (The heat capacity of R-245fa too, which is not compared.)
GAS_CONSTANT_OF_THE_PAPER = {"R-717", "R-1234ze(E)"}


@dataclass
class Differences:
    """The worst relative differences from one library; None where nothing was compared."""

    alpha: float | None = None
    pressure: float | None = None
    saturation: float | None = None
    faint: float | None = None
    lowest_trial: float = math.inf
    solved: int = 0
    failed: list = field(default_factory=list)
    wrong: list = field(default_factory=list)

    def widen(self, name, value):
        seen = getattr(self, name)
        setattr(self, name, value if seen is None else max(seen, value))


def grid(path):
    with Path(path).open() as lines:
        return [json.loads(line) for line in lines]


def relative(ours, theirs):
    return abs(ours / theirs - 1.0) if math.isfinite(theirs) and theirs else math.inf


def alpha_difference(ours, theirs):
    """The largest over αʳ and its derivatives, each relative to itself or, where terms cancel, to a tenth of the largest of all."""
    largest = max(map(abs, theirs))
    return max(abs(a - b) / max(abs(b), 0.1 * largest) for a, b in zip(ours, theirs, strict=True))


def pressure_difference(ours, theirs, ideal):
    """Relative to the pressure or, in the compressed liquid where large terms cancel, to that of the ideal gas."""
    return abs(ours - theirs) / max(abs(theirs), ideal)


# ---------------------------------------------------------------- teqp


def from_teqp(r):
    """αʳ, p, and saturation solved on teqp's own derivatives, starting from our phases spoiled by one per cent."""
    model, z = models.teqp_model(tuple(r["components"])), np.array(r["mole_fractions"])
    found = Differences()
    for at in r["states"]:
        t, rho = at["temperature"], at["density"]
        theirs = [model.get_Ar00(t, rho, z), model.get_Ar01(t, rho, z), model.get_Ar02(t, rho, z),
                  model.get_Ar10(t, rho, z), model.get_Ar11(t, rho, z), model.get_Ar20(t, rho, z)]
        found.widen("alpha", alpha_difference(at["alpha"], theirs))
        ideal = rho * model.get_R(z) * t
        found.widen("pressure", pressure_difference(at["pressure"], ideal * (1.0 + theirs[1]), ideal))
    for line in ("bubble", "dew"):
        for at in r[line]:
            own, other = own_and_other(at, line)
            p, *_ = teqp_saturation(model, at["temperature"], z, own, other * 1.01)
            found.widen("saturation", relative(at["pressure"], p))
            found.solved += 1
            if len(z) > 1 and at["temperature"] < COLD * r["critical_temperature"]:
                lowest = lowest_trial_liquid(model, at["temperature"], z, own, at["pressure"])
                found.lowest_trial = min(found.lowest_trial, lowest)
    return found


def own_and_other(at, line):
    phases = [np.array(at[k]["mole_fractions"]) * at[k]["density"] for k in ("liquid", "vapour")]
    return phases if line == "bubble" else phases[::-1]


def teqp_saturation(model, t, z, own, other):
    """Newton's method in ln(concentration): equal fugacities and pressures, one phase having the composition z.

    The pressure, and the concentrations of both phases; no numbers where there is no equilibrium of two.
    """
    rt = model.get_R(z) * t
    unknowns = np.log(np.append(other, own.sum()))
    for _ in range(60):
        other, own = np.exp(unknowns[:-1]), np.exp(unknowns[-1]) * z
        f_own, p_own, df_own, dp_own = phase(model, t, rt, own)
        f_other, p_other, df_other, dp_other = phase(model, t, rt, other)
        vapour = min((own.sum(), p_own), (other.sum(), p_other))[1]
        scale = abs(vapour)  # Pa
        residual = np.append(f_other - f_own, (p_other - p_own) / scale)
        matrix = np.block([
            [df_other * other, -(df_own @ own)[:, None]],
            [dp_other * other / scale, -(dp_own @ own) / scale],
        ])
        step = np.linalg.solve(matrix, residual)
        unknowns -= step * (0.5 / max(0.5, np.abs(step).max()))
        if np.abs(step).max() < 1e-9:  # the next would be its square, or rounding
            break
    else:
        return math.nan, own, other
    return (math.nan if np.allclose(own, other, rtol=1e-3) else vapour), own, other


def phase(model, t, rt, rho):
    """ln fugacity of each component, pressure, and their derivatives by each concentration."""
    slope = model.build_Psir_gradient_autodiff(t, rho)
    curvature = model.build_Psir_Hessian_autodiff(t, rho)
    total = rho.sum()
    pressure = total * rt * (1.0 + model.get_Ar01(t, total, rho / total))
    return np.log(rho * rt) + slope / rt, pressure, np.diag(1.0 / rho) + curvature / rt, rt + rho @ curvature


def lowest_trial_liquid(model, t, z, own, p):
    """How far the lowest trial liquid lies above the tangent plane of the two phases, as a share of RT.

    Below zero another liquid would have formed: the two are not stable. Michelsen's criterion, each trial started as
    nearly one component.
    """
    potential = np.log(own) + model.build_Psir_gradient_autodiff(t, own) / (model.get_R(z) * t)
    return min(followed(model, t, p, potential, mostly(k, z)) for k in range(len(z)))


def mostly(k, z):
    x = 0.05 * z / (1.0 - z[k])
    x[k] = 0.95
    return x


def followed(model, t, p, potential, x):
    rt, above = model.get_R(x) * t, math.inf
    for _ in range(100):
        rho = liquid_density(model, t, p, x)
        if rho is None:
            break
        wanted = np.exp(potential - model.build_Psir_gradient_autodiff(t, x * rho) / rt)
        above = -math.log(wanted.sum() / rho)
        settled = np.abs(wanted / wanted.sum() - x).max() < 1e-6
        x = wanted / wanted.sum()
        if settled:
            break
    return above


def liquid_density(model, t, p, x):
    """Newton in ln ρ, down from somewhat more than Rackett's density; None where there is no such liquid."""
    reduced, rt = min(t / model.get_Tr(x), 0.98), model.get_R(x) * t
    rho = 1.05 * model.get_rhor(x) * (1.0 / 0.27) ** ((1.0 - reduced) ** (2.0 / 7.0))
    for _ in range(60):
        first, second = model.get_Ar01(t, rho, x), model.get_Ar02(t, rho, x)
        slope = rho * (1.0 + 2.0 * first + second)
        step = (p / rt - rho * (1.0 + first)) / slope if slope > 0.0 else 0.05
        rho *= math.exp(min(max(step, -0.2), 0.2))
        if abs(step) < 1e-9 and slope > 0.0:
            return rho
    return None


# ---------------------------------------------------------------- CoolProp


def from_coolprop(r):
    """αʳ, p and CoolProp's own flashes; None where it lacks a component."""
    if not models.in_coolprop(r["components"]):
        return None
    state, _ = models.coolprop_state(r["components"], r["mole_fractions"])
    found = Differences()
    state.specify_phase(CP.iphase_gas)  # any: αʳ is asked for, stable or not
    for at in r["states"]:
        state.update(CP.DmolarT_INPUTS, at["density"], at["temperature"])
        tau, delta = state.tau(), state.delta()
        theirs = [
            state.alphar(), delta * state.dalphar_dDelta(), delta**2 * state.d2alphar_dDelta2(),
            tau * state.dalphar_dTau(), tau * delta * state.d2alphar_dDelta_dTau(), tau**2 * state.d2alphar_dTau2(),
        ]
        found.widen("alpha", alpha_difference(at["alpha"], theirs))
        ideal = at["density"] * state.gas_constant() * at["temperature"]
        found.widen("pressure", pressure_difference(at["pressure"], ideal * (1.0 + theirs[1]), ideal))
    state.unspecify_phase()
    for line, quality in (("bubble", 0), ("dew", 1)):
        for at in r[line]:
            t = at["temperature"]
            try:
                state.update(CP.QT_INPUTS, quality, t)
            except ValueError:
                found.failed.append((line, t))
                continue
            difference = relative(at["pressure"], state.p())
            if difference > WRONG:
                found.wrong.append((line, t, state.p() / at["pressure"] - 1.0))
                continue
            found.widen("saturation" if at["pressure"] >= FAINT else "faint", difference)
            found.solved += 1
    return found


# ---------------------------------------------------------------- the table

COLUMNS = ("designation", "library", "version", "states", "saturation_states", "worst_alpha", "worst_pressure",
           "worst_saturation", "flash_failed", "flash_wrong")


def row(designation, library, states, found):
    text = lambda value: "" if value is None else f"{value:.1e}"
    return (designation, library, VERSIONS[library], states, found.solved, text(found.alpha), text(found.pressure),
            text(found.saturation), len(found.failed), len(found.wrong))


def rows(refrigerants, say=lambda line: None):
    for r in refrigerants:
        for library, found in (("CoolProp", from_coolprop(r)), ("teqp", from_teqp(r))):
            if found is not None:
                yield row(r["designation"], library, len(r["states"]), found)
                say(f"{r['designation']:<14} {library:<9} {found}")


def main(arguments):
    source, *target = arguments
    refrigerants = grid(source)
    table = list(rows(refrigerants, print))
    for path in target:
        with Path(path).open("w", newline="") as out:
            out.write("# The worst relative differences of kingvalve from other libraries on the random grid of `property_grid`;\n")
            out.write("# written by tests/properties/compare.py, which says what is compared.\n")
            csv.writer(out, lineterminator="\n").writerows([COLUMNS, *table])


if __name__ == "__main__":
    main(sys.argv[1:])
