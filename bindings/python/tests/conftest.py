"""What the tests share."""

import math
import os

import pytest
from hypothesis import settings

import kingvalve as kv

# The same examples every time where a failure must be repeatable; new ones at the desk.
settings.register_profile("ci", derandomize=True, deadline=None)
settings.register_profile("desk", deadline=None)
settings.load_profile("ci" if os.environ.get("CI") else "desk")


_told = []


@pytest.fixture
def tell():
    """Says a line at the end of the run, whether tests pass or fail."""
    return _told.append


def pytest_terminal_summary(terminalreporter):
    if _told:
        terminalreporter.section("against the reference libraries")
        for line in _told:
            terminalreporter.write_line(line)


def classes():
    """Every quantity class, by name."""
    found = {name: each for name, each in vars(kv).items() if isinstance(each, type) and issubclass(each, kv.Quantity)}
    del found["Quantity"]
    return found


def words():
    """Every (class, symbol, word) the Rust tables have."""
    return [(each, symbol, word) for each in classes().values() for symbol, word in each.units().items()]


def relative(a, b):
    """How far `a` is from `b`, as a fraction of `b`; infinite where either is no number."""
    if not (math.isfinite(a) and math.isfinite(b)):
        return math.inf
    return abs(a - b) / abs(b)
