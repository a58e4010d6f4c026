"""Every function of the rooms that takes columns: row for row what one quantity gives, bit for bit."""

import math
import re

import hypothesis.strategies as st
import numpy as np
import pytest
from hypothesis import given, settings

import kingvalve as kv

SITE = kv.Site(elevation=kv.feet(130))
CHART = kv.ChargingChart(
    kv.fahrenheit([75, 95, 115]),
    kv.fahrenheit([58, 66, 74]),
    [[kv.delta_fahrenheit(x) if x else None for x in row] for row in ([14, 21, 28], [5, 13, 22], [None, 6, 15])],
    "an invented chart",
)
SPLITS = kv.SplitTable(
    kv.fahrenheit([70, 76, 84]),
    kv.fahrenheit([56, 64, 72]),
    kv.delta_fahrenheit([[22, 18, 14], [24, 20, 16], [26, 22, 18]]),
    "an invented table",
)
FAN = kv.FanTable(kv.inches_of_water([0.3, 0.5, 0.7]), kv.cubic_feet_per_minute([1350, 1240, 1090]), "an invented table")
COPPER = kv.Conductor.copper("10 AWG")
PLATE = kv.PlateCharge(kv.pounds(6.2), kv.feet(15), kv.LineAllowance(kv.ounces(0.6), kv.feet(1)))
TUBE = kv.Tube.acr(kv.inches(0.375))
FULL = kv.FullCharge(kv.delta_fahrenheit(10), kv.delta_fahrenheit(9))
VIRTUAL = kv.VirtualCharge()
STANDARD = kv.StandardAir()
BACK = kv.MoistAir.from_wet_bulb(kv.fahrenheit(75), kv.fahrenheit(63), SITE)
SUPPLY = kv.MoistAir.from_wet_bulb(kv.fahrenheit(55), kv.fahrenheit(53.5), SITE)


def air(dry, wet, **how):
    return kv.MoistAir.from_wet_bulb(dry, wet, SITE, **how)


# name: the function, what it takes (word, from, to), and the words of its answer (of its attributes where it has several).
FUNCTIONS = {
    "orifice_superheat": (kv.orifice_superheat, [("fahrenheit", 45, 80), ("fahrenheit", 50, 120)], "delta_kelvins"),
    "ChargingChart.target": (CHART.target, [("fahrenheit", 70, 118), ("fahrenheit", 56, 76)], "delta_kelvins"),
    "SplitTable.target": (SPLITS.target, [("fahrenheit", 68, 86), ("fahrenheit", 54, 74)], "delta_kelvins"),
    "FanTable.airflow": (FAN.airflow, [("inches_of_water", 0.2, 0.8)], "cubic_meters_per_second"),
    "total_external_static": (kv.total_external_static, [("inches_of_water", -0.2, 0.9), ("inches_of_water", -0.9, 0.2)], "delta_pascals"),
    "airflow_from_traverse": (kv.airflow_from_traverse, [("square_feet", -0.1, 4), ("feet_per_minute", 0, 3000)], "cubic_meters_per_second"),
    "velocity_from_pressure": (lambda p, **how: kv.velocity_from_pressure(p, BACK, **how), [("inches_of_water", -0.01, 0.5)], "meters_per_second"),
    "airflow_from_heat": (
        lambda heat, leaving, **how: kv.airflow_from_heat(heat, BACK, leaving, **how),
        [("kilowatts", 1, 12), ("fahrenheit", 70, 120)],
        "cubic_meters_per_second",
    ),
    "split_by_model": (
        lambda flow, heat, **how: kv.split_by_model(flow, BACK, heat, **how),
        [("cubic_feet_per_minute", 600, 1600), ("tons_of_refrigeration", 1, 4)],
        "delta_kelvins",
    ),
    "saturation_pressure": (kv.saturation_pressure, [("celsius", -110, 210)], "pascals"),
    "MoistAir": (
        air,
        [("fahrenheit", 40, 110), ("fahrenheit", 40, 80)],
        {"humidity_ratio": "kilograms_per_kilogram", "enthalpy": "joules_per_kilogram", "density": "kilograms_per_cubic_meter"},
    ),
    "delivered": (
        lambda flow, **how: kv.delivered(flow, BACK, SUPPLY, **how),
        [("cubic_feet_per_minute", -100, 2000)],
        {"total": "watts", "sensible": "watts", "latent": "watts", "sensible_ratio": "fraction"},
    ),
    "StandardAir.sensible": (STANDARD.sensible, [("cubic_feet_per_minute", 0, 2000), ("delta_fahrenheit", -5, 30)], "watts"),
    "StandardAir.total": (STANDARD.total, [("cubic_feet_per_minute", 0, 2000), ("btu_per_pound", -5, 30)], "watts"),
    "StandardAir.latent": (STANDARD.latent, [("cubic_feet_per_minute", 0, 2000), ("grains_per_pound", -5, 30)], "watts"),
    "Unbalance.derating_at": (kv.Unbalance.derating_at, [("percent", -0.5, 6)], "fraction"),
    "Conductor.resistance": (COPPER.resistance, [("feet", -5, 500)], "ohms"),
    "Conductor.resistance_at": (COPPER.resistance_at, [("feet", -5, 500), ("celsius", -40, 150)], "ohms"),
    "maximum_continuous": (kv.CompressorCurrent.maximum_continuous, [("amperes", -1, 40)], "amperes"),
    "corrected_to_40_celsius": (kv.corrected_to_40_celsius, [("megohms", -1, 500), ("celsius", 0, 100)], "ohms"),
    "apparent_power": (lambda v, i, **how: kv.apparent_power(v, i, "three", **how), [("volts", -5, 500), ("amperes", -1, 40)], "watts"),
    "real_power": (
        lambda v, i, **how: kv.real_power(v, i, kv.percent(93), "single", **how),
        [("volts", -5, 500), ("amperes", -1, 40)],
        "watts",
    ),
    "PlateCharge.for_line": (PLATE.for_line, [("feet", -5, 120)], "kilograms"),
    "Tube.volume": (TUBE.volume, [("feet", 0, 120)], "cubic_meters"),
    "VirtualCharge.share": (
        lambda sh, sc, **how: VIRTUAL.share(FULL, sh, sc, **how),
        [("delta_fahrenheit", -2, 40), ("delta_fahrenheit", -2, 30)],
        "fraction",
    ),
    "annualized_leak_rate": (kv.annualized_leak_rate, [("pounds", -1, 20), ("pounds", -1, 60), ("days", 0, 700)], "fraction"),
    "charge_penalty": (
        lambda off, indoor, outdoor, **how: kv.charge_penalty("cooling", off, indoor, outdoor, **how),
        [("percent", -60, 40), ("celsius", 15, 35), ("celsius", 10, 50)],
        {"capacity": "fraction", "power": "fraction", "cop": "fraction"},
    ),
    "airflow_penalty": (
        lambda flow, **how: kv.airflow_penalty("heating", flow, **how),
        [("percent", 30, 130)],
        {"capacity": "fraction", "input_ratio": "fraction", "cop": "fraction"},
    ),
    "LeakGas.viscosity": (kv.LeakGas.nitrogen().viscosity, [("celsius", -60, 100)], "pascal_seconds"),
}
NO_ERRORS = {"StandardAir.sensible", "StandardAir.total", "StandardAir.latent", "Tube.volume"}  # they refuse nothing


def numbers(found, words):
    """The answer as floats or arrays, one for each word."""
    if isinstance(words, str):
        return [getattr(found, words)]
    return [getattr(getattr(found, name), word) for name, word in words.items()]


def one(function, takes, row, words):
    """What single quantities give: numbers, or the error."""
    try:
        return numbers(function(*(getattr(kv, word)(x) for (word, _, _), x in zip(takes, row, strict=True))), words)
    except kv.Error as error:
        return error


def alike(a, b):
    return a == b or (math.isnan(a) and math.isnan(b))


@pytest.mark.parametrize("name", FUNCTIONS)
@settings(max_examples=12)
@given(data=st.data())
def test_a_column_is_its_rows(name, data):
    function, takes, words = FUNCTIONS[name]
    rows = data.draw(st.lists(st.tuples(*(st.floats(low, high) for _, low, high in takes)), min_size=1, max_size=6))
    columns = [getattr(kv, word)(list(numbers)) for (word, _, _), numbers in zip(takes, zip(*rows, strict=True), strict=True)]
    alone = [one(function, takes, row, words) for row in rows]
    errors = {} if name in NO_ERRORS else {"errors": "nan"}
    found = numbers(function(*columns, **errors), words)
    for at, each in enumerate(alone):
        for field, column in enumerate(found):
            assert column.shape == (len(rows),)
            assert math.isnan(column[at]) if isinstance(each, kv.Error) else alike(column[at], each[field])
    first = next(((at, each) for at, each in enumerate(alone) if isinstance(each, kv.Error)), None)
    if first is not None:
        at, error = first
        with pytest.raises(type(error), match=f"^row {at}: ") as raised:
            function(*columns)
        assert re.sub(r"^[\w.\[\]]+: ", "", str(error)) in str(raised.value)


@pytest.mark.parametrize("name", FUNCTIONS)
def test_what_is_missing_stays_missing(name):
    function, takes, words = FUNCTIONS[name]
    middle = [0.5 * (low + high) for _, low, high in takes]
    for gap in range(len(takes)):
        columns = [
            getattr(kv, word)([number, math.nan if at == gap else number])
            for at, ((word, _, _), number) in enumerate(zip(takes, middle, strict=True))
        ]
        for found in numbers(function(*columns), words):
            assert np.isnan(found).tolist() == [False, True]


@pytest.mark.parametrize("name", [name for name, (_, takes, _) in FUNCTIONS.items() if len(takes) > 1])
def test_columns_broadcast(name):
    function, takes, words = FUNCTIONS[name]
    ends = [(low + 0.4 * (high - low), low + 0.45 * (high - low)) for _, low, high in takes]
    (first, *_), (second, *_) = takes[0], takes[1]
    rest = [getattr(kv, word)(low) for (word, _, _), (low, _) in zip(takes[2:], ends[2:], strict=True)]
    down, across = getattr(kv, first)([[ends[0][0]], [ends[0][1]]]), getattr(kv, second)(list(ends[1]))
    for which, found in enumerate(numbers(function(down, across, *rest), words)):
        assert found.shape == (2, 2)
        for i in range(2):
            for j in range(2):
                row = [ends[0][i], ends[1][j], *(low for low, _ in ends[2:])]
                assert found[i, j] == one(function, takes, row, words)[which]
    with pytest.raises(kv.WrongKind, match=r"\(2,\) and \(3,\)"):
        function(getattr(kv, first)([ends[0][0]] * 2), getattr(kv, second)([ends[1][0]] * 3), *rest)


@pytest.mark.parametrize("name", FUNCTIONS)
def test_another_kind_is_refused(name):
    function, takes, _ = FUNCTIONS[name]
    other = kv.microfarads
    rest = [getattr(kv, word)(0.5 * (low + high)) for word, low, high in takes[1:]]
    for wrong in (other(1), other([1, 2]), 12.5, "12.5", None, [1.0, 2.0], np.array([1.0, 2.0])):
        with pytest.raises(kv.WrongKind):
            function(wrong, *rest)


@pytest.mark.parametrize("name", sorted(set(FUNCTIONS) - NO_ERRORS))
def test_errors_is_a_word_of_two(name):
    function, takes, _ = FUNCTIONS[name]
    middle = [getattr(kv, word)(0.5 * (low + high)) for word, low, high in takes]
    with pytest.raises(TypeError, match="raise"):
        function(*middle, errors="ignore")
