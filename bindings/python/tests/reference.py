"""The reference libraries behind one small face: saturation and density of pure fluids and of blends.

CoolProp 8.0.0 solves its own flashes; its mixture flashes fail at some states. teqp 0.23.2 is only asked to polish a
guess, which is walked along in temperature from the first state CoolProp solves, so it answers where CoolProp fails.

teqp 0.23.2 ships an older equation for R-1234yf (Richter 2011) and older pair parameters with it (Akasaka 2013), and
turns the ξ and ζ of Lemmon and Jacobsen (2004) into half of γ_T and four times γ_V. So it is given CoolProp's equation
for R-1234yf, the pair parameters from our data files, and one gas constant for every mixture: the same published
models, evaluated and solved by other hands. CoolProp brings its own parameters.
"""

import functools
import json
from pathlib import Path

import CoolProp.CoolProp as CP
import numpy as np
import teqp

# Ours, components as the reference libraries call them, mass fractions (ANSI/ASHRAE 34), how far up to compare.
# The top is 0.965 of the critical temperature: CoolProp's for a pure fluid; for a blend as marked.
FLUIDS = {
    "R-22": (("R22",), (1.0,), None),
    "R-32": (("R32",), (1.0,), None),
    "R-125": (("R125",), (1.0,), None),
    "R-134a": (("R134a",), (1.0,), None),
    "R-1234yf": (("R1234yf",), (1.0,), None),
    "R-290": (("n-Propane",), (1.0,), None),
    "R-410A": (("R32", "R125"), (0.5, 0.5), 344.5),  # critical temperature, K: rounded, from memory
    "R-407C": (("R32", "R125", "R134a"), (0.23, 0.25, 0.52), 359.2),  # as above
    "R-454B": (("R32", "R1234yf"), (0.689, 0.311), 350.0),  # as above
}

PAIRS = Path(__file__).parents[3] / "crates/kingvalve-fluid/data/pair"
CODATA = 8.31446261815324  # J/(mol K), 2019 SI, exact: what CoolProp and kingvalve use for every mixture


class Reference:
    """One fluid, in both libraries. Temperatures in K, pressures in Pa, densities in kg/m³."""

    def __init__(self, name):
        self.names, mass, critical = FLUIDS[name]
        self.coolprop = CP.AbstractState("HEOS", "&".join(self.names))
        molar_masses = np.array([CP.PropsSI("M", each) for each in self.names])
        moles = np.array(mass) / molar_masses
        self.x = moles / moles.sum()
        self.molar_mass = float(self.x @ molar_masses)
        if len(self.names) > 1:
            self.coolprop.set_mole_fractions(list(self.x))
        self.critical = critical or self.coolprop.T_critical()
        self.teqp = teqp_model(self.names)

    def temperatures(self, count=24):
        return np.linspace(220.0, 0.965 * self.critical, count)

    def coolprop_saturation(self, t, quality):
        """Pressure and density of the saturated phase (quality 0 or 1); raises ValueError where the flash fails."""
        self.coolprop.update(CP.QT_INPUTS, quality, t)
        return self.coolprop.p(), self.coolprop.rhomass()

    def coolprop_density(self, t, p):
        self.coolprop.update(CP.PT_INPUTS, p, t)
        return self.coolprop.rhomass()

    def guess(self, t, quality):
        """Molar concentrations of the phase of the fluid's own composition, and of the one in equilibrium with it."""
        self.coolprop.update(CP.QT_INPUTS, quality, t)
        liquid = np.array(self.coolprop.mole_fractions_liquid()) * self.coolprop.saturated_liquid_keyed_output(CP.iDmolar)
        vapor = np.array(self.coolprop.mole_fractions_vapor()) * self.coolprop.saturated_vapor_keyed_output(CP.iDmolar)
        return (vapor, liquid) if quality else (liquid, vapor)

    def teqp_saturation(self, temperatures, quality):
        """Pressure and density of the saturated phase at rising temperatures; teqp alone after the first guess."""
        solved = []
        for t in temperatures:
            guess = walk_on(solved[-2:], t) if solved else self.guess(t, quality)
            own, other = self.equilibrium(t, *guess)
            solved.append((t, own, other))
        return [(self.vapor_pressure(t, own, other), own.sum() * self.molar_mass) for t, own, other in solved]

    def vapor_pressure(self, t, *phases):
        """The pressure both phases have; the liquid's would be computed with fewer digits."""
        vapor = min(phases, key=np.sum)
        return self.teqp_pressure(t, vapor.sum(), vapor / vapor.sum())

    def equilibrium(self, t, own, other):
        """Newton's method on teqp's chemical potentials and pressures, exact derivatives; ln of concentrations."""
        unknowns = np.log(np.append(other, own.sum()))
        for _ in range(60):
            other, own = np.exp(unknowns[:-1]), np.exp(unknowns[-1]) * self.x
            potential, pressure, d_potential, d_pressure = self.phase(t, own)
            potential_other, pressure_other, d_potential_other, d_pressure_other = self.phase(t, other)
            scale = min(pressure, pressure_other) if min(pressure, pressure_other) > 0.0 else pressure_other
            residual = np.append(potential_other - potential, (pressure_other - pressure) / scale)
            matrix = np.block([
                [d_potential_other * other, -(d_potential @ own)[:, None]],
                [d_pressure_other * other / scale, -(d_pressure @ own) / scale],
            ])
            step = np.linalg.solve(matrix, residual)
            unknowns -= step * min(1.0, 0.5 / np.abs(step).max())
            if np.abs(step).max() < 1e-13:
                break
        assert np.abs(residual).max() < 1e-7, f"no equilibrium at {t} K: {residual}"
        assert not np.allclose(own, other, rtol=1e-3), f"one phase only at {t} K"
        return own, other

    def phase(self, t, rho):
        """ln fugacity of each component and pressure, and their derivatives by each concentration."""
        rt = self.teqp.get_R(self.x) * t
        slope = self.teqp.build_Psir_gradient_autodiff(t, rho)
        curvature = self.teqp.build_Psir_Hessian_autodiff(t, rho)
        potential = np.log(rho * rt) + slope / rt
        pressure = self.teqp_pressure(t, rho.sum(), rho / rho.sum())
        return potential, pressure, np.diag(1.0 / rho) + curvature / rt, rt + rho @ curvature

    def teqp_pressure(self, t, rho, x=None):
        x = self.x if x is None else x
        return rho * self.teqp.get_R(x) * t * (1.0 + self.teqp.get_Ar01(t, rho, x))

    def teqp_density(self, t, p, guess):
        """Density where teqp's pressure is `p`, by Newton from a guess."""
        rho = guess / self.molar_mass
        for _ in range(50):
            first, second = self.teqp.get_Ar01(t, rho, self.x), self.teqp.get_Ar02(t, rho, self.x)
            rt = self.teqp.get_R(self.x) * t
            step = (rho * rt * (1.0 + first) - p) / (rt * (1.0 + 2.0 * first + second))
            rho -= step
            if abs(step) < 1e-13 * rho:
                break
        return rho * self.molar_mass


def walk_on(solved, t):
    """The concentrations at `t`: straight on in ln ρ from the two states before, or those of the one before."""
    if len(solved) == 1:
        return solved[0][1:]
    (t0, *before), (t1, *now) = solved
    along = (t - t1) / (t1 - t0)
    return tuple(b * (b / a) ** along for a, b in zip(before, now, strict=True))


def teqp_model(names):
    """teqp's own fluid files where they hold the equation CoolProp 8.0.0 has, CoolProp's where that is newer."""
    if len(names) == 1 and names[0] != "R1234yf":
        return teqp.build_multifluid_model(list(names), teqp.get_datapath())
    fluids = [json.loads(CP.get_fluid_param_string(each, "JSON"))[0] for each in names]
    if len(names) > 1:
        for fluid in fluids:
            fluid["EOS"][0]["gas_constant"] = CODATA
    pairs, departures = pair_parameters(fluids)
    return teqp.build_multifluid_model(
        [json.dumps(each) for each in fluids], teqp.get_datapath(), json.dumps(pairs), {}, json.dumps(departures)
    )


def pair_parameters(fluids):
    """Our pair files, in teqp's form, for the components given."""
    by_name = {"R-" + fluid["INFO"]["NAME"].removeprefix("R"): fluid["INFO"] for fluid in fluids}
    files = [json.loads(path.read_text()) for path in sorted(PAIRS.glob("*.json"))]
    wanted, used = [], set()
    for pair in (each for file in files for each in file["pairs"] if set(each["components"]) <= set(by_name)):
        first, second = (by_name[each] for each in pair["components"])
        wanted.append({
            "Name1": first["NAME"], "CAS1": first["CAS"], "Name2": second["NAME"], "CAS2": second["CAS"],
            "betaT": pair["beta_temperature"], "gammaT": pair["gamma_temperature"],
            "betaV": pair["beta_volume"], "gammaV": pair["gamma_volume"],
            "F": pair["factor"], "function": pair["departure"] or "", "BibTeX": "",
        })
        used.add(pair["departure"])
    departures = [each for file in files for each in file.get("departures", []) if each["name"] in used]
    return wanted, [in_teqp_form(each) for each in departures]


def in_teqp_form(departure):
    (term,) = departure["terms"]
    assert term["kind"] == "power", departure
    columns = dict(zip(term["columns"], (list(column) for column in zip(*term["rows"], strict=True)), strict=True))
    return {"Name": departure["name"], "type": "Exponential", "aliases": [], "BibTeX": "", **columns}


@functools.cache
def reference(name):
    return Reference(name)
