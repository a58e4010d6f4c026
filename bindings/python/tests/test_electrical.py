"""The run-capacitor check: facts of the trade (no source), and what bad input is answered with."""

import math

import pytest

import kingvalve as kv

COARSE = kv.Instrument.resolution(kv.amperes(0.1)).named("clamp meter")
TYPICAL = COARSE.accuracy_percent_of_reading(2).counts(5)


def check(rated, tolerance, volts, amps, meter):
    part = kv.RunCapacitor.rated(kv.microfarads(rated), kv.Tolerance(tolerance))
    return part.under_load(kv.volts(volts), kv.Reading(kv.amperes(amps), meter), kv.hertz(60))


def test_a_herm_section_counting_the_step_alone_and_with_a_typical_accuracy():
    firm = check(45, "±6 %", 354.4, 5.8, COARSE)
    assert firm.capacitance.value.microfarads == pytest.approx(5.8 / (2 * math.pi * 60 * 354.4) * 1e6, rel=1e-12)
    assert firm.verdict.is_within
    assert check(45, "±6 %", 354.4, 5.8, TYPICAL).verdict.is_unresolved


@pytest.mark.parametrize(("volts", "microfarads"), [(371.3, 4.29), (343.8, 4.63)])
def test_a_fan_section_the_step_cannot_decide(volts, microfarads):
    found = check(5, "±10 %", volts, 0.6, COARSE)
    assert found.capacitance.value.microfarads == pytest.approx(microfarads, abs=0.005)
    assert found.verdict.is_unresolved
    assert "0.1 A step" in str(found.verdict)
    assert "finer step" in found.verdict.settle
    assert found.verdict.dominant[1] > kv.percent(90)


def test_policy_is_judged_beside_the_rating():
    part = kv.RunCapacitor.rated(kv.microfarads(5), kv.Tolerance.percent(6)).policy(kv.Tolerance("±10 %"))
    found = part.under_load(kv.volts(370), kv.amperes(0.64), kv.hertz(60))
    assert found.verdict.is_outside
    assert found.policy_verdict.is_within
    assert found.part == part
    assert any("discharge" in caution for caution in found.cautions)
    assert part.under_load(kv.volts(370), kv.amperes(0), kv.hertz(60)).notes


@pytest.mark.parametrize(
    ("act", "error", "part"),
    [
        (lambda: check(5, "±10 %", 0, 0.6, COARSE), kv.OutOfRange, "0 V"),
        (lambda: check(5, "±10 %", -240, 0.6, COARSE), kv.OutOfRange, "-240 V"),
        (lambda: check(5, "±10 %", 240, -0.6, COARSE), kv.OutOfRange, "-0.6 A"),
        (lambda: check(5, "ten", 240, 0.6, COARSE), kv.Unreadable, "ten"),
        (
            lambda: kv.RunCapacitor.rated(kv.microfarads(5), kv.Tolerance("±6 %")).under_load(
                kv.volts(240), kv.amperes(0.6), kv.hertz(400)
            ),
            kv.OutOfRange,
            "400 Hz",
        ),
        (
            lambda: kv.RunCapacitor.rated(kv.microfarads(5), kv.Tolerance("±6 %")).under_load(
                240, kv.amperes(0.6), kv.hertz(60)
            ),
            kv.WrongKind,
            "240",
        ),
    ],
)
def test_bad_input(act, error, part):
    with pytest.raises(error) as caught:
        act()
    assert part in str(caught.value)
