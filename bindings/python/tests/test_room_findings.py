"""The rooms of the package answer as the checks by name do, bit for bit, whatever the readings."""

import copy
import math
import re

import hypothesis.strategies as st
import pytest
from checks import ANSWERS, inventory, where
from hypothesis import example, given, settings

import kingvalve as kv

# What a check adds to what the class finds: a caution of the refrigerant, a number of another class, the way out of doubt.
ADDED = {"circuit_sizes": "minimum circuit ampacity of the loads", "vacuum_decay": "leak, as air"}
# Not readings; and pairs that the check turns into one value before the class has it.
APART = {"instrument", "gauge", "scale", "thermometer", "source", "name", "volume", "weighed"}
FIELD = re.compile(r"^[\w.\[\]]+: ")
NUMBER = re.compile(r"^(-?\d+(?:\.\d+)?(?:e-?\d+)?) (?!\w+Hz)(.+)$")


def by_name(name, form):
    found = dict(kv.check.run(name, form))
    found["measured"] = [each for each in found["measured"] if each["what"] != ADDED.get(name)]
    return found


def by_class(name, form):
    found = ANSWERS[name](form).finding()
    assert isinstance(found, kv.check.Finding)
    return dict(found)


def agree(name, form):
    """Both answer alike, or both refuse alike."""
    try:
        theirs = by_name(name, form)
    except kv.Error as error:
        # Where the JSON itself is refused, the reader says so around the same words.
        with pytest.raises(kv.Error if isinstance(error, kv.Unreadable) else type(error)) as refused:
            by_class(name, form)
        assert FIELD.sub("", str(refused.value)) in str(error)
        return
    ours = by_class(name, form)
    ours["next"] = ours["next"] or theirs["next"]
    if "refrigerant" in form:
        of_refrigerant = [each for each in theirs["cautions"] if each not in ours["cautions"]]
        assert [each["text"] for each in of_refrigerant] == [
            text for text in kv.Refrigerant(form["refrigerant"]).cautions if text in {each["text"] for each in of_refrigerant}
        ]
        ours["cautions"] = theirs["cautions"]
    if name == "run_capacitor_under_load":
        ours["next"] = theirs["next"]  # the registry alone knows what other instruments there are
    assert ours == theirs


@pytest.mark.parametrize("name", ANSWERS)
def test_example(name):
    agree(name, kv.check.example(name))


def leaves(form, path=()):
    """Where numbers with a unit stand."""
    if isinstance(form, dict):
        for key, each in form.items():
            if key not in APART:
                yield from leaves(each, (*path, key))
    elif isinstance(form, list):
        for at, each in enumerate(form):
            yield from leaves(each, (*path, at))
    elif isinstance(form, str) and NUMBER.match(form):
        yield path


def changed(form, path, factor):
    form = copy.deepcopy(form)
    *way, last = path
    inside = form
    for each in way:
        inside = inside[each]
    number, unit = NUMBER.match(inside[last]).groups()
    inside[last] = f"{float(number) * factor!r} {unit}"
    return form


LEAVES = {name: list(leaves(kv.check.example(name))) for name in ANSWERS}


def test_every_check_has_numbers_to_change():
    assert all(LEAVES.values())


@pytest.mark.parametrize("name", sorted(set(ANSWERS) - {"charge_plan"}))
@settings(max_examples=25)
@given(data=st.data())
def test_whatever_the_readings(name, data):
    path = data.draw(st.sampled_from(LEAVES[name]))
    factor = data.draw(st.one_of(st.floats(0.9, 1.1), st.floats(0.01, 5), st.sampled_from([-1.0, 0.0, 1e6])))
    agree(name, changed(kv.check.example(name), path, factor))


@settings(max_examples=5)
@given(path=st.sampled_from(LEAVES["charge_plan"]), factor=st.floats(0.8, 1.25))
@example(path=("situation", "cylinder"), factor=0.0)
@example(path=("known", "evidence", 0, "standing", "pressure"), factor=0.0)
def test_whatever_the_plan(path, factor):
    agree("charge_plan", changed(kv.check.example("charge_plan"), path, factor))


def test_inventory_is_the_check():
    form = kv.check.example("charge_inventory")
    known = inventory(form)
    found = kv.check.run("charge_inventory", form)
    said = {each["what"]: each for each in found["measured"]}
    estimates = {
        "charge now": known.now,
        "missing to the plate charge": known.missing(kv.Mass(form["plate_charge"])),
        "internal volume": known.volume,
    }
    for what, of in estimates.items():
        low, high = of.ninety
        ours = {"median": of.median, "nine times in ten at least": low, "nine times in ten at most": high}
        for part, each in ours.items():
            theirs = said[f"{what}, {part}"]
            assert theirs["value"] == each.to(theirs["unit"])
    assert said["probability that all was vapour"]["value"] == known.probability_all_vapour.percent
    assert [f"{each}." in found["text"] for each in known.contributions] == [True] * len(form["evidence"])
    assert known.air_ingress(where(form["site"])).word == "kept_out"


def test_standing_is_the_check():
    form = kv.check.example("standing_pressure")
    from checks import between, gauge, warm

    pressure = where(form["site"]).absolute(gauge(form["pressure"], "standing pressure"))
    spaces = [kv.Space(each["name"], between(kv.Volume, each["volume"]), warm(each["temperature"], "")) for each in form["spaces"]]
    oil = kv.Oil(between(kv.Mass, form["oil"]["mass"]))
    found = kv.Standing(pressure, spaces, oil).read(kv.Refrigerant(form["refrigerant"]))
    theirs = kv.check.run("standing_pressure", form)
    assert found.state == "all_vapour"
    assert str(found) == theirs["text"]
    assert found.next in theirs["next"]
    assert [each["text"] for each in theirs["cautions"]] == found.cautions
    ends = [each["value"] for each in theirs["measured"] if "refrigerant left" in each["what"]]
    assert ends == [each.pounds for each in found.mass]


def test_leak_rate_is_the_check():
    from checks import instrument

    form = kv.check.example("leak_rate")
    scale = instrument(form["scale"], kv.Mass)
    charges = [
        (each["day"], kv.Reading(kv.Mass(each["added"]), scale, label=f"charge of {each['day']}")) for each in form["charges"]
    ]
    leak = kv.LeakRate.from_charges(charges, kv.Mass(form["meets_mark_within"]))
    theirs = kv.check.run("leak_rate", form)
    said = {each["what"]: each for each in theirs["measured"]}
    r = kv.Refrigerant(form["refrigerant"])
    ours = {
        "leak rate": leak.rate,
        "lost in all": leak.lost,
        "lost in a year": leak.per_year,
        "carbon dioxide equivalent a year": leak.carbon_dioxide_per_year(r.gwp("ar4")),
    }
    for what, measured in ours.items():
        for part, of in (("value", measured.value), ("standard_uncertainty", measured.standard_uncertainty)):
            assert said[what][part]["value"] == of.to(said[what][part]["unit"])
    assert str(leak) in theirs["text"]


def test_levels_are_kept():
    form = kv.check.example("conductor_voltage_drop") | {"level": "80 %", "limit": "2 %"}
    theirs = kv.check.run("conductor_voltage_drop", form)
    from checks import amps

    ours = kv.VoltageDrop.along(
        kv.Conductor.copper("12 AWG"),
        kv.feet(100),
        "single",
        amps(form["current"]),
        kv.volts(240),
        limit=kv.percent(2),
        level=kv.percent(80),
    )
    assert ours.finding() == theirs
    assert math.isclose(ours.verdict.level.percent, 80)
