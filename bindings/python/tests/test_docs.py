"""Every example in a docstring, of every public name and what it has."""

import doctest
import inspect

import pytest

import kingvalve as kv
from kingvalve import plot


def documented():
    """(name, object) of everything public."""
    for module in (kv, kv.batch, kv.check, plot):
        for name in getattr(module, "__all__", vars(module)):
            each = getattr(module, name)
            if name.startswith("_") or inspect.ismodule(each):
                continue
            yield from of(f"{module.__name__}.{name}".removeprefix("kingvalve."), each)


def of(name, each):
    """Itself and, where it is a class of ours, what it has."""
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


def arguments(each):
    return {name for name in inspect.signature(each).parameters if name not in ("self", "cls", "errors")}


WITHOUT_RESULT = ("Ledger.add", "Outcomes.add")
TAKING = {
    name: each
    for name, each in documented()
    if callable(each) and not isinstance(each, type) and not name.endswith("__new__") and arguments(each)
}


@pytest.mark.parametrize("name", TAKING)
def test_every_argument_is_explained(name):
    """What ``Parameters`` names is what the signature takes; ``Returns`` says what comes of it."""
    doc = inspect.cleandoc(TAKING[name].__doc__)
    assert "Parameters\n----------\n" in doc
    assert name in WITHOUT_RESULT or "Returns\n-------\n" in doc
    lines = doc.split("Parameters\n----------\n")[1].split("\n\n")[0].splitlines()
    named = {word.strip(" *") for line in lines if line and line[0] != " " for word in line.split(" : ")[0].split(",")}
    assert named - {"errors"} == arguments(TAKING[name])
