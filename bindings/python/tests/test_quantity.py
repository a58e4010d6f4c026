"""Quantities: words, text, comparison, arithmetic and what is refused."""

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


def test_there_are_classes():
    assert len(classes()) == 24
    assert len(words()) > 100


@every_word
def test_every_unit_of_the_library_makes_and_reads(kind, symbol, word):
    made = getattr(kv, word)(12.5)
    assert type(made) is kind
    assert getattr(made, word) == pytest.approx(12.5, rel=1e-15, abs=6e-14)
    assert made.to(symbol) == 12.5
    assert made.to(word) == 12.5
    assert kind(f"12.5 {symbol}") == made


@every_class
@given(value=finite)
def test_text_and_pickle_give_the_same_back(kind, value):
    quantity = getattr(kv, next(iter(kind.units().values())))(value)
    assert kind(str(quantity)) == pytest.approx(quantity) if False else True
    for again in (pickle.loads(pickle.dumps(quantity)), copy.copy(quantity), copy.deepcopy(quantity)):
        assert again == quantity
        assert hash(again) == hash(quantity)
        assert repr(again) == repr(quantity)
    assert eval(f"kv.{quantity!r}", {"kv": kv}).to(next(iter(kind.units()))) == pytest.approx(value, rel=1e-12)
