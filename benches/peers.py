"""The same calls in peer libraries, timed now, and how many times longer they take.

Run by `make bench` after `cargo bench`, whose results it reads from target/criterion. CoolProp is called through its
Python package, which costs it some tenths of a microsecond a call; the rows "through Python" compare like with like.
"""

import importlib
import json
import os
import sys
import time
from functools import partial
from importlib.metadata import version
from pathlib import Path

import CoolProp
import CoolProp.CoolProp as CP
import numpy as np

import kingvalve as kv

CRITERION = Path(__file__).parents[1] / "target" / "criterion"
# Kelvins, as in benches/saturation.rs.
RING = [262.0, 310.0, 275.0, 318.0, 281.0, 303.0, 269.0, 314.0, 285.0, 306.0, 278.0, 321.0, 272.0, 299.0, 266.0, 291.0]
NAMES = ["R-32", "R-410A", "R-454B", "R-407C", "R-448A"]
REPEATS = 5


def per_call(call, arguments, at_least=0.05):
    """Seconds a call takes: best of some runs over the arguments in turn, none of which may fail."""
    rounds, best = 1, float("inf")
    while True:
        started = time.perf_counter()
        for _ in range(rounds):
            for each in arguments:
                call(each)
        took = time.perf_counter() - started
        if took >= at_least:
            break
        rounds *= 2
    for _ in range(REPEATS):
        started = time.perf_counter()
        for _ in range(rounds):
            for each in arguments:
                call(each)
        best = min(best, time.perf_counter() - started)
    return best / (rounds * len(arguments))


def ours_in_rust(group, name):
    """Seconds a call, as criterion found in this run."""
    found = CRITERION / group / name / "new" / "estimates.json"
    if not found.exists():
        sys.exit(f"{found} is missing: run `cargo bench -p kingvalve-benches` first, as `make bench` does")
    return json.loads(found.read_text())["median"]["point_estimate"] * 1e-9


class Peer:
    """One refrigerant in CoolProp, of the same components and shares."""

    def __init__(self, name):
        self.shares = [(each.replace("R-", "R"), share.fraction) for each, share in kv.Refrigerant(name).components]
        self.names = "&".join(each for each, _ in self.shares)
        self.state = CP.AbstractState("HEOS", self.names)
        if len(self.shares) > 1:
            self.state.set_mass_fractions([share for _, share in self.shares])
        self.left_out = []

    def saturation(self, quality):
        def call(t):
            self.state.update(CP.QT_INPUTS, quality, t)
            return self.state.p()

        return call

    def vapor_density(self, at):
        """Told that it is vapour: CoolProp's fastest way, and the only one of its kind for a blend."""
        t, p = at
        self.state.specify_phase(CP.iphase_gas)
        self.state.update(CP.PT_INPUTS, p, t)
        self.state.unspecify_phase()
        return self.state.rhomass()

    def props_si(self):
        moles = [share / CP.PropsSI("M", each) for each, share in self.shares]
        terms = [f"{each}[{n / sum(moles)}]" for (each, _), n in zip(self.shares, moles, strict=True)]
        text = "HEOS::" + ("&".join(terms) if len(terms) > 1 else self.names)
        return lambda t: CP.PropsSI("P", "T", t, "Q", 0, text)

    def time(self, call, arguments):
        """Seconds a call over the arguments it can do; the others are left out and kept for the report."""
        able = []
        for each in arguments:
            try:
                call(each)
                able.append(each)
            except ValueError:
                self.left_out.append(each)
        return per_call(call, able)


def rows():
    for name in NAMES:
        peer, r = Peer(name), kv.Refrigerant(name)
        bubble, dew = peer.time(peer.saturation(0), RING), peer.time(peer.saturation(1), RING)
        yield name, "bubble point, solved", ours_in_rust("bubble_solved", name), "flash", bubble
        yield name, "dew point, solved", ours_in_rust("dew_solved", name), "flash", dew
        yield name, "bubble pressure, looked up", ours_in_rust("bubble_pressure_looked_up", name), "flash", bubble
        states = [(t, 0.5 * r.dew_pressure(kv.kelvins(t)).pascals) for t in RING]
        yield name, "vapour density", ours_in_rust("vapour_density", name), "told phase", peer.time(peer.vapor_density, states)
        through_python = per_call(r.bubble_pressure, [kv.kelvins(t) for t in RING])
        yield name, "bubble pressure through Python", through_python, "PropsSI", peer.time(peer.props_si(), RING)
        if peer.left_out:
            print(f"{name}: CoolProp fails at {len(peer.left_out)} of the states timed; left out: {peer.left_out}")


def lookup_rows():
    """Seconds a point: one call, and a thousand in a slice."""
    for name in NAMES:
        alone = [ours_in_rust(f"bubble_{what}_looked_up", name) for what in ("pressure", "temperature")]
        sliced = [ours_in_rust(f"bubble_{what}_of_1000", name) / 1000 for what in ("pressures", "temperatures")]
        yield name, *alone, *sliced, ours_in_rust("first_use", name)


def component_rows():
    """Seconds against the number of components, and how they grew over those of two: at most as its square."""
    groups = ("bubble_solved_by_components", "first_use_by_components")
    two = [ours_in_rust(group, "2") for group in groups]
    for count in range(1, 8):
        took = [ours_in_rust(group, str(count)) for group in groups]
        yield count, *took, *(each / base for each, base in zip(took, two, strict=True)), (count / 2) ** 2


# °C and relative humidity, and Pa, as in benches/air.rs.
AIR = [(24, 0.5), (13, 0.93), (35, 0.4), (27, 0.6), (21, 0.3), (-8, 0.7), (45, 0.1), (30, 0.75)]
PRESSURE = 95_461.0


def psychrolib(compiled):
    """PsychroLib as plain Python, or compiled by numba: it takes to numba where that can be imported."""
    sys.modules.pop("psychrolib", None)
    if not compiled:
        sys.modules["numba"] = None
    try:
        psy = importlib.import_module("psychrolib")
    finally:
        if not compiled:
            del sys.modules["numba"]
    psy.SetUnitSystem(psy.SI)
    return psy


def wet_bulb_rows():
    """The peer's own iteration stops at 1e-3 K; ours goes on to 1e-9 K."""
    ours = ours_in_rust("air", "wet_bulb")
    plain = psychrolib(compiled=False)
    states = [(float(t), plain.GetHumRatioFromRelHum(t, rh, PRESSURE)) for t, rh in AIR]
    yield ours, "Python", per_call(lambda at: plain.GetTWetBulbFromHumRatio(*at, PRESSURE), states)
    fast = psychrolib(compiled=True)
    t, w = (np.array(each * 1000) for each in zip(*states, strict=True))
    fast.GetTWetBulbFromHumRatio(t, w, PRESSURE)  # compiles
    yield ours, "numba, on arrays", per_call(lambda p: fast.GetTWetBulbFromHumRatio(t, w, p), [PRESSURE]) / len(t)


MILLION = np.linspace(262.0, 321.0, 1_000_000)


def shortest(call, repeats=5):
    """Seconds the quickest of some calls takes."""
    took = []
    for _ in range(repeats):
        started = time.perf_counter()
        call()
        took.append(time.perf_counter() - started)
    return min(took)


def python_rows():
    """One call and a million through Python, beside the Rust slice and CoolProp's own calls on the same arrays."""
    for name in ("R-32", "R-410A"):
        r, peer = kv.Refrigerant(name), Peer(name)
        plain, temperature, column = r.plain(), kv.kelvins(300.0), kv.kelvins(MILLION)
        theirs = peer.props_si()
        yield name, "one call, plain numbers", per_call(plain.bubble_pressure, [300.0]), per_call(theirs, [300.0])
        yield name, "one call, quantities", per_call(r.bubble_pressure, [temperature]), per_call(theirs, [300.0])
        # A thousandth of the rows for the peer, which takes the same time for each.
        of_array = peer.time(theirs, MILLION[::1000].tolist())
        took = shortest(lambda r=r, column=column: r.bubble_pressure(column)) / len(MILLION)
        yield name, "a row of 1,000,000, quantities", took, of_array
        took = shortest(lambda plain=plain: plain.bubble_pressure(MILLION)) / len(MILLION)
        yield name, "a row of 1,000,000, plain", took, of_array


def column_rows():
    """Seconds a row of a million through Python, and of the Rust function for slices on the same quantities."""
    for name in ("R-32", "R-410A"):
        r = kv.Refrigerant(name)
        plain = r.plain()
        pressures = plain.bubble_pressure(MILLION)
        kelvins, pascals = kv.kelvins(MILLION), kv.pascals(pressures)
        for what, rust, calls in (
            ("p(T)", "bubble_pressures", [partial(r.bubble_pressure, kelvins), partial(plain.bubble_pressure, MILLION)]),
            ("T(p)", "bubble_temperatures", [partial(r.bubble_temperature, pascals), partial(plain.bubble_temperature, pressures)]),
        ):
            in_rust = ours_in_rust(f"{rust}_of_1000000", name) / len(MILLION)
            yield name, what, in_rust, *(shortest(call, 15) / len(MILLION) for call in calls)


def air_rows():
    """Wet bulb of arrays through Python."""
    psy = psychrolib(compiled=False)
    dry, share = np.linspace(5.0, 45.0, 10_000), np.linspace(0.1, 0.95, 10_000)
    site = kv.Site(barometer=kv.pascals(PRESSURE))
    ours = shortest(lambda: kv.MoistAir.from_relative_humidity(kv.celsius(dry), kv.fraction(share), site).wet_bulb) / len(dry)
    rows = list(zip(dry[::100].tolist(), share[::100].tolist(), strict=True))
    theirs = shortest(lambda: [psy.CalcPsychrometricsFromRelHum(t, rh, PRESSURE) for t, rh in rows], 2) / len(rows)
    yield "air", "nine properties, a row of 10,000", ours, theirs


def four_threads():
    """How many times sooner four threads finish than one; the machine's processors bound it."""
    from concurrent.futures import ThreadPoolExecutor

    plain = kv.Refrigerant("R-410A").plain()
    parts = [np.ascontiguousarray(part) for part in np.array_split(np.tile(MILLION, 8), 16)]
    alone = shortest(lambda: [plain.superheat(9e5, part, errors="nan") for part in parts], 3)
    with ThreadPoolExecutor(4) as pool:
        together = shortest(lambda: list(pool.map(lambda part: plain.superheat(9e5, part, errors="nan"), parts)), 3)
    return alone / together


def import_time():
    """Seconds `import kingvalve` takes over starting Python."""
    import subprocess

    def start(code):
        return shortest(lambda: subprocess.run([sys.executable, "-c", code], check=True), 15)

    return start("import kingvalve") - start("pass")


def in_units(seconds):
    for unit, size in (("ns", 1e-9), ("µs", 1e-6)):
        if seconds < 1000 * size:
            return f"{seconds / size:.3g} {unit}"
    return f"{seconds * 1e3:.3g} ms"


def times(ratio):
    return f"{ratio:,.0f}×" if ratio >= 10 else f"{ratio:.1f}×"


def main():
    found, air = list(rows()), list(wet_bulb_rows())
    print(f"\nkingvalve {kv.__version__} against CoolProp {CoolProp.__version__}, this machine, this run\n")
    line = "{:<8} {:<32} {:>10} {:>24} {:>9}"
    print(line.format("", "", "kingvalve", "CoolProp", "ratio"))
    for name, what, ours, how, theirs in found:
        print(line.format(name, what, in_units(ours), f"{in_units(theirs)} ({how})", times(theirs / ours)))
    print("\nkingvalve alone: saturation on the bubble curve, a point; both curves built on first use\n")
    line_of_five = "{:<8}" + " {:>12}" * 5
    print(line_of_five.format("", "p(T)", "T(p)", "p(T) sliced", "T(p) sliced", "first use"))
    for name, *took in lookup_rows():
        print(line_of_five.format(name, *map(in_units, took)))
    print("\nkingvalve alone: against the number of components\n")
    print(line_of_five.format("", "bubble point", "first use", "over two", "over two", "(n/2)²"))
    for count, bubble, first, *grown in component_rows():
        print(line_of_five.format(count, in_units(bubble), in_units(first), *map(times, grown)))
    print()
    print(line.format("", "through Python", "kingvalve", "peer", "ratio"))
    for name, what, ours, theirs in [*python_rows(), *air_rows()]:
        print(line.format(name, what, in_units(ours), in_units(theirs), f"{theirs / ours:,.2f}×"))
    print("\na row of 1,000,000: the Rust slice, through Python with quantities and plain, and each over the slice\n")
    for name, what, rust, *ours in column_rows():
        print(line_of_five.format(f"{name} {what}", *map(in_units, (rust, *ours)), *(f"{each / rust:.2f}×" for each in ours)))
    print(f"\nfour threads finish {four_threads():.2f} times sooner than one, on {os.cpu_count()} processors")
    print(f"import kingvalve: {in_units(import_time())} over bare Python\n")
    print(line.format("", "", "kingvalve", f"PsychroLib {version('PsychroLib')}", "ratio"))
    for ours, how, theirs in air:
        print(line.format("air", "wet bulb", in_units(ours), f"{in_units(theirs)} ({how})", times(theirs / ours)))


if __name__ == "__main__":
    main()
