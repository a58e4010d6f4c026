"""Every example in a docstring, of every public name and what it has."""

import doctest
import inspect

import pytest

import kingvalve as kv


def documented():
    """(name, object) of everything public that shows an example."""
    for name, each in vars(kv).items():
        if name.startswith("_") or inspect.ismodule(each):
            continue
        yield name, each
        if isinstance(each, type) and each.__module__.startswith("kingvalve"):
            for inner, member in vars(each).items():
                if not inner.startswith("_") or inner == "__new__":
                    yield f"{name}.{inner}", getattr(member, "__func__", member)


EXAMPLES = {name: each for name, each in documented() if ">>>" in (getattr(each, "__doc__", None) or "")}


@pytest.mark.parametrize("name", EXAMPLES)
def test_example_runs(name):
    test = doctest.DocTestParser().get_doctest(EXAMPLES[name].__doc__, {"kv": kv}, name, name, 0)
    failed, attempted = doctest.DocTestRunner(verbose=False).run(test)
    assert attempted
    assert not failed


def members():
    for name, each in documented():
        # A class says in its own docstring how it is made.
        if "." in name and not name.endswith("__new__") and (callable(each) or inspect.isdatadescriptor(each)):
            yield name, each


def test_everything_says_what_it_is():
    bare = [name for name, each in members() if not (getattr(each, "__doc__", None) or "").strip()]
    assert bare == []


@pytest.mark.parametrize("name", [name for name, each in members() if callable(each) and "Parameters" in (each.__doc__ or "")])
def test_every_argument_is_explained(name):
    """What ``Parameters`` names is what the signature takes."""
    each = dict(documented())[name]
    signature = getattr(each, "__text_signature__", None)
    if not signature:
        pytest.skip("no signature to compare with")
    taken = {word.split("=")[0].strip(" )(*") for word in signature.split(",")} - {"", "/", "self", "cls", "$self", "errors"}
    lines = inspect.cleandoc(each.__doc__).split("Parameters\n----------\n")[1].split("\n\n")[0].splitlines()
    named = {word.strip(" *") for line in lines if line and line[0] != " " for word in line.split(" : ")[0].split(",")} - {"errors"}
    assert named == taken
