"""The reference models: CoolProp's own, and teqp fed with published parameters.

CoolProp 8.0.0 brings its own coding of every equation and pair. Where it has none for a pair it is told to use
the combining rules of Lorentz and Berthelot, as we do.

teqp 0.23.2 evaluates what it is given: for each component CoolProp's coding of the equation, for each pair the
parameters of our data files. R-1132a, which CoolProp 8.0.0 lacks, comes from our data file.
"""

import csv
import functools
import json
from pathlib import Path

import CoolProp.CoolProp as CP
import teqp

DATA = Path(__file__).parents[2] / "crates/kingvalve-fluid/data"
GAS_CONSTANT = 8.31446261815324  # J/(mol K), 2019 SI, exact: what CoolProp and kingvalve use for every mixture


@functools.cache
def reference_names():
    """Our designation → CoolProp's name; those it lacks are left out."""
    rows = csv.DictReader((DATA / "fluid_names.csv").read_text().splitlines())
    return {row["name"]: row["reference_name"] for row in rows if row["reference_name"]}


@functools.cache
def coolprop_fluid(component):
    return json.loads(CP.get_fluid_param_string(reference_names()[component], "JSON"))[0]


def cas(component):
    return coolprop_fluid(component)["INFO"]["CAS"]


# ---------------------------------------------------------------- CoolProp


def in_coolprop(components):
    return all(each in reference_names() for each in components)


def coolprop_state(components, mole_fractions=None):
    """CoolProp's state, and the pairs for which it had to be told to use the combining rules."""
    ruled = [pair for pair in pairs_of(components) if not apply_rule_where_missing(*pair)]
    state = CP.AbstractState("HEOS", "&".join(reference_names()[each] for each in components))
    if len(components) > 1:
        state.set_mole_fractions(list(mole_fractions))
    return state, ruled


@functools.cache
def apply_rule_where_missing(first, second):
    """Whether CoolProp has parameters of its own for the pair."""
    for pair in [(first, second), (second, first)]:  # CoolProp keeps each pair in one order
        try:
            CP.get_mixture_binary_pair_data(*map(cas, pair), "BibTeX")
            return True
        except ValueError:
            continue
    CP.apply_simple_mixing_rule(cas(first), cas(second), "Lorentz-Berthelot")
    return False


def pairs_of(components):
    return [(a, b) for k, b in enumerate(components) for a in components[:k]]


# ---------------------------------------------------------------- teqp


@functools.cache
def teqp_model(components):
    fluids = [teqp_fluid(each) for each in components]
    if len(components) > 1:
        for fluid in fluids:
            fluid["EOS"][0]["gas_constant"] = GAS_CONSTANT
    pairs, departures = our_pairs(components)
    return teqp.build_multifluid_model(
        [json.dumps(each) for each in fluids], teqp.get_datapath(), json.dumps(pairs), {}, json.dumps(departures)
    )


def teqp_fluid(component):
    fluid = coolprop_fluid(component) if component in reference_names() else ours_in_coolprop_form(component)
    fluid = json.loads(json.dumps(fluid))  # a copy
    fluid["INFO"]["NAME"], fluid["INFO"]["CAS"] = component, component  # pairs are looked up by these
    return fluid


def ours_in_coolprop_form(component):
    path = DATA / "pure" / (component.lower().replace("r-", "r", 1) + ".json")
    ours = json.loads(path.read_text())
    kinds = {
        "power": "ResidualHelmholtzPower", "exponential": "ResidualHelmholtzExponential",
        "gaussian": "ResidualHelmholtzGaussian",
    }
    terms = [{"type": kinds[term["kind"]], **columns_of(term)} for term in ours["residual"]]
    reducing = {"T": ours["reducing"]["temperature"], "rhomolar": ours["reducing"]["density"]}
    eos = {
        "BibTeX_EOS": "", "alphar": terms, "alpha0": [], "gas_constant": ours["gas_constant"],
        "molar_mass": ours["molar_mass"], "acentric": ours["acentric_factor"], "STATES": {"reducing": reducing},
    }
    return {"EOS": [eos], "INFO": {"NAME": component, "CAS": component, "REFPROP_NAME": component}, "STATES": {}}


def columns_of(term):
    return dict(zip(term["columns"], (list(column) for column in zip(*term["rows"], strict=True)), strict=True))


@functools.cache
def pair_files():
    """Newest first, as `files.rs` lists them: of two parameter sets for a pair the first counts."""
    listed = (DATA.parent / "src/data/files.rs").read_text().split("PAIRS", 1)[1]
    names = [line.split('"')[1] for line in listed.splitlines() if ".json" in line]
    return [json.loads((DATA / "pair" / name).read_text()) for name in names]


def our_pairs(components):
    """The pair parameters and departure functions of our data files in teqp's form; all ones where there are none."""
    chosen = {}
    for pair in (pair for file in pair_files() for pair in file["pairs"]):
        if set(pair["components"]) <= set(components):
            chosen.setdefault(frozenset(pair["components"]), pair)
    wanted, used = [], set()
    for names in map(frozenset, pairs_of(components)):
        pair = chosen.get(names) or {
            "components": sorted(names), "beta_temperature": 1.0, "gamma_temperature": 1.0, "beta_volume": 1.0,
            "gamma_volume": 1.0, "factor": 0.0, "departure": None,
        }
        first, second = pair["components"]
        wanted.append({
            "Name1": first, "CAS1": first, "Name2": second, "CAS2": second, "BibTeX": "",
            "betaT": pair["beta_temperature"], "gammaT": pair["gamma_temperature"],
            "betaV": pair["beta_volume"], "gammaV": pair["gamma_volume"],
            "F": pair["factor"], "function": pair["departure"] or "",
        })
        used.add(pair["departure"])
    departures = [each for file in pair_files() for each in file.get("departures", []) if each["name"] in used]
    return wanted, [departure_in_teqp_form(each) for each in departures]


def departure_in_teqp_form(departure):
    named = {"Name": departure["name"], "aliases": [], "BibTeX": ""}
    power, *rest = departure["terms"]
    assert power["kind"] == "power", departure["name"]
    if not rest:
        return {"type": "Exponential", **named, **columns_of(power)}
    (special,) = rest
    assert special["kind"] == "gerg" and not any(columns_of(power)["l"]), departure["name"]
    both, size = columns_of(special), len(power["rows"])
    for name in ("n", "t", "d"):
        both[name] = columns_of(power)[name] + both[name]
    for name in ("eta", "epsilon", "beta", "gamma"):
        both[name] = [0.0] * size + both[name]
    return {"type": "GERG-2008", "Npower": size, **named, **both}
