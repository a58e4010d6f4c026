"""The stateful rooms: what is in the system, what to do next, how it leaks, simulation, risk, combining."""

import datetime
import json
import math
import pickle
import statistics

import hypothesis.strategies as st
import pytest
from hypothesis import given, settings

import kingvalve as kv

SITE = kv.Site(elevation=kv.feet(130))
R = kv.Refrigerant("R-454B")
SYSTEM = kv.System.of_plate(R, kv.pounds(6.5))
GAUGE = kv.Instrument.resolution(kv.psi(0.1)).accuracy_percent_of_span(0.5, kv.psi(500)).named("gauge")
CLAMP = kv.Instrument.resolution(kv.delta_fahrenheit(0.1)).accuracy(kv.delta_fahrenheit(1)).named("clamp")
STEP = kv.Measured.from_standard(kv.pounds(0.5), kv.ounces(0.2), "scale")


def standing(psig, fahrenheit=88):
    return kv.StandingReading.at(SITE.absolute(kv.Reading(kv.psig(psig), GAUGE)), kv.Reading(kv.fahrenheit(fahrenheit), CLAMP))


def width(estimate):
    low, high = estimate.ninety
    return high - low


PRIOR = kv.Inventory.prior(SYSTEM)
ARRIVAL = PRIOR.standing(standing(62))


def near(one, other, rel=1e-9):
    """Two estimates alike; what was read back from text differs in the last bits."""
    ends = [(one.median, other.median), *zip(one.half, other.half, strict=True), *zip(one.ninety, other.ninety, strict=True)]
    return all(b * (1 - rel) <= a <= b * (1 + rel) for a, b in ends)


@settings(max_examples=8)
@given(
    psig=st.floats(20, 120),
    more=st.lists(
        st.one_of(st.floats(0.1, 0.6).map(lambda x: ("weighed_in", kv.pounds(x))), st.just(("evacuated", None))), max_size=3
    ),
)
def test_an_inventory_is_a_plain_value(psig, more):
    known = PRIOR.standing(standing(psig))
    for name, what in more:
        known = getattr(known, name)(what)
    again = kv.Inventory.from_json(known.to_json())
    assert again == known == pickle.loads(pickle.dumps(known))
    assert near(again.now, known.now)
    assert [str(each) for each in again.contributions] == [str(each) for each in known.contributions]
    low, high = known.now.ninety
    inner, outer = known.now.half
    assert low <= inner <= known.now.median <= outer <= high
    assert str(known.now.median.pounds)[:3]
    assert len(known.contributions) == 1 + len(more)


def test_readings_make_it_surer():
    known = ARRIVAL.weighed_in(STEP)
    assert width(ARRIVAL.now) < width(PRIOR.now)
    assert known.added == kv.pounds(0.5)
    assert known.now.median > ARRIVAL.now.median
    after = known.standing(standing(114))
    assert width(after.volume) < width(known.volume)
    assert after.conflict is None
    assert after != known
    assert ARRIVAL == PRIOR.standing(standing(62))
    missing = after.missing(kv.pounds(6.5))
    assert missing.median == kv.pounds(6.5) - after.now.median
    assert known.removed(STEP).added == kv.pounds(0)
    assert "lb" in after._repr_html_()


def test_what_contradicts_is_named():
    flat = ARRIVAL.weighed_in(kv.Measured.from_standard(kv.pounds(0.5), kv.ounces(0.2), "scale")).standing(standing(62.5))
    assert flat.conflict == "pressure_too_low"
    assert PRIOR.evacuated().is_evacuated
    assert not PRIOR.is_evacuated
    full = kv.FullCharge(kv.delta_fahrenheit(10), kv.delta_fahrenheit(10))
    assert PRIOR.running(kv.RunningReading.of(kv.delta_fahrenheit(25), kv.delta_fahrenheit(6), full)).running_says == "about"


@pytest.mark.parametrize("text", ["{}", "[]", "", "null", '{"now": 1}'])
def test_no_inventory(text):
    with pytest.raises(kv.Unreadable, match="inventory"):
        kv.Inventory.from_json(text)


def test_one_temperature_or_several():
    parts = [kv.Part.room("outdoor unit", (kv.liters(4), kv.liters(6))), kv.Part.room("indoor coil", (kv.liters(3), kv.liters(4)))]
    system = SYSTEM.with_parts(parts)
    known = kv.Inventory.prior(system)
    assert near(known.expect_standing(kv.fahrenheit(80)), known.expect_standing([kv.fahrenheit(80), kv.fahrenheit(80)]))
    with pytest.raises(kv.Inconsistent):
        known.expect_standing([kv.fahrenheit(80)] * 3)
    for wrong in (80, "80 °F", kv.delta_fahrenheit(80), None):
        with pytest.raises(TypeError):
            known.expect_standing(wrong)
    with pytest.raises(kv.WrongKind, match="gauge|absolute"):
        kv.StandingReading.at(kv.psig(62), kv.fahrenheit(88))


def test_a_plan_names_every_reason_to_stop():
    flat = ARRIVAL.weighed_in(STEP).standing(standing(62.5))
    assert flat.conflict == "pressure_too_low"
    assert next_step(flat).action.because == "readings_disagree"


def next_step(known=ARRIVAL, **how):
    how = {"metering": "valve", "cylinder": kv.pounds(9.5), "before": kv.Before.all_fine(), "outdoor_coil": "clean"} | how
    return kv.Plan.next(known, SITE, **how)


def test_the_plan():
    assert kv.Plan.next(ARRIVAL, SITE, metering="valve", cylinder=kv.pounds(9.5)).action.do == "rule_out"
    weigh = next_step(standing_at=kv.fahrenheit(88))
    assert weigh.action.do == "weigh"
    assert weigh.action.step == kv.pounds(0.5)
    assert weigh.action.form == "liquid_throttled"
    assert weigh.now == ARRIVAL.now
    assert kv.Response.standing(weigh.expected_standing, weigh.expected_standing.median).is_as_predicted
    stays = kv.Response.standing(weigh.expected_standing, kv.psia(76))
    assert not stays.is_as_predicted
    assert stays.alternatives
    assert next_step(as_predicted=False).action.because == "not_as_predicted"
    assert next_step(cylinder=kv.pounds(0)).action.because == "cylinder_empty"
    with pytest.raises(kv.OutOfRange, match="cylinder on the scale holds"):
        next_step(step=kv.pounds(10))
    with pytest.raises(kv.UnknownName, match="dry_steady"):
        next_step(outdoor_coil="dry_stedy")


def test_air_that_was_drawn_in_comes_first():
    plan = next_step(PRIOR.standing(standing(-5)))
    assert plan.action.do == "repair_and_evacuate"
    assert plan.action.air.word == "drawn_in"
    assert plan.action.air.next == plan.next_steps
    assert any("Test gas" in each or "nitrogen" in each.lower() for each in plan.cautions)
    assert plan.action.step is None


def test_on_target_by_a_verdict():
    limits = kv.Limits.between(kv.delta_fahrenheit(8), kv.delta_fahrenheit(12))
    words = {4: ("too_little", "too_much"), 10: ("met", "met"), 20: ("too_much", "too_little")}
    for value, (by_subcooling, by_superheat) in words.items():
        verdict = limits.judge(kv.Measured.from_standard(kv.delta_fahrenheit(value), kv.delta_fahrenheit(0.2), "probe"))
        assert kv.OnTarget.by_subcooling(verdict) == by_subcooling
        assert kv.OnTarget.by_superheat(verdict) == by_superheat
    with pytest.raises(TypeError):
        kv.OnTarget.by_subcooling(kv.Limits.at_least(kv.volts(1)).judge(kv.volts(2)))


CHARGES = [("2025-05-20", kv.pounds(2)), ("2025-08-12", kv.pounds(0.8)), ("2026-05-28", kv.pounds(2.6))]


@pytest.mark.parametrize(
    "dated",
    [datetime.date.fromisoformat, str, lambda day: datetime.datetime.fromisoformat(f"{day}T09:30")],
    ids=["date", "text", "datetime"],
)
def test_days_of_every_make(dated):
    leak = kv.LeakRate.from_charges([(dated(day), mass) for day, mass in CHARGES], kv.ounces(4))
    days = (datetime.date(2026, 5, 28) - datetime.date(2025, 5, 20)).days
    assert leak.rate.value.pounds_per_year == pytest.approx(3.4 / days * 365, rel=1e-12)
    assert [span[:2] for span in leak.spans] == [
        (datetime.date(2025, 5, 20), datetime.date(2025, 8, 12)),
        (datetime.date(2025, 8, 12), datetime.date(2026, 5, 28)),
    ]


@pytest.mark.parametrize("day", ["2025-13-01", "20 May", 20250520, None, ""])
def test_no_day(day):
    with pytest.raises((TypeError, ValueError)):
        kv.LeakRate.from_charges([(day, kv.pounds(1)), ("2026-05-28", kv.pounds(1))], kv.ounces(4))


@settings(max_examples=20)
@given(rate=st.floats(0.1, 3), charge=st.floats(4, 12))
def test_a_decline_crosses_where_it_says(rate, charge):
    decline = kv.Decline.of("2026-01-01", kv.pounds(charge), kv.pounds_per_year(rate))
    limit = kv.pounds(0.75 * charge)
    day = decline.falls_below(limit, kv.years(200)).likely
    assert day is not None
    one_day = datetime.timedelta(days=1)
    assert decline.left_on(day + one_day)[0] <= limit * (1 + 1e-9)
    assert decline.left_on(day - one_day)[1] >= limit * (1 - 1e-9)


def test_a_trend_of_any_kind():
    days = [datetime.date(2026, 5, 1) + datetime.timedelta(days=each) for each in range(0, 70, 7)]
    trend = kv.Trend.of([(day, kv.delta_fahrenheit(11 - 0.05 * (day - days[0]).days)) for day in days])
    crossing = trend.crosses(kv.delta_fahrenheit(6), kv.years(1))
    assert crossing.likely == datetime.date(2026, 5, 1) + datetime.timedelta(days=100)
    assert crossing.earliest <= crossing.likely <= crossing.latest
    low, high = trend.on(days[-1])
    assert low.delta_fahrenheit == pytest.approx(11 - 0.05 * 63, abs=1e-6)
    assert type(low) is kv.TemperatureDifference
    for make in (kv.psia, kv.fahrenheit, kv.amperes, kv.kilowatts):
        kind = type(make(1))
        assert type(kv.Trend.of([(day, make(10 + at)) for at, day in enumerate(days)]).on(days[0])[0]) is kind
    with pytest.raises(kv.WrongKind):
        kv.Trend.of([(days[0], kv.psia(1)), (days[1], kv.fahrenheit(1)), (days[2], kv.psia(3))])
    with pytest.raises(kv.WrongKind):
        trend.crosses(kv.psia(1))


def test_the_rules():
    low = kv.leak_threshold("part84", "comfort_cooling")
    assert low.gwp_above == 53
    assert low.applies_to(kv.pounds(42), R.gwp("ar4"))
    rate = kv.rolling_leak_rate(CHARGES, "2026-05-28", kv.pounds(42), verified=datetime.date(2025, 5, 19))
    assert 0 < rate.percent < 20


METER = kv.Instrument.resolution(kv.volts(0.1)).accuracy_percent_of_reading(1)
AMMETER = kv.Instrument.resolution(kv.amperes(0.01)).accuracy_percent_of_reading(2)


def simulated(seed, draws=4000):
    simulation = kv.Simulation(seed=seed, draws=draws)
    simulation.input(kv.Reading(kv.volts(240), METER))
    simulation.input(kv.Reading(kv.amperes(10), AMMETER))
    return simulation.run(lambda v, i: v * i)


def test_a_simulation_answers_the_same_by_the_same_seed():
    one, again, other = simulated(7), simulated(7), simulated(8)
    assert (one.mean, one.standard_uncertainty, one.symmetric()) == (again.mean, again.standard_uncertainty, again.symmetric())
    assert one.mean != other.mean
    assert type(one.mean) is kv.Power
    assert one.draws == 4000
    known = kv.Reading(kv.volts(240), METER), kv.Reading(kv.amperes(10), AMMETER)
    linear = kv.real_power(*known, kv.percent(100), "single")
    assert one.mean.watts == pytest.approx(linear.value.watts, rel=5e-3)
    assert one.standard_uncertainty.watts == pytest.approx(linear.standard_uncertainty.watts, rel=0.1)
    apart = one.agreement(linear, digits=1)
    assert apart.holds == (max(abs(apart.low.watts), abs(apart.high.watts)) <= apart.tolerance.watts)
    low, high = one.shortest()
    wide = one.symmetric(kv.percent(99))
    assert wide[0] <= low < one.mean < high <= wide[1]
    assert one.probability_within(kv.Limits.between(low, high)).percent == pytest.approx(95, abs=0.5)
    assert one.measured().value == one.mean


def test_a_model_that_fails():
    simulation = kv.Simulation(seed=1, draws=10)
    simulation.input(kv.volts(1))

    class Mine(Exception):
        pass

    def bad(draw):
        raise Mine("here")

    with pytest.raises(Mine, match="here"):
        simulation.run(bad)
    wrong = (
        lambda draw: "1 V",
        lambda draw: None,
        lambda draw, more: draw,
        lambda draw: kv.volts(1),
        lambda draw: kv.volts([1, 2]),
    )
    for model in wrong:
        with pytest.raises(TypeError):
            simulation.run(model)
    with pytest.raises(kv.Inconsistent, match="not a finite number"):
        simulation.run(lambda draw: draw * math.nan)


@given(st.lists(st.tuples(st.floats(4, 6), st.floats(0.01, 0.5)), min_size=2, max_size=6))
def test_combining_is_the_weighted_mean(readings):
    measured = [kv.Measured.from_standard(kv.microfarads(x), kv.microfarads(u), f"meter {at}") for at, (x, u) in enumerate(readings)]
    found = kv.Combined.of(measured)
    weights = [1 / u**2 for _, u in readings]
    mean = sum(w * x for w, (x, _) in zip(weights, readings, strict=True)) / sum(weights)
    assert found.mean.value.microfarads == pytest.approx(mean, rel=1e-9)
    assert [each.fraction for each in found.weights] == pytest.approx([w / sum(weights) for w in weights], rel=1e-9)
    chi = sum(w * (x - mean) ** 2 for w, (x, _) in zip(weights, readings, strict=True))
    assert found.chi_square == pytest.approx(chi, rel=1e-6, abs=1e-9)
    assert 0 <= found.chance.fraction <= 1
    assert found.is_consistent == (not found.disagreements)
    for each in found.disagreements:
        assert each.first < each.second < len(readings)


def test_kinds_are_not_mixed():
    with pytest.raises(kv.WrongKind):
        kv.Combined.of([kv.microfarads(5), kv.volts(5)])
    with pytest.raises(kv.WrongKind):
        kv.Limits.at_least(kv.volts(1)).judge_knowing(kv.Prior.normal(kv.amperes(1), kv.amperes(1)), kv.volts(1))
    with pytest.raises(kv.WrongKind):
        kv.Acceptance(kv.Limits.at_least(kv.volts(1))).accepts(kv.amperes(1))


@given(value=st.floats(4, 6), guard=st.floats(0, 0.4))
def test_risks(value, guard):
    limits = kv.Limits.between(kv.microfarads(4.7), kv.microfarads(5.3))
    rule = kv.Acceptance(limits).guarded(kv.microfarads(guard)) if guard < 0.3 else kv.Acceptance(limits)
    read = kv.Measured.from_standard(kv.microfarads(value), kv.microfarads(0.1), "meter")
    inside = 4.7 + rule.guard.microfarads <= value <= 5.3 - rule.guard.microfarads
    assert rule.accepts(read) == inside
    whose, risk = rule.specific_risk(read)
    assert whose == ("consumer" if inside else "producer")
    normal = statistics.NormalDist(value, 0.1)
    conforms = normal.cdf(5.3) - normal.cdf(4.7)
    assert risk.fraction == pytest.approx(1 - conforms if inside else conforms, abs=1e-9)


def test_knowing_more_than_the_reading():
    limits = kv.Limits.at_least(kv.microfarads(4.7))
    read = kv.Measured.from_standard(kv.microfarads(4.6), kv.microfarads(0.2), "meter")
    prior = kv.Prior.normal(kv.microfarads(5), kv.microfarads(0.1)).from_source("an invented stock")
    alone, knowing = limits.judge(read), limits.judge_knowing(prior, read)
    assert knowing.probability_within > alone.probability_within
    weight = [1 / 0.2**2, 1 / 0.1**2]
    both = statistics.NormalDist((4.6 * weight[0] + 5 * weight[1]) / sum(weight), math.sqrt(1 / sum(weight)))
    assert knowing.probability_within.fraction == pytest.approx(1 - both.cdf(4.7), rel=1e-6)


def test_doubt_is_carried():
    factor = kv.Measured.from_standard(kv.percent(93), kv.percent(1), "meter")
    power = kv.real_power(kv.volts(240), kv.amperes(10), factor, "single")
    assert power.standard_uncertainty.watts == pytest.approx(24)
    dry = kv.Reading(kv.fahrenheit(75), CLAMP)
    air = kv.MoistAir.from_wet_bulb(dry, kv.Reading(kv.fahrenheit(63), CLAMP), SITE)
    plain = kv.MoistAir.from_wet_bulb(kv.fahrenheit(75), kv.fahrenheit(63), SITE)
    assert air.enthalpy.value == plain.enthalpy
    assert isinstance(plain.enthalpy, kv.SpecificEnergy)
    flow = kv.velocity_from_pressure(kv.inches_of_water(0.05), air)
    assert flow.standard_uncertainty > kv.feet_per_minute(0)
    assert flow.value == kv.velocity_from_pressure(kv.inches_of_water(0.05), plain)


def test_a_leak_is_pressure_times_flow():
    through = kv.psi(1) * kv.cubic_meters_per_second(1)
    assert type(through) is kv.Throughput
    assert through.pascal_cubic_meters_per_second == pytest.approx(6894.757293168361)
    assert kv.cubic_meters_per_second(1) * kv.psi(1) == through


def test_a_decay_log_is_two_columns():
    minutes = list(range(0, 60, 5))
    microns = [306 + 52 * each for each in minutes]
    log = kv.DecayLog(kv.minutes(minutes), kv.microns(microns), kv.Instrument.resolution(kv.delta_microns(1)))
    assert log.times.minutes.tolist() == pytest.approx(minutes)
    assert log.pressures.microns.tolist() == pytest.approx(microns)
    assert len(log) == 12
    with pytest.raises(kv.OutOfRange, match="log more often"):
        kv.DecayLog(kv.minutes(minutes[:4]), kv.microns(microns[:4]), kv.Instrument.resolution(kv.delta_microns(1)))
    with pytest.raises(kv.Error):
        kv.DecayLog(kv.minutes([0, 5]), kv.microns([306, math.nan]), kv.Instrument.resolution(kv.delta_microns(1)))
    with pytest.raises((kv.Error, ValueError)):
        kv.DecayLog(kv.minutes([0, 5]), kv.microns([306]), kv.Instrument.resolution(kv.delta_microns(1)))


def test_an_outlook_from_the_shop():
    rates = kv.demo().record["rates"]
    card = kv.RateCard.from_json(rates)
    situation = kv.Situation("R-454B", kv.pounds(5.5), kv.pounds(6.8), replacement=next(iter(rates["replacements"])))
    prices = kv.Prices.from_card(card, situation)
    assert kv.Prices.from_json(prices.to_json()) == prices
    assert json.loads(kv.Chances().to_json())
    assert kv.Chances.from_json(kv.Chances().to_json()) == kv.Chances()
