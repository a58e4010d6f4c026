"""What the tests share."""

import math

import pytest

import kingvalve as kv


def classes():
    """Every quantity class, by name."""
    found = {name: each for name, each in vars(kv).items() if isinstance(each, type) and issubclass(each, kv.Quantity)}
    del found["Quantity"]
    return found


def words():
    """Every (class, symbol, word) the Rust tables have."""
    return [(each, symbol, word) for each in classes().values() for symbol, word in each.units().items()]


@pytest.fixture
def refuses():
    """Calls `act`, which must raise `error`; checks that its text holds every one of `parts`, and returns the error."""

    def check(error, act, *parts):
        with pytest.raises(error) as caught:
            act()
        text = str(caught.value)
        missing = [part for part in parts if part not in text]
        assert not missing, f"{text!r} does not say {missing}"
        return caught.value

    return check


def relative(a, b):
    """How far `a` is from `b`, as a fraction of `b`; infinite where either is no number."""
    if not (math.isfinite(a) and math.isfinite(b)):
        return math.inf
    return abs(a - b) / abs(b)
