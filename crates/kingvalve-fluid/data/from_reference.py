"""Write `pure/*.json` and `pair/*.json` from the parameter sets carried by CoolProp 8.0.0.

A development tool, not part of the build: the files it writes are kept and read as they are.
Run it in an environment that has CoolProp 8.0.0:

    python from_reference.py            write the files
    python from_reference.py --check    compare the written files with CoolProp and teqp
                                        (needs mpmath and teqp too)

What is taken are numbers: coefficients, exponents, reducing and limiting values, and the name of the
paper each comes from. The form in which they are written is described in README.md.
"""

import csv
import json
import math
import re
import sys
from pathlib import Path

import CoolProp
import CoolProp.CoolProp as CP

from citation import Library

HERE = Path(__file__).parent
REFERENCE_VERSION = "8.0.0"


# ---------------------------------------------------------------- reading the reference


def embedded_list(containing: bytes, field: str) -> list:
    """The JSON list inside the CoolProp extension module that holds the given text, its rows having `field`."""
    module = next(Path(CoolProp.__file__).parent.glob("CoolProp.*.so")).read_bytes()
    for hit in re.finditer(re.escape(containing), module):
        start = module.rfind(b"\0", 0, hit.start()) + 1
        end = module.find(b"\0", hit.start())
        try:
            found = json.loads(module[start:end])
        except ValueError:
            continue
        if isinstance(found, list) and field in found[0]:
            return found
    raise SystemExit(f"no embedded list holds {containing!r}")


def reference_pairs() -> list:
    return embedded_list(b"Lemmon-JPCRD-2004", "CAS1")


def reference_departures() -> list:
    return embedded_list(b"Lemmon-JPCRD-2004", "n")


def reference_fluid(name: str) -> dict:
    return json.loads(CP.get_fluid_param_string(name, "JSON"))[0]


def fluid_table() -> list:
    with open(HERE / "fluid_names.csv", newline="") as f:
        return list(csv.DictReader(f))


# ---------------------------------------------------------------- numbers and layout


def tidy(x):
    """The shortest decimal within one unit in the last place; whole numbers without a point."""
    if isinstance(x, int):
        return x
    short = float(f"{x:.15g}")
    x = short if abs(short - x) <= 2.3e-16 * abs(x) else x
    return int(x) if x == int(x) and abs(x) < 1e15 else x


def text(value, indent=0) -> str:
    """JSON with one key or one table row a line."""
    pad = "  " * (indent + 1)
    if isinstance(value, dict):
        flat = "{" + ", ".join(f"{json.dumps(k)}: {text(v)}" for k, v in value.items()) + "}"
        if "\n" not in flat and (indent and len(flat) <= 100):
            return flat
        body = ",\n".join(f"{pad}{json.dumps(k)}: {text(v, indent + 1)}" for k, v in value.items())
        return "{\n" + body + "\n" + "  " * indent + "}"
    if isinstance(value, list):
        if value and isinstance(value[0], (dict, list)):
            body = ",\n".join(pad + text(v, indent + 1) for v in value)
            return "[\n" + body + "\n" + "  " * indent + "]"
        return "[" + ", ".join(text(v) for v in value) + "]"
    return json.dumps(tidy(value) if isinstance(value, float) else value, ensure_ascii=False)


def write(path: Path, value: dict):
    path.parent.mkdir(exist_ok=True)
    path.write_text(text(value) + "\n", encoding="utf-8")


def file_name(name: str) -> str:
    return re.sub(r"[^a-z0-9]+", "_", name.replace("R-", "r").lower()).strip("_") + ".json"


# ---------------------------------------------------------------- residual part


def table(kind: str, columns: list, term: dict, keys: list) -> dict:
    rows = [list(row) for row in zip(*(term[k] for k in keys), strict=True)]
    return {"kind": kind, "columns": columns, "rows": rows}


GAUSSIAN = ["n", "t", "d", "eta", "epsilon", "beta", "gamma"]


def residual_term(term: dict) -> dict:
    kind = term["type"].removeprefix("ResidualHelmholtz")
    if kind == "Power":
        return table("power", ["n", "t", "d", "l"], term, ["n", "t", "d", "l"])
    if kind == "Exponential":
        return table("exponential", ["n", "t", "d", "g", "l"], term, ["n", "t", "d", "g", "l"])
    if kind == "Lemmon2005":
        return table("lemmon2005", ["n", "t", "d", "l", "m"], term, ["n", "t", "d", "l", "m"])
    if kind == "Gaussian":
        return table("gaussian", GAUSSIAN, term, GAUSSIAN)
    if kind == "GaoB":
        return table("gao", GAUSSIAN + ["b"], term, GAUSSIAN + ["b"])
    if kind == "NonAnalytic":
        columns = ["n", "a", "b", "beta", "A", "B", "C", "D"]
        return table("non_analytic", columns, term, columns)
    raise SystemExit(f"residual term {kind} has no form here")


# ---------------------------------------------------------------- ideal part


class Ideal:
    """Collects the ideal-gas terms of one fluid in the few kinds written here."""

    def __init__(self):
        self.a1, self.a2, self.log_tau, self.tau_log_tau = 0.0, 0.0, 0.0, 0.0
        self.power, self.planck_einstein = [], []

    def add(self, term: dict):
        getattr(self, term["type"].removeprefix("IdealGasHelmholtz"))(term)

    def Lead(self, x):
        self.a1 += x["a1"]
        self.a2 += x["a2"]

    def EnthalpyEntropyOffset(self, x):
        pass  # a choice of reference state, not a property: left to whoever reads the file

    def LogTau(self, x):
        self.log_tau += x["a"]

    def Power(self, x):
        self.power += zip(x["n"], x["t"], strict=True)

    def PlanckEinstein(self, x):
        self.planck_einstein += zip(x["n"], x["t"], strict=True)

    def PlanckEinsteinFunctionT(self, x):
        self.planck_einstein += [(n, v / x["Tcrit"]) for n, v in zip(x["n"], x["v"], strict=True)]

    def CP0Constant(self, x):
        self.heat_capacity(x["cp_over_R"], 0, x["Tc"], x["T0"])

    def CP0PolyT(self, x):
        for c, t in zip(x["c"], x["t"], strict=True):
            self.heat_capacity(c, t, x["Tc"], x["T0"])

    def heat_capacity(self, c, t, tc, t0):
        """cp0/R = c T^t integrated twice, with zero enthalpy and entropy of the term at t0."""
        tau0 = tc / t0
        if t == 0:
            self.log_tau += c
            self.a1 += c - c * math.log(tau0)
            self.a2 -= c / tau0
        elif t == -1:
            self.tau_log_tau -= c / tc
            self.a2 += c / tc * (math.log(tau0) + 1)
            self.a1 -= c / tc * tau0
        else:
            self.power.append((-c * tc**t / (t * (t + 1)), -t))
            self.a2 -= c * t0 ** (t + 1) / (tc * (t + 1))
            self.a1 += c * t0**t / t

    def terms(self) -> list:
        out = [{"kind": "lead", "a1": self.a1, "a2": self.a2}, {"kind": "log_tau", "a": self.log_tau}]
        if self.tau_log_tau:
            out.append({"kind": "tau_log_tau", "a": self.tau_log_tau})
        if self.power:
            out.append({"kind": "power", "columns": ["n", "t"], "rows": [list(r) for r in self.power]})
        if self.planck_einstein:
            rows = [list(r) for r in self.planck_einstein]
            out.append({"kind": "planck_einstein", "columns": ["n", "theta"], "rows": rows})
        return out


# ---------------------------------------------------------------- files

# Where the reference differs from the paper it cites, the paper's number as others transcribed it, found by comparing with the
# paper's own check table (tests/reference/eos_check_points.csv), which the corrected file reproduces.
CORRECTED_GAS_CONSTANT = {
    "R-717": 8.314462618,  # Gao et al. 2023, Table 7; the reference keeps 8.3144598
    "R-1234ze(E)": 8.3144621,  # Thol and Lemmon 2016, section 2; the reference keeps 8.314472
}
CORRECTED_EINSTEIN_TEMPERATURES = {
    "R-245fa": [222.0, 1010.0, 2450.0],  # K, over T_c = 427.01 K (Akasaka et al. 2015); the reference has 427.16 K
}


def pure(entry: dict, library: Library) -> dict:
    ref = reference_fluid(entry["reference_name"])
    eos, critical = ref["EOS"][0], ref["STATES"]["critical"]
    reducing = eos["STATES"]["reducing"]
    ideal = Ideal()
    for term in eos["alpha0"]:
        ideal.add(term)
    if temperatures := CORRECTED_EINSTEIN_TEMPERATURES.get(entry["name"]):
        terms = zip(ideal.planck_einstein, temperatures, strict=True)
        ideal.planck_einstein = [(n, theta / reducing["T"]) for (n, _), theta in terms]
    return {
        "name": entry["name"],
        "chemical_name": entry["chemical_name"],
        "formula": entry["formula"],
        "cas": ref["INFO"]["CAS"],
        "source": library.source(eos["BibTeX_EOS"]),
        "molar_mass": eos["molar_mass"],
        "gas_constant": CORRECTED_GAS_CONSTANT.get(entry["name"], eos["gas_constant"]),
        "critical": {"temperature": critical["T"], "pressure": critical["p"], "density": critical["rhomolar"]},
        "reducing": {"temperature": reducing["T"], "density": reducing["rhomolar"]},
        "acentric_factor": eos["acentric"],
        "triple_point_temperature": eos["Ttriple"],
        "valid": {
            "temperature": [eos["STATES"]["sat_min_liquid"]["T"], eos["T_max"]],
            "pressure_max": eos["p_max"],
        },
        "ideal": ideal.terms(),
        "residual": [residual_term(t) for t in eos["alphar"]],
    }


def combining_rules(one: dict, two: dict) -> tuple:
    """γ_T and γ_v that make the reducing values of a pair plain arithmetic means (GERG-2008, unfitted pairs)."""
    t1, t2 = one["reducing"]["temperature"], two["reducing"]["temperature"]
    v1, v2 = 1 / one["reducing"]["density"], 1 / two["reducing"]["density"]
    return 0.5 * (t1 + t2) / math.sqrt(t1 * t2), 4 * (v1 + v2) / (v1 ** (1 / 3) + v2 ** (1 / 3)) ** 3


def from_shifts(pair: dict, one: dict, two: dict) -> tuple:
    """γ_T and γ_v from Lemmon and Jacobsen's ξ (K) and ζ (m³/mol), which shift the arithmetic means."""
    t1, t2 = one["reducing"]["temperature"], two["reducing"]["temperature"]
    v1, v2 = 1 / one["reducing"]["density"], 1 / two["reducing"]["density"]
    gamma_t = 0.5 * (t1 + t2 + pair["xi"]) / math.sqrt(t1 * t2)
    gamma_v = 4 * (v1 + v2 + pair["zeta"]) / (v1 ** (1 / 3) + v2 ** (1 / 3)) ** 3
    return gamma_t, gamma_v


def binary(pair: dict, by_cas: dict) -> dict:
    one, two = by_cas[pair["CAS1"]], by_cas[pair["CAS2"]]
    if "xi" in pair:
        beta_t, beta_v = 1.0, 1.0
        gamma_t, gamma_v = from_shifts(pair, one, two)
    else:
        beta_t, gamma_t = float(pair["betaT"]), float(pair["gammaT"])
        beta_v, gamma_v = float(pair["betaV"]), float(pair["gammaV"])
    departure = pair.get("function") if pair["F"] else None
    means = combining_rules(one, two)
    unfitted = departure is None and beta_t == beta_v == 1 and any(
        abs(gamma_t - t) < 2e-5 and abs(gamma_v - v) < 2e-5 for t, v in [(1, 1), means]
    )
    return {
        "components": [one["name"], two["name"]],
        "beta_temperature": beta_t,
        "gamma_temperature": gamma_t,
        "beta_volume": beta_v,
        "gamma_volume": gamma_v,
        "factor": float(pair["F"]) if departure else 0,
        "departure": departure,
        "basis": "estimated" if unfitted else "fitted",
    }


def departure(function: dict) -> dict:
    """One departure function; the first `Npower` terms of a GERG one are plain powers."""
    kind, size = function["type"], len(function["n"])
    f = {k: v for k, v in function.items() if isinstance(v, list) and len(v) == size}
    if kind == "Exponential":
        return {"name": function["Name"], "terms": [table("power", ["n", "t", "d", "l"], f, ["n", "t", "d", "l"])]}
    if kind == "GERG-2008":
        split = function["Npower"]
        f["l"] = [0] * size
        first = {k: v[:split] for k, v in f.items()}
        rest = {k: v[split:] for k, v in f.items()}
        terms = [table("power", ["n", "t", "d", "l"], first, ["n", "t", "d", "l"])]
        if rest["n"]:
            terms.append(table("gerg", GAUSSIAN, rest, GAUSSIAN))
        return {"name": function["Name"], "terms": terms}
    raise SystemExit(f"departure kind {kind} has no form here")


def main():
    if CP.get_global_param_string("version") != REFERENCE_VERSION:
        raise SystemExit(f"CoolProp {REFERENCE_VERSION} is needed")
    library = Library(Path(CoolProp.__file__).parent / "CoolPropBibTeXLibrary.bib", HERE / "citation_corrections.json")
    entries = fluid_table()
    carried = [e for e in entries if e["reference_name"]]
    keys = [reference_fluid(e["reference_name"])["EOS"][0]["BibTeX_EOS"] for e in carried]
    pairs = reference_pairs()
    library.name_keys(keys + [p["BibTeX"] for p in pairs])

    by_cas = {}
    for entry in carried:
        fluid = pure(entry, library)
        by_cas[fluid["cas"]] = fluid
        write(HERE / "pure" / file_name(fluid["name"]), fluid)

    ours = [p for p in pairs if p["CAS1"] in by_cas and p["CAS2"] in by_cas]
    used = {p["function"] for p in ours if p["F"] and "function" in p}
    functions = [f for f in reference_departures() if f["Name"] in used]
    papers = sorted({p["BibTeX"] for p in ours} | {f["BibTeX"] for f in functions})
    for paper in papers:
        source = library.source(paper)
        write(HERE / "pair" / f"{source['key']}.json", {
            "source": source,
            "pairs": [binary(p, by_cas) for p in ours if p["BibTeX"] == paper],
            "departures": [departure(f) for f in functions if f["BibTeX"] == paper],
        })
    print(f"{len(carried)} pure fluids, {len(ours)} pairs and {len(functions)} departure functions from {len(papers)} papers")


if __name__ == "__main__":
    if "--check" in sys.argv:
        import check_reference

        check_reference.main()
    else:
        main()
