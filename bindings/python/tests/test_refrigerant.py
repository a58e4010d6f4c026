"""Refrigerants by name, blends of one's own, and the laws saturation keeps."""

import copy
import math
import pickle

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reference import FLUIDS

import kingvalve as kv

every_fluid = pytest.mark.parametrize("name", FLUIDS)


@every_fluid
def test_names_and_composition(name):
    r = kv.Refrigerant(name)
    assert r.designation == str(r) == name
    assert name in repr(r)
    assert name in kv.designations()
    assert r == kv.Refrigerant(name.replace("-", "").lower())
    components, mass, _ = FLUIDS[name]
    assert r.is_blend == (len(components) > 1)
    assert [share.fraction for _, share in r.components] == pytest.approx(mass, abs=1e-12)


def test_blends_of_ones_own():
    shares = {"R-32": kv.percent(68.9), "R-1234yf": kv.percent(31.1)}
    own, listed = kv.Refrigerant.by_mass(shares), kv.Refrigerant("R-454B")
    assert own.designation == "R-32/R-1234yf 68.9/31.1"
    assert [name for name, _ in own.components] == ["R-32", "R-1234yf"]
    t = kv.fahrenheit(75)
    assert own.dew_pressure(t).pascals == pytest.approx(listed.dew_pressure(t).pascals, rel=1e-9)
    by_mole = kv.Refrigerant.by_mole({"R-32": kv.percent(80), "R-1234yf": kv.percent(20)})
    assert by_mole.components[0][1].fraction == pytest.approx(0.8 * 52.024 / (0.8 * 52.024 + 0.2 * 114.0416), rel=1e-6)


def test_copies_are_the_same():
    own = kv.Refrigerant.by_mass({"R-32": kv.percent(70), "R-1234yf": kv.percent(30)})
    for r in (kv.Refrigerant("R-454B"), own):
        for again in (pickle.loads(pickle.dumps(r)), copy.copy(r)):
            assert again == r
            assert hash(again) == hash(r)
            assert again.designation == r.designation
    assert own != kv.Refrigerant("R-454B")


@pytest.mark.parametrize(
    ("act", "error", "parts"),
    [
        (lambda: kv.Refrigerant("R-454D"), kv.UnknownName, ["refrigerant", "R-454D", "R-454A, R-454B or R-454C"]),
        (lambda: kv.Refrigerant(""), kv.UnknownName, ["refrigerant"]),
        (lambda: kv.Refrigerant.by_mass({"R-32": kv.percent(50)}), kv.Inconsistent, ["sum to 0.5", "check the components"]),
        (lambda: kv.Refrigerant.by_mass({"R-32": 0.5, "R-125": 0.5}), kv.WrongKind, ["ratio", "0.5"]),
        (lambda: kv.Refrigerant.by_mass({"R-410A": kv.percent(100)}), kv.Inconsistent, ["R-410A", "blend"]),
        (lambda: kv.Refrigerant("R-410A").bubble_pressure(kv.fahrenheit(300)), kv.OutOfRange, ["R-410A", "300.00 °F", "°F", "check"]),
        (lambda: kv.Refrigerant("R-410A").dew_temperature(kv.psia(2000)), kv.OutOfRange, ["R-410A", "2000.00 psia", "critical"]),
        (lambda: kv.Refrigerant("R-410A").dew_temperature(kv.psig(62)), kv.WrongKind, ["gauge", "site.absolute"]),
        (lambda: kv.Refrigerant("R-410A").dew_pressure(75), kv.WrongKind, ["temperature", "75", "kv.fahrenheit"]),
    ],
)
def test_bad_input_says_name_value_unit_and_limit(act, error, parts):
    with pytest.raises(error) as caught:
        act()
    text = str(caught.value)
    assert [part for part in parts if part not in text] == []


@every_fluid
@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf, 0.0, -1.0, 1e-308, 1e308])
def test_no_number_is_taken_that_has_no_answer(name, value):
    r = kv.Refrigerant(name)
    for act in (r.bubble_pressure, r.dew_pressure, r.bubble_density, r.dew_density):
        with pytest.raises(kv.OutOfRange):
            act(kv.kelvins(value))
    for act in (r.bubble_temperature, r.dew_temperature, r.glide):
        with pytest.raises(kv.OutOfRange):
            act(kv.pascals(value))


@every_fluid
@given(fraction=st.floats(0.6, 0.97), step=st.floats(1e-3, 5e-3))
def test_laws(name, fraction, step):
    r = kv.Refrigerant(name)
    t = r.critical_temperature.kelvins * fraction
    lower, upper = kv.kelvins(t), kv.kelvins(t * (1.0 + step))
    bubble, dew = r.bubble_pressure(lower), r.dew_pressure(lower)
    assert bubble * (1.0 + 1e-9) >= dew
    assert r.bubble_pressure(upper) > bubble
    assert r.dew_pressure(upper) > dew
    assert r.dew_density(upper) > r.dew_density(lower)
    assert r.bubble_density(upper) < r.bubble_density(lower)
    assert r.bubble_temperature(bubble).kelvins == pytest.approx(t, rel=1e-9)
    assert r.dew_temperature(dew).kelvins == pytest.approx(t, rel=1e-9)
    assert r.glide(dew) >= kv.delta_kelvins(-1e-6)
