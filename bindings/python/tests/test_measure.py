"""Readings carry their doubt through every result, and a verdict says what it proves."""

import math

import pytest
from uncertainties import ufloat

import kingvalve as kv

GAUGE = kv.Instrument.resolution(kv.psi(0.1)).accuracy_percent_of_span(0.5, kv.psi(500)).named("digital gauge")
CLAMP = kv.Instrument.resolution(kv.delta_fahrenheit(0.1)).accuracy(kv.delta_fahrenheit(1)).named("pipe clamp")
SITE = kv.Site(elevation=kv.feet(130))
R454B = kv.Refrigerant("R-454B")


def test_plain_in_plain_out_read_in_measured_out():
    plain = R454B.superheat(SITE.absolute(kv.psig(119)), kv.fahrenheit(56.1))
    assert isinstance(plain, kv.TemperatureDifference)
    gauge, clamp = kv.Reading(kv.psig(119), GAUGE), kv.Reading(kv.fahrenheit(56.1), CLAMP)
    read = R454B.superheat(SITE.absolute(gauge), clamp)
    assert isinstance(read, kv.Measured)
    assert read.value == plain
    mixed = R454B.superheat(SITE.absolute(gauge), kv.fahrenheit(56.1))
    assert isinstance(mixed, kv.Measured)
    assert mixed.standard_uncertainty < read.standard_uncertainty


def test_superheat_agrees_with_the_uncertainties_package():
    """GUM by hand: step a/sqrt(12), limits a/sqrt(3); uncertainties 3.2.3 carries both through the secant slope."""
    u_gauge = math.hypot(0.1 / math.sqrt(12), 2.5 / math.sqrt(3))
    u_clamp = math.hypot(0.1 / math.sqrt(12), 1 / math.sqrt(3))
    dew = lambda psig: R454B.dew_temperature(SITE.absolute(kv.psig(psig))).fahrenheit
    p, t = ufloat(119, u_gauge), ufloat(56.1, u_clamp)
    slope = (dew(119.01) - dew(118.99)) / 0.02
    expected = t - (dew(119) + slope * (p - 119))
    found = R454B.superheat(SITE.absolute(kv.Reading(kv.psig(119), GAUGE)), kv.Reading(kv.fahrenheit(56.1), CLAMP))
    assert found.value.delta_fahrenheit == pytest.approx(expected.n, rel=1e-9)
    assert found.standard_uncertainty.delta_fahrenheit == pytest.approx(expected.s, rel=1e-6)
    assert sum(share.fraction for _, share in found.contributions) == pytest.approx(1, abs=1e-12)


def test_a_reading_less_itself_has_no_doubt():
    reading = kv.Reading(kv.psig(119), GAUGE).measured
    nothing = reading - reading
    assert nothing.value == kv.psi(0)
    assert nothing.standard_uncertainty == kv.psi(0)


def test_one_gauge_shares_its_error_and_two_do_not():
    def apart(first, second):
        a, b = kv.Reading(kv.psig(300), first), kv.Reading(kv.psig(299), second)
        return (a.measured - b.measured).standard_uncertainty

    other = kv.Instrument.resolution(kv.psi(0.1)).accuracy_percent_of_span(0.5, kv.psi(500))
    assert apart(GAUGE, GAUGE) < kv.psi(0.05) < apart(GAUGE, other)


@pytest.mark.parametrize(
    ("value", "name"), [(10.5, "within"), (2.0, "outside"), (4.6, "unresolved")]
)
def test_verdicts(value, name):
    limits = kv.Limits.between(kv.delta_fahrenheit(4), kv.delta_fahrenheit(25)).from_source("shop policy")
    read = kv.Measured.from_standard(kv.delta_fahrenheit(value), kv.delta_fahrenheit(0.9), "superheat")
    verdict = limits.judge(read)
    assert verdict.name == name
    assert str(verdict).lower().startswith(name)
    total = verdict.probability_within.fraction + verdict.probability_below.fraction + verdict.probability_above.fraction
    assert total == pytest.approx(1, abs=1e-12)
    match verdict:
        case kv.Verdict("within"):
            assert verdict.is_within
        case kv.Verdict("outside"):
            assert verdict.is_outside
        case kv.Verdict("unresolved"):
            assert verdict.is_unresolved
            assert verdict.settle


def test_repeats_reduce_scatter_only():
    step_only = kv.Instrument.resolution(kv.amperes(0.1))
    same = kv.Reading.repeated([kv.amperes(0.6)] * 5, step_only)
    assert same.standard_uncertainty == kv.Reading(kv.amperes(0.6), step_only).standard_uncertainty
    assert same.repeats == [kv.amperes(0.6)] * 5


@pytest.mark.parametrize(
    ("act", "error", "part"),
    [
        (lambda: kv.Reading(kv.psig(62), kv.Instrument.resolution(kv.psi(0))), kv.OutOfRange, "0 psi"),
        (lambda: kv.Reading(kv.psig(62), CLAMP), kv.WrongKind, "difference"),
        (lambda: kv.Reading(62, GAUGE), kv.WrongKind, "62"),
        (lambda: kv.Reading.repeated([], GAUGE), kv.WrongKind, "none"),
        (lambda: kv.Reading(kv.psig(math.nan), GAUGE), kv.OutOfRange, "finite"),
        (lambda: R454B.dew_temperature(kv.Reading(kv.psig(62), GAUGE)), kv.WrongKind, "site.absolute"),
        (lambda: SITE.absolute(kv.Reading(kv.psig(-20), GAUGE)), kv.OutOfRange, "vacuum"),
        (lambda: kv.Limits.between(kv.volts(250), kv.volts(200)), kv.Inconsistent, "not below"),
        (lambda: kv.Limits.at_least(kv.volts(200)).judge(kv.psi(3)), kv.WrongKind, "voltage"),
        (lambda: kv.Measured.from_standard(kv.volts(1), kv.volts(-1)), kv.OutOfRange, "-1 V"),
    ],
)
def test_bad_input(act, error, part):
    with pytest.raises(error) as caught:
        act()
    assert part in str(caught.value)
