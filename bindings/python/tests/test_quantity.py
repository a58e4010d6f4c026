"""Quantities: words, text, copies, comparison and arithmetic."""

import copy
import math
import pickle

import pytest
from conftest import classes, words
from hypothesis import given
from hypothesis import strategies as st

import kingvalve as kv

finite = st.floats(min_value=-1e12, max_value=1e12, allow_subnormal=False)
every_class = pytest.mark.parametrize("kind", classes().values(), ids=classes())
every_word = pytest.mark.parametrize(("kind", "symbol", "word"), words(), ids=[word for _, _, word in words()])
affine = (kv.Pressure, kv.GaugePressure, kv.Temperature)
with_a_zero = [each for each in classes().values() if each not in affine]


def first_word(kind):
    """The constructor of the unit it is printed in."""
    return getattr(kv, repr(kind(f"1 {next(iter(kind.units()))}")).partition("(")[0])


def test_there_are_classes():
    assert len(classes()) == 28
    assert len(words()) > 100


@every_word
def test_every_unit_of_the_library_makes_and_reads(kind, symbol, word):
    made = getattr(kv, word)(12.5)
    assert type(made) is kind
    assert getattr(made, word) == pytest.approx(12.5, rel=1e-15, abs=6e-14)  # 459.67 °F cost a digit or two
    assert made.to(symbol) == 12.5
    assert made.to(word) == 12.5
    assert kind(f"12.5 {symbol}") == made


@every_class
@given(value=finite)
def test_a_copy_is_the_same(kind, value):
    quantity = first_word(kind)(value)
    for again in (pickle.loads(pickle.dumps(quantity)), copy.copy(quantity), copy.deepcopy(quantity)):
        assert again == quantity
        assert hash(again) == hash(quantity)
        assert repr(again) == repr(quantity)


@every_class
@given(value=finite)
def test_repr_and_str_read_back(kind, value):
    quantity = first_word(kind)(value)
    text = str(quantity)
    assert str(kind(text)) == text
    assert str(eval(f"kv.{quantity!r}")) == text


@every_class
def test_equality_and_order(kind):
    make = first_word(kind)
    assert make(1.0) < make(2.0) <= make(2.0) != make(1.0)
    assert make(2.0) > make(1.0) >= make(1.0) == make(1.0)
    assert make(1.0) != 1.0
    assert make(math.nan) != make(math.nan)
    assert not make(math.nan).is_finite
    assert make(0.0).is_finite
    assert {make(1.0), make(1.0)} == {make(1.0)}
    assert sorted([make(2.0), make(1.0)]) == [make(1.0), make(2.0)]


def test_negative_zero_hashes_as_zero():
    assert kv.pounds(-0.0) == kv.pounds(0.0)
    assert hash(kv.pounds(-0.0)) == hash(kv.pounds(0.0))


def test_equal_numbers_of_different_kinds_are_different():
    assert kv.psia(62) != kv.psig(62)
    assert kv.kelvins(3) != kv.delta_kelvins(3)


def test_format():
    pressure = kv.psig(62)
    assert f"{pressure}" == str(pressure) == "62 psig"
    assert f"{pressure:.1f}" == "62.0 psig"
    assert f"{pressure:.1f kPag}" == "427.5 kPag"
    assert f"{kv.fahrenheit(88):.0f °C}" == "31 °C"
    assert repr(pressure) == "psig(62.0)"
    with pytest.raises(ValueError, match="[Ii]nvalid format|Unknown format"):
        f"{pressure:.1q}"


@pytest.mark.parametrize("kind", with_a_zero, ids=lambda kind: kind.__name__)
@given(a=finite, b=finite)
def test_sums_and_multiples(kind, a, b):
    make = first_word(kind)
    x, y = make(a), make(b)
    assert x + y == y + x
    assert x - y == -(y - x)
    assert x + -x == make(0.0)
    assert 2 * x == x + x == x * 2.0
    assert x * kv.percent(50) == x / 2
    assert abs(x) >= make(0.0)
    assert sum([x, y]) == x + y
    if abs(a) > 1e-9:
        assert (x + x) / x == 2.0


@given(a=st.floats(1.0, 1e6), b=st.floats(0.0, 1e6))
def test_a_difference_undoes_a_sum(a, b):
    for start, step in (
        (kv.psia(a), kv.psi(b)),
        (kv.psig(a), kv.psi(b)),
        (kv.fahrenheit(a), kv.delta_fahrenheit(b)),
    ):
        raised = start + step
        assert type(raised) is type(start)
        assert type(raised - start) is type(step)
        unit = next(iter(step.units()))
        assert (raised - start).to(unit) == pytest.approx(step.to(unit), rel=1e-12, abs=1e-12 * max(a, 1e3) * 7e3)
        assert raised >= start


@pytest.mark.parametrize(
    ("a", "b", "c"),
    [
        (kv.kilograms_per_cubic_meter(50), kv.cubic_meters(3), kv.kilograms(150)),
        (kv.feet(3), kv.square_feet(4), kv.cubic_feet(12)),
        (kv.feet(3), kv.feet(4), kv.square_feet(12)),
        (kv.volts(240), kv.amperes(2), kv.watts(480)),
        (kv.amperes(2), kv.ohms(3), kv.volts(6)),
        (kv.watts(480), kv.seconds(10), kv.joules(4800)),
        (kv.btu_per_pound(80), kv.pounds(2), kv.btu(160)),
        (kv.joules_per_kilogram(8), kv.kilograms_per_second(2), kv.watts(16)),
        (kv.joules_per_kilogram_kelvin(8), kv.delta_kelvins(2), kv.joules_per_kilogram(16)),
        (kv.cubic_meters_per_second(8), kv.seconds(2), kv.cubic_meters(16)),
        (kv.kilograms_per_second(8), kv.seconds(2), kv.kilograms(16)),
        (kv.meters_per_second(8), kv.seconds(2), kv.meters(16)),
        (kv.meters_per_second(8), kv.square_meters(2), kv.cubic_meters_per_second(16)),
        (kv.kilograms_per_cubic_meter(8), kv.cubic_meters_per_second(2), kv.kilograms_per_second(16)),
    ],
    ids=lambda quantity: str(quantity),
)
def test_products_and_the_quotients_that_follow(a, b, c):
    def close(found, wanted):
        assert type(found) is type(wanted)
        assert found / wanted == pytest.approx(1.0, rel=1e-14)

    close(a * b, c)
    close(b * a, c)
    close(c / a, b)
    close(c / b, a)


def test_arguments_are_numbers():
    assert kv.psig(62) == kv.psig(62.0)
    for wrong in ("62", None, ["62"], kv.psig(62)):
        with pytest.raises(TypeError):
            kv.psig(wrong)


def test_site():
    site = kv.Site(elevation=kv.feet(5280))
    # U.S. Standard Atmosphere 1976, equation 33a, by hand: 101325 (1 - 0.0065 h / 288.15)^5.25588
    assert site.atmosphere.pascals == pytest.approx(101325 * (1 - 0.0065 * 1609.344 / 288.15) ** 5.25588, rel=1e-6)
    assert site.elevation == kv.feet(5280)
    assert site == kv.Site.at_elevation(kv.feet(5280)) != kv.Site()
    assert kv.Site() == kv.Site.sea_level()
    assert kv.Site().atmosphere.pascals == 101325
    read = kv.Site(barometer=kv.inches_of_mercury(29.4))
    assert read == kv.Site.with_barometer(kv.inches_of_mercury(29.4))
    assert read.atmosphere == kv.inches_of_mercury(29.4)
    assert read.elevation is None
    assert str(read) in repr(read)


@given(gauge=st.floats(-12.0, 700.0), elevation=st.floats(-500.0, 3000.0))
def test_gauge_undoes_absolute(gauge, elevation):
    site = kv.Site(elevation=kv.feet(elevation))
    back = site.gauge(site.absolute(kv.psig(gauge)))
    assert back.psig == pytest.approx(gauge, abs=1e-11)
