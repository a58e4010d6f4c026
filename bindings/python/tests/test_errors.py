"""What is refused, by which exception, in which words."""

import pickle

import pytest

import kingvalve as kv


def test_every_exception_has_one_base_and_a_builtin():
    for ours, builtin in (
        (kv.OutOfRange, ValueError),
        (kv.Unreadable, ValueError),
        (kv.Inconsistent, ValueError),
        (kv.UnknownName, KeyError),
        (kv.WrongKind, TypeError),
    ):
        assert issubclass(ours, kv.Error)
        assert issubclass(ours, builtin)
        assert str(ours("said plainly")) == "said plainly"
        again = pickle.loads(pickle.dumps(ours("text", "readings[2].value")))
        assert (str(again), again.field) == ("text", "readings[2].value")


@pytest.mark.parametrize(
    ("act", "says"),
    [
        (lambda: kv.psig(62) + kv.psia(14.7), "an absolute pressure cannot be added to a gauge pressure: a gauge "
         "pressure becomes absolute at its site: site.absolute(kv.psig(62))"),
        (lambda: kv.psia(14.7) - kv.psig(62), "a gauge pressure cannot be subtracted from an absolute pressure: a gauge "
         "pressure becomes absolute at its site: site.absolute(kv.psig(62))"),
        (lambda: kv.fahrenheit(50) + kv.fahrenheit(2), "a temperature cannot be added to a temperature: two "
         "temperatures have a difference but no sum; a step is kv.delta_fahrenheit(10)"),
        (lambda: kv.fahrenheit(50) * 2, "a bare number cannot multiply a temperature"),
        (lambda: kv.psig(50) * 2, "a bare number cannot multiply a gauge pressure"),
        (lambda: kv.pounds(5) + 1, "a bare number cannot be added to a mass: give the number its unit, as in "
         "kv.pounds(1.0)"),
        (lambda: 1 + kv.pounds(5), "a bare number cannot be added to a mass: give the number its unit, as in "
         "kv.pounds(1.0)"),
        (lambda: 1 - kv.pounds(5), "a mass cannot be subtracted from a bare number"),
        (lambda: 1 / kv.pounds(5), "a mass cannot be divided into a bare number"),
        (lambda: kv.pounds(5) < 6, "a bare number cannot be compared with a mass: give the number its unit, as in "
         "kv.pounds(1.0)"),
        (lambda: kv.pounds(5) > kv.feet(5), "a length cannot be compared with a mass"),
        (lambda: kv.pounds(5) * kv.feet(5), "a length cannot multiply a mass"),
        (lambda: kv.Site().absolute(62), "expected a gauge pressure, such as kv.psig(1.0), got the bare number 62"),
        (lambda: kv.Site().absolute("62 psig"), "expected a gauge pressure, such as kv.psig(1.0), got a str"),
        (lambda: kv.Site().absolute(kv.psia(62)), "expected a gauge pressure, such as kv.psig(1.0), got an absolute "
         "pressure; take the atmosphere of the site off: site.gauge(kv.psia(77))"),
        (lambda: kv.Site().gauge(kv.psig(62)), "expected an absolute pressure, such as kv.psia(1.0), got a gauge "
         "pressure; add the atmosphere of its site: site.absolute(kv.psig(62))"),
        (lambda: kv.Site(elevation=kv.feet(1), barometer=kv.psia(14)), "a site is given by its elevation or by a "
         "barometer reading, not by both"),
        (lambda: kv.psig("62"), "expected a number, got a str"),
        (lambda: kv.psig(True), "expected a number, got a bool"),
        (lambda: kv.psig(None), "expected a number, got a NoneType"),
        (lambda: kv.psig(kv.psig(62)), "expected a number, got a gauge pressure"),
        (lambda: kv.Refrigerant("R-32").plain().bubble_pressure("300"), "expected a number, got a str"),
    ],
)
def test_the_wrong_kind(act, says):
    with pytest.raises(kv.WrongKind) as caught:
        act()
    assert str(caught.value) == says


def test_the_argument_at_fault_is_noted():
    with pytest.raises(kv.WrongKind) as caught:
        kv.Site(elevation=130)
    assert caught.value.__notes__ == ["while processing 'elevation'"]


@pytest.mark.parametrize(
    ("act", "error", "parts"),
    [
        (lambda: kv.Site().absolute(kv.psig(-20)), kv.OutOfRange, ["gauge pressure", "-20 psig", "-14.70 psig", "check"]),
        (lambda: kv.Site(elevation=kv.feet(1e6)), kv.OutOfRange, ["elevation", "1000000 ft", "36089 ft", "check"]),
        (lambda: kv.Site(barometer=kv.psia(62)), kv.OutOfRange, ["barometer", "62 psia", "psia", "station pressure"]),
        (lambda: kv.Pressure("62 psig"), kv.Unreadable, ["absolute pressure", "62 psig", "atmosphere", "psia"]),
        (lambda: kv.Pressure("62 psi"), kv.Unreadable, ["absolute pressure", "62 psi", "psia"]),
        (lambda: kv.GaugePressure("62"), kv.Unreadable, ["gauge pressure", '"62"', "psig"]),
        (lambda: kv.Mass("six lb"), kv.Unreadable, ["mass", "six lb", "number"]),
        (lambda: kv.psig(62).to("furlong"), kv.Unreadable, ["gauge pressure", "furlong", "psig, Pag, kPag"]),
        (lambda: f"{kv.psig(62):.1f furlong}", kv.Unreadable, ["gauge pressure", "furlong"]),
    ],
)
def test_bad_input_says_value_unit_and_limit(act, error, parts):
    with pytest.raises(error) as caught:
        act()
    text = str(caught.value)
    assert [part for part in parts if part not in text] == []


def test_other_types_are_asked_before_python_gives_up():
    class Other:
        def __radd__(self, quantity):
            return ("asked", quantity)

    assert kv.psig(62) + Other() == ("asked", kv.psig(62))
    with pytest.raises(TypeError, match="unsupported operand"):
        kv.psig(62) + "x"


def test_what_json_does_not_hold():
    case = kv.check.example("superheat")
    case["suction_line"]["value"] = float("nan")
    with pytest.raises(kv.Unreadable, match="leave out what was not read"):
        kv.check.run("superheat", case)


def test_a_reference_state_nobody_knows():
    with pytest.raises(kv.UnknownName, match='"IIR", "ASHRAE" or "NBP"'):
        kv.Refrigerant("R-32").state(kv.psia(50), kv.fahrenheit(80), reference="zero")
