//! Leaks over time: days, rates, declines, trends, and the rules' own definitions.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::charge::forecast::*;
use kingvalve::measure::*;
use kingvalve::quantity::*;
use kingvalve::refrigerant::{Assessment, Refrigerant};
use proptest::prelude::*;

fn day(text: &str) -> Day {
    text.parse().unwrap()
}

fn charge(on: &str, added: f64) -> DatedCharge {
    DatedCharge { day: day(on), added: Measured::from_standard(pounds(added), ounces(0.5), "scale").unwrap() }
}

#[test]
fn days_are_those_of_the_calendar() {
    for (text, number) in [("1970-01-01", 0.0), ("2000-03-01", 11_017.0), ("2026-11-25", 20_782.0)] {
        // Days from 1970-01-01 by Python 3.11's datetime.
        assert_eq!(day(text).since(day("1970-01-01")).days(), number);
    }
    for bad in
        ["2025-02-29", "1900-02-29", "2026-13-01", "2026-00-10", "2026-04-31", "1899-12-31", "2200-01-01"]
    {
        assert!(bad.parse::<Day>().unwrap_err().is_out_of_range(), "{bad}");
    }
    for bad in ["26-01-01", "2026/01/01", "2026-1-1", "", "2026-01-01-01", "yesterday", "+026-01-01"] {
        assert!(bad.parse::<Day>().unwrap_err().is_unreadable(), "{bad}");
    }
    assert_eq!(day("2024-02-28").after(2), Some(day("2024-03-01")));
    assert_eq!(day("2199-12-31").after(1), None);
    assert_eq!(day("1900-01-01").after(-1), None);
}

#[test]
fn dates_out_of_order_are_a_clear_error() {
    let error = LeakRate::from_charges(&[charge("2026-05-01", 1.0), charge("2026-04-01", 1.0)], ounces(4.0))
        .unwrap_err();
    assert!(error.is_inconsistent() && error.field() == Some("charges[1].day"), "{error}");
    assert!(error.to_string().contains("2026-04-01 comes after 2026-05-01"), "{error}");
    assert!(LeakRate::from_charges(&[charge("2026-05-01", 1.0)], ounces(4.0)).unwrap_err().is_inconsistent());
    let same = [charge("2026-05-01", 1.0), charge("2026-05-01", 1.0)];
    assert!(LeakRate::from_charges(&same, ounces(4.0)).is_err());
    let read = |on: &str| (day(on), Measured::exact(delta_fahrenheit(10.0)));
    assert!(Trend::of(&[read("2026-05-01"), read("2026-04-01")]).unwrap_err().is_inconsistent());
}

#[test]
fn the_rate_is_what_was_added_over_the_time_since() {
    let leak = LeakRate::from_charges(
        &[charge("2025-06-01", 9.0), charge("2025-12-01", 1.0), charge("2026-06-01", 2.0)],
        ounces(4.0),
    )
    .unwrap();
    assert!((leak.lost().value().pounds() - 3.0).abs() < 1e-12); // the first is where time starts
    assert!((leak.per_year().value().pounds() - 3.0).abs() < 1e-9);
    // Marks met within 4 oz at either end and two weights: the mark in the middle cancels.
    let by_hand = (2.0 * (4.0f64 * 4.0 / 3.0) + 2.0 * 0.25).sqrt();
    assert!((leak.lost().standard_uncertainty().ounces() - by_hand).abs() < 1e-9);
    let gwp = Refrigerant::named("R-410A").unwrap().gwp(Assessment::Ar4).unwrap();
    let carbon = leak.carbon_dioxide_per_year(&gwp).value();
    assert!((carbon.pounds() - 3.0 * 2087.5).abs() < 1e-6);
    assert!(leak.changed(Level::default()), "{:?}", leak.spans());
}

fn decline(form: LeakForm, charge: f64, u: f64, rate: f64, ur: f64) -> Decline {
    let charge = Measured::from_standard(pounds(charge), pounds(u), "charge").unwrap();
    let rate = Measured::from_standard(pounds_per_year(rate), pounds_per_year(ur), "leak").unwrap();
    Decline::of(day("2026-01-01"), charge, rate, form).unwrap()
}

/// Small Euler steps of ṁ = −k while there is liquid, −k·m/m_v once there is none.
#[test]
fn a_pressure_driven_leak_follows_its_differential_equation() {
    let (vapour, rate) = (1.2, 4.0);
    let form = LeakForm::PressureDriven { all_vapour: pounds(vapour) };
    let decline = decline(form, 3.0, 0.0, rate, 0.0);
    let (mut mass, steps) = (3.0, 20_000);
    for _ in 0..steps {
        mass -= rate * (mass / vapour).min(1.0) / f64::from(steps);
    }
    let left = decline.left_on(day("2027-01-01"), Level::default()).unwrap().middle().pounds();
    assert!((left - mass).abs() < 1e-3, "{left} {mass}");
    assert!(decline.left_on(day("2025-01-01"), Level::default()).unwrap_err().is_inconsistent());
    assert!(decline.falls_below(pounds(0.0), USUAL_HORIZON, Level::default()).unwrap_err().is_out_of_range());
}

#[test]
fn a_rate_that_may_be_nothing_has_no_latest_day() {
    let form = LeakForm::Constant;
    let firm =
        decline(form, 7.0, 0.1, 3.0, 0.3).falls_below(pounds(5.5), USUAL_HORIZON, Level::default()).unwrap();
    assert!(firm.earliest < firm.likely && firm.likely < firm.latest);
    let loose =
        decline(form, 7.0, 0.1, 3.0, 2.0).falls_below(pounds(5.5), USUAL_HORIZON, Level::default()).unwrap();
    assert!(loose.earliest.is_some() && loose.likely == firm.likely && loose.latest.is_none());
    assert!(loose.earliest < firm.earliest);
    let never =
        decline(form, 7.0, 0.1, 0.1, 0.01).falls_below(pounds(5.5), USUAL_HORIZON, Level::default()).unwrap();
    assert_eq!(never.to_string(), "not within the forecast");
    let now =
        decline(form, 5.0, 0.1, 3.0, 0.3).falls_below(pounds(5.5), USUAL_HORIZON, Level::default()).unwrap();
    assert_eq!(now.likely, Some(day("2026-01-01")));
}

#[test]
fn a_trend_away_from_the_limit_never_crosses_it() {
    let read = |on: &str, value: f64, u: f64| {
        (day(on), Measured::from_standard(delta_fahrenheit(value), delta_fahrenheit(u), "superheat").unwrap())
    };
    let falling = Trend::of(&[read("2026-01-01", 16.0, 0.2), read("2026-03-01", 13.0, 0.2)]).unwrap();
    let up = falling.crosses(delta_fahrenheit(20.0), USUAL_HORIZON, Level::default()).unwrap();
    assert_eq!((up.earliest, up.likely, up.latest), (None, None, None));
    let down = falling.crosses(delta_fahrenheit(10.0), USUAL_HORIZON, Level::default()).unwrap();
    assert!(
        down.earliest <= down.likely && down.likely <= down.latest && down.likely > Some(day("2026-03-01"))
    );
    let flat = Trend::of(&[read("2026-01-01", 13.0, 1.0), read("2026-03-01", 13.1, 1.0)]).unwrap();
    let open = flat.crosses(delta_fahrenheit(20.0), USUAL_HORIZON, Level::default()).unwrap();
    assert!(open.latest.is_none());
    // Readings that scatter beyond their doubt widen the answer.
    let scattered = |third: f64| {
        let trend = Trend::of(&[
            read("2026-01-01", 10.0, 0.1),
            read("2026-02-01", third, 0.1),
            read("2026-03-01", 14.0, 0.1),
        ]);
        trend.unwrap().change_per_year(Level::default()).unwrap().width()
    };
    assert!(scattered(15.0) > 3.0 * scattered(12.1));
}

#[test]
fn the_rolling_method_starts_anew_after_a_verified_repair() {
    let added = [(day("2026-01-10"), pounds(6.0)), (day("2026-03-01"), pounds(4.0))];
    let rate = |verified: Option<&str>| {
        rolling_leak_rate(&added, day("2026-06-01"), verified.map(day), pounds(50.0)).unwrap().percent()
    };
    assert!((rate(None) - 20.0).abs() < 1e-12);
    assert!((rate(Some("2026-02-01")) - 8.0).abs() < 1e-12);
    assert_eq!(rate(Some("2026-03-01")), 0.0);
    assert!(rolling_leak_rate(&added, day("2026-02-01"), None, pounds(50.0)).unwrap_err().is_inconsistent());
    assert!(annualized_leak_rate(pounds(1.0), pounds(50.0), days(0.0)).unwrap_err().is_out_of_range());
    assert!(annualized_leak_rate(pounds(-1.0), pounds(50.0), days(9.0)).unwrap_err().is_out_of_range());
    assert!(annualized_leak_rate(pounds(1.0), pounds(0.0), days(9.0)).unwrap_err().is_out_of_range());
}

#[test]
fn thresholds_say_to_what_they_apply() {
    let gwp = |name: &str| Refrigerant::named(name).unwrap().gwp(Assessment::Ar4).unwrap();
    let part84 = leak_threshold(LeakRule::Part84, Appliance::ComfortCooling);
    assert!(
        part84.applies_to(pounds(15.0), &gwp("R-410A")) && !part84.applies_to(pounds(14.9), &gwp("R-410A"))
    );
    assert!(!part84.applies_to(pounds(500.0), &gwp("R-744")));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    /// A day, printed and read again, is the same; later days have larger numbers.
    #[test]
    fn days_survive_printing(number in -25_567i32..84_000) {
        let made = day("1970-01-01").after(number).unwrap();
        prop_assert_eq!(made.to_string().parse::<Day>().unwrap(), made);
        let (y, m, d) = made.civil();
        prop_assert_eq!(Day::new(y, m, d).unwrap(), made);
        prop_assert_eq!(made.since(day("1970-01-01")).days(), f64::from(number));
    }

    /// At the likely day of the crossing, the limit is what is left.
    #[test]
    fn a_crossing_is_where_the_decline_meets_the_limit(
        charge in 4.0..10.0f64, limit in 0.5..3.5f64, rate in 2.0..6.0f64, vapour in 0.4..3.0f64, driven: bool,
    ) {
        let form = if driven { LeakForm::PressureDriven { all_vapour: pounds(vapour) } } else { LeakForm::Constant };
        let decline = decline(form, charge, 0.1, rate, 0.2);
        let horizon = days(365.0 * 30.0);
        let crossing = decline.falls_below(pounds(limit), horizon, Level::default()).unwrap();
        let likely = crossing.likely.unwrap();
        let left = decline.left_on(likely, Level::default()).unwrap();
        // To the day: half a day's leak either way.
        prop_assert!(left.contains(pounds(limit)));
        let middle = decline.left_on(likely, Level::new(percent(50.1)).unwrap()).unwrap();
        prop_assert!(middle.low() < pounds(limit + 0.05) && middle.high() > pounds(limit - 0.05));
        prop_assert!(crossing.earliest.unwrap() <= likely && crossing.latest.is_none_or(|latest| likely <= latest));
    }
}
