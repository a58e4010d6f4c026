"""Compare the written files with CoolProp and teqp, by an evaluator that shares nothing with the writer.

Called by `from_reference.py --check`. The evaluator reads only the JSON files and works in 40 digits;
derivatives are mpmath's numerical ones, so that no formula for a derivative is shared with anybody.
"""

import json
import random
from pathlib import Path

import CoolProp.CoolProp as CP
import numpy as np
import teqp
from mpmath import diff, exp, log, mp, mpf

from from_reference import CORRECTED_EINSTEIN_TEMPERATURES

HERE = Path(__file__).parent
mp.dps = 40


def power(r, tau, delta):
    return r["n"] * tau ** r["t"] * delta ** r["d"]


RESIDUAL = {
    "power": lambda r, t, d: power(r, t, d) * (exp(-(d ** r["l"])) if r["l"] else 1),
    "exponential": lambda r, t, d: power(r, t, d) * exp(-r["g"] * d ** r["l"]),
    "lemmon2005": lambda r, t, d: power(r, t, d)
    * (exp(-(d ** r["l"])) if r["l"] else 1)
    * (exp(-(t ** r["m"])) if r["m"] else 1),
    "gaussian": lambda r, t, d: power(r, t, d)
    * exp(-r["eta"] * (d - r["epsilon"]) ** 2 - r["beta"] * (t - r["gamma"]) ** 2),
    "gao": lambda r, t, d: power(r, t, d)
    * exp(r["eta"] * (d - r["epsilon"]) ** 2 + 1 / (r["beta"] * (t - r["gamma"]) ** 2 + r["b"])),
    "gerg": lambda r, t, d: power(r, t, d)
    * exp(-r["eta"] * (d - r["epsilon"]) ** 2 - r["beta"] * (d - r["gamma"])),
    "non_analytic": lambda r, t, d: non_analytic(r, t, d),
}


def non_analytic(r, tau, delta):
    s = (delta - 1) ** 2
    theta = (1 - tau) + r["A"] * s ** (1 / (2 * r["beta"]))
    distance = theta**2 + r["B"] * s ** r["a"]
    return r["n"] * distance ** r["b"] * delta * exp(-r["C"] * s - r["D"] * (tau - 1) ** 2)


def rows(term):
    for row in term["rows"]:
        yield dict(zip(term["columns"], map(mpf, row), strict=True))


def residual(terms, tau, delta):
    return sum((RESIDUAL[t["kind"]](r, tau, delta) for t in terms for r in rows(t)), mpf(0))


def ideal(terms, tau, delta):
    total = log(delta)
    for t in terms:
        match t["kind"]:
            case "lead":
                total += t["a1"] + t["a2"] * tau
            case "log_tau":
                total += t["a"] * log(tau)
            case "tau_log_tau":
                total += t["a"] * tau * log(tau)
            case "power":
                total += sum(r["n"] * tau ** r["t"] for r in rows(t))
            case "planck_einstein":
                total += sum(r["n"] * log(1 - exp(-r["theta"] * tau)) for r in rows(t))
            case other:
                raise SystemExit(f"unknown ideal kind {other}")
    return total


def load(folder):
    return [json.loads(p.read_text(encoding="utf-8")) for p in sorted((HERE / folder).glob("*.json"))]


class Worst(dict):
    def note(self, what, mine, theirs, scale, limit, where):
        error = abs(mine - theirs) / max(abs(theirs), scale)
        if error > self.get(what, (0, ""))[0]:
            self[what] = (float(error), where)
        if error > limit:
            raise SystemExit(f"{where}: {what} is {mine} here and {theirs} there")


def check_pure(fluid, state, worst, rng):
    tr, dr = mpf(fluid["reducing"]["temperature"]), mpf(fluid["reducing"]["density"])
    low, high = fluid["valid"]["temperature"]
    for _ in range(6):
        t, d = rng.uniform(low, high), rng.uniform(0.01, 2.9) * float(dr)
        state.update(CP.DmolarT_INPUTS, d, t)
        tau, delta = tr / mpf(t), mpf(d) / dr
        where = f"{fluid['name']} at {t} K, {d} mol/m³"
        a = lambda x, y: residual(fluid["residual"], x, y)  # noqa: E731
        a0 = lambda x: ideal(fluid["ideal"], x, delta)  # noqa: E731
        # terms of one sum cancel: the scale is that of the largest sum met, 1e-12 of it is double precision
        if fluid["name"] not in CORRECTED_EINSTEIN_TEMPERATURES:
            worst.note("α⁰ second τ", -(tau**2) * diff(a0, tau, 2), -float(tau) ** 2 * state.d2alpha0_dTau2(), 1, 1e-12, where)
        worst.note("αʳ", a(tau, delta), state.alphar(), 1, 1e-12, where)
        worst.note("αʳ δ", delta * diff(a, (tau, delta), (0, 1)), float(delta) * state.dalphar_dDelta(), 1, 1e-12, where)
        worst.note("αʳ τ", tau * diff(a, (tau, delta), (1, 0)), float(tau) * state.dalphar_dTau(), 1, 1e-12, where)
        worst.note("αʳ δδ", delta**2 * diff(a, (tau, delta), (0, 2)), float(delta) ** 2 * state.d2alphar_dDelta2(), 1, 1e-11, where)
        worst.note("αʳ ττ", tau**2 * diff(a, (tau, delta), (2, 0)), float(tau) ** 2 * state.d2alphar_dTau2(), 1, 1e-11, where)
        worst.note("αʳ δτ", tau * delta * diff(a, (tau, delta), (1, 1)), float(tau * delta) * state.d2alphar_dDelta_dTau(), 1, 1e-11, where)


def check_reducing_form(pair, fluids, cas, worst):
    """The stored β, γ against what CoolProp says of the pair (ξ, ζ where it keeps those)."""
    one, two = pair["components"]
    swapped = cas[one] > cas[two]
    first, second = (two, one) if swapped else (one, two)
    get = lambda what: float(CP.get_mixture_binary_pair_data(cas[first], cas[second], what))  # noqa: E731
    where = f"{one}/{two}"
    t = [mpf(fluids[n]["reducing"]["temperature"]) for n in (one, two)]
    v = [1 / mpf(fluids[n]["reducing"]["density"]) for n in (one, two)]
    if pair["basis"] == "fitted" and CP.get_mixture_binary_pair_data(cas[first], cas[second], "BibTeX") == "Lemmon-JPCRD-2004":
        middle_t = 2 * mpf(pair["gamma_temperature"]) * (t[0] * t[1]) ** mpf("0.5") - t[0] - t[1]
        third = mpf(1) / 3
        middle_v = mpf(pair["gamma_volume"]) * (v[0] ** third + v[1] ** third) ** 3 / 4 - v[0] - v[1]
        worst.note("ξ", middle_t, get("xi"), 1, 1e-11, where)
        worst.note("ζ", middle_v, get("zeta"), 1e-6, 1e-8, where)
        return
    for mine, theirs, inverted in [
        ("beta_temperature", "betaT", True),
        ("gamma_temperature", "gammaT", False),
        ("beta_volume", "betaV", True),
        ("gamma_volume", "gammaV", False),
    ]:
        worst.note(theirs, 1 / pair[mine] if swapped and inverted else pair[mine], get(theirs), 1, 1e-12, where)
    worst.note("F", pair["factor"], get("F") if pair["departure"] else 0, 1, 1e-12, where)


def mixture_residual(pair, one, two, departures, t, rho, x):
    """αʳ of a binary from the files alone: reducing functions, pure parts, departure function."""
    tr, vr, third = mpf(0), mpf(0), mpf(1) / 3
    tc = [mpf(f["reducing"]["temperature"]) for f in (one, two)]
    vc = [1 / mpf(f["reducing"]["density"]) for f in (one, two)]
    for i in (0, 1):
        tr += x[i] ** 2 * tc[i]
        vr += x[i] ** 2 * vc[i]
    for what in ("temperature", "volume"):
        beta, gamma = mpf(pair[f"beta_{what}"]), mpf(pair[f"gamma_{what}"])
        shape = 2 * x[0] * x[1] * beta * gamma * (x[0] + x[1]) / (beta**2 * x[0] + x[1])
        if what == "temperature":
            tr += shape * (tc[0] * tc[1]) ** mpf("0.5")
        else:
            vr += shape * (vc[0] ** third + vc[1] ** third) ** 3 / 8
    tau, delta = tr / t, rho * vr
    total = sum(x[i] * residual(f["residual"], tau, delta) for i, f in enumerate((one, two)))
    if pair["departure"]:
        total += x[0] * x[1] * pair["factor"] * residual(departures[pair["departure"]], tau, delta)
    return total


def binary_states(rng, count):
    for _ in range(count):
        yield mpf(rng.uniform(0.05, 0.95)), mpf(rng.uniform(230, 400)), mpf(rng.uniform(10, 15000))


def check_against_coolprop(pairs, fluids, names, departures, worst, rng):
    """Every binary, with CoolProp's own reading of its parameters."""
    for pair in pairs:
        one, two = pair["components"]
        state = CP.AbstractState("HEOS", f"{names[one]}&{names[two]}")
        for x, t, rho in binary_states(rng, 2):
            state.set_mole_fractions([float(x), float(1 - x)])
            state.specify_phase(CP.iphase_gas)
            state.update(CP.DmolarT_INPUTS, float(rho), float(t))
            mine = mixture_residual(pair, fluids[one], fluids[two], departures, t, rho, [x, 1 - x])
            worst.note("αʳ of a binary, CoolProp", mine, state.alphar(), 1, 1e-11, f"{one}/{two} at {t} K, {rho} mol/m³, {x}")
    print(f"{len(pairs)} binaries compared with CoolProp")


def check_against_teqp(pairs, fluids, names, cas, departures, worst, rng):
    """Binaries built in teqp from CoolProp's own parameter sets.

    teqp reads ξ and ζ in other units than CoolProp keeps them, so pairs given that way are handed to it as β and γ
    (CoolProp's reading of them is checked above).
    """
    import from_reference as reference

    theirs, functions = reference.reference_pairs(), reference.reference_departures()
    by_cas = {(p["CAS1"], p["CAS2"]): p for p in theirs}
    sample = [p for p in pairs if p["departure"]] + rng.sample([p for p in pairs if not p["departure"]], 15)
    for pair in sample:
        one, two = pair["components"]
        entry = dict(by_cas.get((cas[one], cas[two])) or by_cas[(cas[two], cas[one])])
        if entry.pop("xi", None) is not None:
            entry.pop("zeta")
            entry |= {"betaT": 1.0, "betaV": 1.0}
            entry |= {"gammaT": float(pair["gamma_temperature"]), "gammaV": float(pair["gamma_volume"])}
        model = teqp.build_multifluid_model(
            [json.dumps(reference.reference_fluid(names[n])) for n in (one, two)],
            "",
            json.dumps([entry]),
            {},
            json.dumps([f for f in functions if f["Name"] == entry.get("function")]),
        )
        for x, t, rho in binary_states(rng, 3):
            mine = mixture_residual(pair, fluids[one], fluids[two], departures, t, rho, [x, 1 - x])
            other = model.get_Ar00(float(t), float(rho), np.array([float(x), float(1 - x)]))
            worst.note("αʳ of a binary, teqp", mine, other, 1, 1e-11, f"{one}/{two} at {t} K, {rho} mol/m³, {x}")
    print(f"{len(sample)} binaries compared with teqp {teqp.__version__}")


def main():
    rng, worst = random.Random(1), Worst()
    names = {}
    for line in (HERE / "fluid_names.csv").read_text(encoding="utf-8").splitlines()[1:]:
        names[line.split(",")[0]] = line.rsplit(",", 1)[1]
    fluids = {f["name"]: f for f in load("pure")}
    if set(fluids) != set(names):
        raise SystemExit(f"files and fluid_names.csv differ: {set(fluids) ^ set(names)}")
    for name, fluid in fluids.items():
        if not names[name]:
            print(f"{name} is not in this version of CoolProp: see tests/reference/eos_check_points.csv")
            continue
        state = CP.AbstractState("HEOS", names[name])
        state.specify_phase(CP.iphase_gas)
        check_pure(fluid, state, worst, rng)
    cas = {n: f["cas"] for n, f in fluids.items()}
    files = load("pair")
    pairs = [p for f in files for p in f["pairs"]]
    departures = {d["name"]: d["terms"] for f in files for d in f["departures"]}
    seen = [frozenset(p["components"]) for p in pairs]
    if len(set(seen)) != len(seen):
        raise SystemExit("a pair is given twice")
    if {p["departure"] for p in pairs} - {None} != set(departures):
        raise SystemExit("departure functions and their uses differ")
    for pair in pairs:
        check_reducing_form(pair, fluids, cas, worst)
    check_against_coolprop(pairs, fluids, names, departures, worst, rng)
    check_against_teqp(pairs, fluids, names, cas, departures, worst, rng)
    print(f"{len(fluids)} pure fluids, {len(pairs)} pairs, {len(departures)} departure functions in order")
    for what, (error, where) in worst.items():
        print(f"{what:26} {error:.1e}  {where}")


if __name__ == "__main__":
    main()
