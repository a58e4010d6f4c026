"""What every result has in common: attributes, comparing, copying, pickling, showing."""

import copy
import inspect
import json
import pickle

import pytest
from checks import ANSWERS

import kingvalve as kv

RECORDS = {name: each for name, each in vars(kv).items() if isinstance(each, type) and issubclass(each, kv.Record) and each is not kv.Record}


def kept():
    """What is plain data, and can be put away."""
    yield kv.Plate(kv.amperes(24), kv.amperes(40))
    yield kv.Installed(kv.amperes(30), kv.amperes(40))
    yield kv.StockPart(kv.microfarads(45), kv.volts(440), kv.Tolerance("±6 %"))
    yield kv.OperatingClass("B")
    yield kv.SafetyClass("S2")
    yield kv.LineAllowance(kv.ounces(0.6), kv.feet(1))
    yield kv.PlateCharge(kv.pounds(6.2), kv.feet(15), kv.LineAllowance(kv.ounces(0.6), kv.feet(1)))
    yield kv.PlateCharge(kv.pounds(6.2), kv.feet(15))
    yield kv.Oil((kv.pounds(2.4), kv.pounds(2.6)))
    yield kv.FullCharge(kv.delta_fahrenheit(10), kv.delta_fahrenheit(9))
    yield kv.VirtualCharge(scatter=kv.percent(9))
    yield kv.Assumptions(fill=(kv.percent(20), kv.percent(30)))
    yield kv.Before(outdoor_fan="at_fault", blower="fine")
    yield kv.Showing(kv.delta_fahrenheit(20), kv.delta_fahrenheit(2), kv.FullCharge(kv.delta_fahrenheit(10), kv.delta_fahrenheit(9)), "too_little")
    yield kv.Additive("dye", kv.fluid_ounces(0.25), kv.tons_of_refrigeration(1))
    yield kv.VacuumTarget(pull_to=kv.microns(300))
    yield kv.DecayRule(material=kv.percent(30))
    yield kv.Expected(superheat=kv.delta_fahrenheit(12))


@pytest.mark.parametrize("made", list(kept()), ids=lambda made: type(made).__name__)
def test_made_by_hand(made):
    cls = type(made)
    assert pickle.loads(pickle.dumps(made)) == made
    assert copy.copy(made) is made
    assert copy.deepcopy(made) is made
    assert made != "something else"
    assert not made == 1
    assert repr(made).startswith(f"<{cls.__name__}: ")
    assert str(made)
    assert made._repr_html_().startswith("<")
    for field in cls.__match_args__:
        getattr(made, field)
        with pytest.raises(AttributeError):
            setattr(made, field, None)
    with pytest.raises(AttributeError):
        made.something_new = 1
    for compare in ("__lt__", "__gt__"):
        assert getattr(made, compare)(made) is NotImplemented


@pytest.mark.parametrize("name", ANSWERS)
def test_found(name):
    found = ANSWERS[name](kv.check.example(name))
    if not isinstance(found, kv.Record):
        pytest.skip("a class of its own")
    again = ANSWERS[name](kv.check.example(name))
    assert type(again) is type(found)
    assert found == found
    finding = found.finding()
    assert json.loads(json.dumps(finding)) == finding
    assert finding["text"].split(".")[0].replace("&", "&amp;").replace("<", "&lt;") in found._repr_html_()
    with pytest.raises(TypeError, match="has no pickle"):
        pickle.dumps(found)
    assert copy.deepcopy(found) is found
    for field in type(found).__match_args__:
        getattr(found, field)


@pytest.mark.parametrize("name", RECORDS)
def test_class(name):
    cls = RECORDS[name]
    assert cls.__module__ == "kingvalve"
    assert cls.__doc__
    assert cls.__slots__ == ()
    for field in cls.__match_args__:
        assert getattr(cls, field).__doc__
    if not cls._made_of:
        with pytest.raises(TypeError, match="made by the function"):
            cls()
    with pytest.raises(TypeError, match="made by the function"):
        kv.Record.__new__(cls)
    with pytest.raises(TypeError):
        kv.Record.__new__(cls, 1)


def test_match():
    plan = ANSWERS["charge_plan"](kv.check.example("charge_plan"))
    match plan.action:
        case kv.Action("weigh", step=step):
            assert step == kv.pounds(0.5)
        case _:
            pytest.fail("it says to weigh in")


def test_a_pickle_of_another_process(tmp_path):
    import subprocess
    import sys

    made = kv.PlateCharge(kv.pounds(6.2), kv.feet(15), kv.LineAllowance(kv.ounces(0.6), kv.feet(1)))
    (tmp_path / "plate").write_bytes(pickle.dumps(made))
    code = "import pickle, pathlib, sys; print(pickle.loads(pathlib.Path(sys.argv[1]).read_bytes()))"
    told = subprocess.run([sys.executable, "-c", code, str(tmp_path / "plate")], check=True, capture_output=True, text=True)
    assert told.stdout.strip() == str(made)


WORDS = {
    "Look": (lambda word: kv.Before(blower=word), ("not_looked", "fine", "at_fault")),
    "Phases": (lambda word: kv.apparent_power(kv.volts(240), kv.amperes(10), word), ("single", "three")),
    "Temper": (lambda word: kv.Tube.acr(kv.inches(0.375), word), ("annealed", "drawn")),
    "Basis": (lambda word: kv.Accessory.given("drier", kv.ounces(5), word), ("data_plate", "maker", "computed", "usual")),
    "Metering": (kv.Patterns.of, ("fixed_orifice", "valve")),
    "Rule": (lambda word: kv.leak_threshold(word, "comfort_cooling"), ("part82", "part84")),
    "Appliance": (lambda word: kv.leak_threshold("part82", word), ("comfort_cooling", "commercial_refrigeration", "industrial_process")),
}


@pytest.mark.parametrize("name", WORDS)
def test_words_of_an_enumeration(name):
    take, words = WORDS[name]
    for word in words:
        take(word)
    with pytest.raises(kv.UnknownName) as refused:
        take(words[0][:-1] + "?")
    assert words[0] in str(refused.value)
    for wrong in (1, b"x", kv.volts(1)):
        with pytest.raises(TypeError):
            take(wrong)


def names(schema, found=None):
    """Every word that a JSON Schema lists."""
    found = set() if found is None else found
    if isinstance(schema, dict):
        found |= {each for each in schema.get("enum", []) if isinstance(each, str)}
        if isinstance(schema.get("const"), str):
            found.add(schema["const"])
        for each in schema.values():
            names(each, found)
    elif isinstance(schema, list):
        for each in schema:
            names(each, found)
    return found


def test_words_are_those_of_the_json():
    """One spelling of a word, in Python and in JSON."""
    assert {"not_looked", "fine", "at_fault", "clean", "wet", "dry_steady", "orifice", "valve", "too_little"} <= names(kv.check.schema("charge_plan"))
    faults = names(kv.check.schema("fault_ranking"))
    ranking = ANSWERS["fault_ranking"](kv.check.example("fault_ranking")).ranking
    assert {each.fault for each in ranking.ranked} <= faults
    assert {each.feature for each in ranking.residuals} <= faults


@pytest.mark.parametrize("name", RECORDS)
def test_signatures_can_be_asked_for(name):
    for each in vars(RECORDS[name]).values():
        if callable(each) and not isinstance(each, type):
            assert "(" in str(inspect.signature(getattr(each, "__func__", each)))
