"""Columns: numbers of any make in, numpy arrays out, row for row what one quantity gives."""

import copy
import math
import pickle
import sys
import threading

import numpy as np
import pandas as pd
import polars as pl
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra import numpy as hnp

import kingvalve as kv

R = kv.Refrigerant("R-454B")
SITE = kv.Site(elevation=kv.feet(130))
KELVINS = np.linspace(250.0, 320.0, 1234)
ONE = {
    "bubble_pressure": "pascals",
    "dew_pressure": "pascals",
    "bubble_density": "kilograms_per_cubic_meter",
    "dew_density": "kilograms_per_cubic_meter",
    "bubble_enthalpy": "joules_per_kilogram",
    "dew_enthalpy": "joules_per_kilogram",
}
INVERSE = {"bubble_temperature": "kelvins", "dew_temperature": "kelvins", "glide": "delta_kelvins", "latent_heat": "joules_per_kilogram"}


@pytest.mark.parametrize("name", ONE | INVERSE)
def test_a_column_is_its_rows_bit_for_bit(name):
    word = (ONE | INVERSE)[name]
    numbers = KELVINS if name in ONE else R.dew_pressure(kv.kelvins(KELVINS)).pascals
    make = kv.kelvins if name in ONE else kv.pascals
    method, plain = getattr(R, name), getattr(R.plain(), name)
    rows = [getattr(method(make(x)), word) for x in numbers.tolist()]
    assert getattr(method(make(numbers)), word).tolist() == rows
    assert plain(numbers).tolist() == rows
    assert [plain(x) for x in numbers.tolist()] == rows
    assert isinstance(plain(float(numbers[0])), float)


@pytest.mark.parametrize("name", ["superheat", "subcooling", "density"])
def test_two_columns_broadcast(name):
    p, t = np.array([[8e5], [9e5]]), np.array([290.0, 300.0, 310.0])
    word = "kilograms_per_cubic_meter" if name == "density" else "delta_kelvins"
    method = getattr(R, name)
    found = getattr(method(kv.pascals(p), kv.kelvins(t)), word)
    assert found.shape == (2, 3)
    for i in range(2):
        for j in range(3):
            one = method(kv.pascals(float(p[i, 0])), kv.kelvins(float(t[j])))
            assert found[i, j] == getattr(one, word)
    assert (getattr(method(kv.pascals(8e5), kv.kelvins(t)), word) == found[0]).all()
    assert (getattr(method(kv.pascals(p), kv.kelvins(290.0)), word) == found[:, :1]).all()
    assert (getattr(R.plain(), name)(p, t) == found).all()
    with pytest.raises(TypeError, match=r"\(2,\) and \(3,\)"):
        method(kv.pascals([8e5, 9e5]), kv.kelvins(t))


def test_states_of_columns():
    p, t = np.array([8e5, 9e5, np.nan]), np.array([290.0, 300.0, 310.0])
    found = R.state(kv.pascals(p), kv.kelvins(t))
    one = R.state(kv.pascals(8e5), kv.kelvins(290.0))
    for name, word in {
        "enthalpy": "joules_per_kilogram",
        "entropy": "joules_per_kilogram_kelvin",
        "isobaric_heat_capacity": "joules_per_kilogram_kelvin",
        "isochoric_heat_capacity": "joules_per_kilogram_kelvin",
        "speed_of_sound": "meters_per_second",
        "density": "kilograms_per_cubic_meter",
    }.items():
        column = getattr(getattr(found, name), word)
        assert column[0] == getattr(getattr(one, name), word)
        assert math.isnan(column[2])
    assert R.dew_state(kv.kelvins(t)).enthalpy.joules_per_kilogram[1] == R.dew_state(kv.kelvins(300.0)).enthalpy.joules_per_kilogram
    assert R.bubble_state(kv.kelvins(t), reference="ASHRAE").enthalpy.joules_per_kilogram[0] != R.bubble_state(kv.kelvins(290.0)).enthalpy.joules_per_kilogram
    with pytest.raises(kv.UnknownName, match="IIR"):
        R.state(kv.pascals(8e5), kv.kelvins(290.0), reference="mine")


NUMBERS = [250.0, 260.0, 270.0]


@pytest.mark.parametrize(
    "given",
    [
        NUMBERS,
        tuple(NUMBERS),
        range(250, 271, 10),
        np.array(NUMBERS, dtype=np.float32),
        np.array(NUMBERS, dtype=np.int64),
        np.array(NUMBERS, dtype=">f8"),
        np.array(NUMBERS, dtype=object),
        np.array(NUMBERS).reshape(3, 1)[:, 0],
        np.repeat(NUMBERS, 2)[::2],
        np.array(NUMBERS[::-1])[::-1],
        np.frombuffer(b"x" + np.array(NUMBERS).tobytes(), dtype=np.uint8)[1:].view(np.float64),
        pd.Series(NUMBERS),
        pd.Series([250, 260, 270], dtype="Int64"),
        pl.Series(NUMBERS),
        pl.Series([250, 260, 270]),
        memoryview(np.array(NUMBERS)),
    ],
    ids=lambda given: type(given).__name__ + str(getattr(given, "dtype", "")),
)
def test_numbers_of_every_make(given):
    assert R.dew_pressure(kv.kelvins(given)).pascals.tolist() == [R.dew_pressure(kv.kelvins(x)).pascals for x in NUMBERS]
    assert R.plain().dew_pressure(given).tolist() == R.dew_pressure(kv.kelvins(given)).pascals.tolist()


@pytest.mark.parametrize(
    "given",
    [
        [250.0, None, 270.0],
        np.ma.array([250.0, 1.0, 270.0], mask=[0, 1, 0]),
        pd.Series([250, None, 270], dtype="Int64"),
        pl.Series([250.0, None, 270.0]),
        [250.0, math.nan, 270.0],
    ],
    ids=lambda given: type(given).__name__,
)
def test_what_is_missing_stays_missing(given):
    found = R.dew_pressure(kv.kelvins(given)).pascals
    assert np.isnan(found).tolist() == [False, True, False]


@pytest.mark.parametrize(
    "given",
    [["a", "b"], ["1.0"], [True, False], np.array(["1"]), np.array([1j]), np.array(["2020-01-01"], dtype="M8[D]"),
     [[1.0], [1.0, 2.0]], [kv.psig(1)], {"a": 1.0}, [object()], "62", b"62", None, object()],
    ids=repr,
)
def test_what_is_no_number_is_refused(given):
    with pytest.raises(TypeError):
        kv.kelvins(given)
    with pytest.raises(TypeError):
        R.plain().dew_pressure(given)


def test_shapes():
    assert R.dew_pressure(kv.kelvins([])).pascals.shape == (0,)
    assert R.dew_pressure(kv.kelvins(np.empty((0, 3)))).pascals.shape == (0, 3)
    assert R.plain().superheat([], 300.0).shape == (0,)
    assert isinstance(kv.kelvins(np.array(300.0)), kv.Temperature)
    assert isinstance(R.plain().dew_pressure(np.array(300.0)), float)
    cube = KELVINS[:24].reshape(2, 3, 4)
    assert R.dew_pressure(kv.kelvins(np.asfortranarray(cube))).pascals.tolist() == R.dew_pressure(kv.kelvins(cube)).pascals.tolist()


def test_errors_name_the_row_or_become_nan():
    column = kv.kelvins([math.nan, 300.0, 1e4, 2e4])
    with pytest.raises(kv.OutOfRange, match=r"^row 2: .*R-454B") as caught:
        R.dew_pressure(column)
    assert caught.value.field == "row 2"
    assert np.isnan(R.dew_pressure(column, errors="nan").pascals).tolist() == [True, False, True, True]
    with pytest.raises(kv.OutOfRange, match=r"^row \(1, 0\): "):
        R.superheat(kv.pascals([[8e5], [1e12]]), kv.kelvins([300.0, 301.0]))
    with pytest.raises(kv.OutOfRange, match="^row 1: "):
        R.state(kv.pascals([8e5, -1.0]), kv.kelvins(300.0))
    plain = R.plain()
    with pytest.raises(kv.OutOfRange, match="^row 700: "):
        plain.dew_temperature(np.where(np.arange(1000) == 700, math.inf, 8e5))
    assert math.isnan(plain.dew_temperature(-1.0, errors="nan"))
    assert math.isnan(plain.dew_temperature(math.nan))
    assert math.isnan(R.dew_temperature(kv.pascals(-1.0), errors="nan").kelvins)
    with pytest.raises(kv.OutOfRange):
        plain.dew_temperature(-1.0)
    with pytest.raises(TypeError, match="raise"):
        plain.dew_temperature(8e5, errors="ignore")


def test_plain_numbers_in_units_said_once():
    plain = R.plain(pressure="psig", temperature="°F", density="lb/ft³", energy="Btu/lb", site=SITE)
    one = R.superheat(SITE.absolute(kv.psig(62)), kv.fahrenheit(55))
    assert plain.superheat(62.0, 55.0) == one.delta_fahrenheit
    assert plain.superheat([62, 62.0], 55).tolist() == [one.delta_fahrenheit] * 2
    assert plain.dew_temperature(62) == R.dew_temperature(SITE.absolute(kv.psig(62))).fahrenheit
    assert plain.bubble_pressure(75.0) == pytest.approx(SITE.gauge(R.bubble_pressure(kv.fahrenheit(75))).psig, rel=1e-15)
    with pytest.raises(TypeError, match="site"):
        R.plain(pressure="psig")
    with pytest.raises(ValueError, match="units of"):
        R.plain(temperature="furlong")


def test_arithmetic_row_by_row():
    a, b = [50.0, 60.0], [40.0, 45.0]
    difference = kv.fahrenheit(a) - kv.fahrenheit(b)
    assert difference.delta_fahrenheit.tolist() == [(kv.fahrenheit(x) - kv.fahrenheit(y)).delta_fahrenheit for x, y in zip(a, b, strict=True)]
    assert (kv.fahrenheit(a) - kv.fahrenheit(40)).kind == "temperature difference"
    assert (kv.fahrenheit(100) - kv.fahrenheit(a)).delta_fahrenheit == pytest.approx([50, 40])
    assert (kv.fahrenheit(a) + kv.delta_fahrenheit(b)).fahrenheit == pytest.approx([90, 105])
    assert (2 * kv.pounds([1, 2])).pounds == pytest.approx([2, 4])
    assert (kv.pounds(3) * np.array([1, 2])).pounds == pytest.approx([3, 6])
    assert (np.array([1, 2]) * kv.pounds([1, 2])).pounds == pytest.approx([1, 4])
    assert (kv.pounds([1, 2]) / kv.pounds(2)).tolist() == [0.5, 1.0]
    assert (kv.pounds([1, 2]) / kv.cubic_feet(1)).pounds_per_cubic_foot == pytest.approx([1, 2])
    assert (-kv.psi([1, 2])).psi == pytest.approx([-1, -2])
    assert (kv.psig([1, 3]) > kv.psig(2)).tolist() == [False, True]
    assert (kv.psig([1, 3]) == kv.psig([1, 2])).tolist() == [True, False]
    for refused in (
        lambda: kv.psig([1]) + kv.psia(1),
        lambda: kv.psia(1) - kv.psig([1]),
        lambda: kv.fahrenheit([1]) + kv.fahrenheit([1]),
        lambda: kv.pounds([1]) + 1,
        lambda: kv.psig([1]) < kv.psia([1]),
        lambda: kv.psig([1]) * 2,
    ):
        with pytest.raises(TypeError, match=r"cannot"):
            refused()


def test_a_column_as_a_container():
    column = kv.psig(np.array([1.0, 2.0, 3.0]))
    assert len(column) == 3
    assert column[1] == kv.psig(2)
    assert column[1:].psig.tolist() == [2, 3]
    assert column[np.array([True, False, True])].psig.tolist() == [1, 3]
    assert list(column) == [kv.psig(1), kv.psig(2), kv.psig(3)]
    assert kv.Column([kv.psig(1), kv.psig(2)]).psig == pytest.approx([1, 2], rel=1e-15)
    for again in (pickle.loads(pickle.dumps(column)), copy.copy(column), copy.deepcopy(column)):
        assert (again == column).all()
    assert repr(column) == "psig(array([1., 2., 3.]))"
    assert column.to("kPag") == pytest.approx(column.kilopascals_gauge)
    assert "psig" in dir(column)
    with pytest.raises(AttributeError, match="psia"):
        column.psia  # noqa: B018
    with pytest.raises(TypeError):
        hash(column)
    with pytest.raises(TypeError, match="one kind"):
        kv.Column([kv.psig(1), kv.psia(1)])
    with pytest.raises(IndexError):
        column[3]


def test_no_copy_of_float64():
    numbers = np.array([62.0, 70.0])
    assert np.shares_memory(kv.psig(numbers).psig, numbers)
    frozen = numbers.copy()
    frozen.flags.writeable = False
    assert kv.psig(frozen).psig.tolist() == numbers.tolist()


def test_readings_and_columns_do_not_mix():
    gauge = kv.Instrument.resolution(kv.psi(0.1))
    reading = SITE.absolute(kv.Reading(kv.psig(119), gauge))
    with pytest.raises(TypeError, match="do not go together"):
        R.superheat(reading, kv.fahrenheit([50, 60]))
    with pytest.raises(TypeError, match="column of gauge pressure"):
        R.dew_temperature(kv.psig([62]))


@given(
    hnp.arrays(
        st.sampled_from([np.float64, np.float32, np.int16]),
        hnp.array_shapes(min_dims=1, max_dims=3, min_side=0, max_side=5),
    ),
    st.sampled_from(["bubble_pressure", "dew_temperature", "dew_density", "glide", "bubble_enthalpy"]),
)
def test_any_array_gives_its_shape_and_no_more_than_nan(array, name):
    found = getattr(R.plain(), name)(array, errors="nan")
    assert found.shape == array.shape
    assert not np.isinf(found).any()
    for number, answer in zip(array.astype(float).flat, found.flat, strict=True):
        one = getattr(R.plain(), name)(float(number), errors="nan")
        assert one == answer or (math.isnan(one) and math.isnan(answer))


@given(
    st.recursive(st.none() | st.booleans() | st.floats() | st.text(max_size=3) | st.binary(max_size=3) | st.complex_numbers(),
                 lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=2), inner, max_size=2), max_leaves=5)
)
def test_anything_else_is_an_answer_or_an_exception(given):
    for act in (kv.psig, kv.kelvins, R.plain().dew_pressure, lambda x: R.plain().superheat(x, 300.0), kv.Column, kv.Money, R.gwp, kv.Visit.from_json):
        try:
            act(given)
        except (TypeError, ValueError, KeyError, OverflowError):
            pass


def test_threads_give_the_same():
    alone = R.plain().dew_pressure(KELVINS)
    wrong = []

    def work():
        for _ in range(20):
            if not (R.plain().dew_pressure(KELVINS) == alone).all():
                wrong.append(1)

    threads = [threading.Thread(target=work) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert not wrong


@pytest.mark.skipif(sys.platform != "linux", reason="reads /proc")
def test_memory_stays_flat():
    def resident():
        with open("/proc/self/statm") as statm:
            return int(statm.read().split()[1]) * 4096

    plain, q, row = R.plain(), kv.kelvins(300.0), np.array([300.0, 301.0])

    def work(calls):
        for _ in range(calls):
            plain.dew_pressure(300.0)
            R.dew_pressure(q)
        for _ in range(calls // 100):
            plain.dew_pressure(row)
            R.dew_pressure(kv.kelvins(row)).psia  # noqa: B018
            plain.dew_pressure(-1.0, errors="nan")

    work(20_000)
    before = resident()
    work(500_000)
    assert resident() - before < 4_000_000


def test_every_word_of_every_kind():
    for each in {kind for kind in vars(kv).values() if isinstance(kind, type) and issubclass(kind, kv.Quantity)} - {kv.Quantity}:
        for symbol, word in each.units().items():
            column = getattr(kv, word)([1.5, 2.5])
            assert getattr(column, word).tolist() == [1.5, 2.5]
            for other_symbol, other in each.units().items():
                rows = [getattr(getattr(kv, word)(x), other) for x in (1.5, 2.5)]
                # In its own unit it is the array it was made of, untouched.
                assert getattr(column, other).tolist() == ([1.5, 2.5] if other == word else rows)
                assert column.to(other_symbol).tolist() == getattr(column, other).tolist()
            assert column[0] == getattr(kv, word)(1.5), symbol
