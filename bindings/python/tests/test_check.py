"""The registry of checks: every example against its schema, by a validator of its own; dicts and text."""

import copy
import json

import jsonschema
import pytest

import kingvalve as kv

NAMES = kv.check.names()


def validator(name):
    schema = kv.check.schema(name)
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


@pytest.mark.parametrize("name", NAMES)
def test_the_example_is_valid_and_runs(name):
    example = kv.check.example(name)
    validator(name).validate(example)
    finding = kv.check.run(name, example)
    assert finding["check"] == name
    assert finding["text"]
    assert json.loads(kv.check.run(name, json.dumps(example))) == finding


def leaves(value, path=()):
    if isinstance(value, dict):
        for field, below in value.items():
            yield (*path, field)
            yield from leaves(below, (*path, field))
    elif isinstance(value, list):
        for at, below in enumerate(value):
            yield from leaves(below, (*path, at))


@pytest.mark.parametrize("name", NAMES)
def test_validator_and_library_refuse_the_same(name):
    """Each field misspelt, left out, or made a list: where the schema refuses, so does the library."""
    validate = validator(name)
    example = kv.check.example(name)
    refused = 0
    for *way, field in leaves(example):
        for change in ("misspelt", "left out", "a list"):
            broken = copy.deepcopy(example)
            place = broken
            for step in way:
                place = place[step]
            value = place.pop(field)
            if change == "misspelt":
                place[f"{field}_"] = value
            elif change == "a list" and not isinstance(value, list):
                place[field] = [value]
            if not validate.is_valid(broken):
                refused += 1
                with pytest.raises(kv.Error):
                    kv.check.run(name, broken)
    assert refused > 5


def test_a_misspelt_check_has_near_names():
    with pytest.raises(kv.UnknownName, match="did you mean superheat"):
        kv.check.run("superhaet", {})
    with pytest.raises(KeyError):
        kv.check.schema("nothing of the kind")


def test_an_error_names_the_field():
    example = kv.check.example("superheat")
    example["suction_pressure"]["value"]["unit"] = "psia"
    with pytest.raises(kv.Unreadable) as caught:
        kv.check.run("superheat", example)
    assert caught.value.field == "suction_pressure.value"


def test_text_gives_text():
    text = kv.check.run("superheat", json.dumps(kv.check.example("superheat")))
    assert isinstance(text, str)
    assert text.startswith('{"check":"superheat"')
