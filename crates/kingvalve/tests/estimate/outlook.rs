//! Expected costs: by hand where they can be, and what holds for any.

use kingvalve::estimate::outlook::*;
use kingvalve::estimate::{Currency, Money, PriceRange, RateCard, Situation, WeightUnit};
use kingvalve::fault::{Mode, charge_penalty};
use kingvalve::measure::{Interval, Measured};
use kingvalve::quantity::*;
use proptest::prelude::*;

use super::support::{card, money};

fn usd(amount: f64) -> PriceRange {
    PriceRange::exact(money(&format!("{amount:.2} USD"))).unwrap()
}

fn value(cost: ExpectedCost) -> f64 {
    cost.amount().to_string().trim_end_matches(" USD").parse().unwrap()
}

/// 8 lb, 4 of them missing; a visit 320 USD, a pound 60 USD; nothing fails, nothing is discounted, prices stand still.
fn plain() -> Prospect {
    Prospect {
        years: 3,
        charge: pounds(8.0),
        missing: Interval::exactly(pounds(4.0)).unwrap(),
        leak: LeakRange::exactly(pounds_per_year(0.0)).unwrap(),
        age: years(9.0),
        prices: Prices {
            called: usd(120.0),
            recharge: usd(200.0),
            refrigerant: money("60 USD"),
            per: WeightUnit::Pound,
            sealant: usd(150.0),
            search_hour: money("145 USD"),
            repair: PlacePrices {
                reachable: usd(500.0),
                indoor_coil: usd(1900.0),
                outdoor_unit: usd(3000.0),
            },
            replacement: Some(usd(9000.0)),
        },
        chances: Chances { aging: Aging::never(), ..Chances::default() },
        habits: Habits { refrigerant_trend: percent(0.0), discount: percent(0.0), ..Habits::default() },
        energy: None,
        comfort_per_day: None,
    }
}

fn leaking(pounds_a_year: f64) -> Prospect {
    Prospect { leak: LeakRange::exactly(pounds_per_year(pounds_a_year)).unwrap(), ..plain() }
}

fn expected(prospect: &Prospect, forward: Forward) -> f64 {
    value(prospect.outlook_drawn(1, 100).unwrap().way(forward).unwrap().expected)
}

/// Without a leak nothing that restores cooling is cheaper than filling it: 120 + 200 + 4 · 60.
#[test]
fn without_a_leak_a_recharge_is_the_cheapest_way_that_restores_cooling() {
    let outlook = plain().outlook(1).unwrap();
    let best = outlook.ranking().next().unwrap();
    assert_eq!(best.forward, Forward::Recharge);
    assert_eq!(value(best.expected), 560.0);
    assert_eq!((best.nine_in_ten, best.visits), (usd(560.0), 0.0));
    // The search is paid for nothing: three hours at most, and then a recharge.
    let search = outlook.way(Forward::LeakSearch).unwrap();
    assert!(value(search.expected) > 560.0 && !outlook.search().pays());
    assert_eq!(value(outlook.search().information), 0.0);
}

/// 2 lb a year empty the quarter of 8 lb at which someone is called in a year: visits after 1 and 2 of 3 years.
#[test]
fn repeat_visits_by_hand() {
    let outlook = leaking(2.0).outlook(1).unwrap();
    let recharge = outlook.way(Forward::Recharge).unwrap();
    assert_eq!(value(recharge.expected), 560.0 + 2.0 * (320.0 + 2.0 * 60.0));
    assert_eq!(recharge.visits, 2.0);
    let by_year: Vec<f64> = recharge.by_year.iter().map(|cost| value(*cost)).collect();
    assert_eq!(by_year, [560.0, 1000.0, 1440.0, 1440.0]);
    assert!(outlook.to_string().contains("local rules decide"));
    // Refrigerant 10 % dearer each year, money a year away 5 % less worth.
    let mut dearer = leaking(2.0);
    dearer.habits.refrigerant_trend = percent(10.0);
    dearer.habits.discount = percent(5.0);
    let by_hand = 560.0 + (320.0 + 120.0 * 1.1) / 1.05 + (320.0 + 120.0 * 1.21) / (1.05 * 1.05);
    assert!((expected(&dearer, Forward::Recharge) - by_hand).abs() < 0.006);
}

/// A sealant that holds for certain: its price on top of a recharge, and no visit ever after, however fast the leak.
#[test]
fn a_sealant_that_holds_for_certain_ends_the_matter() {
    for rate in [0.0, 0.5, 2.0, 40.0] {
        let mut sure = leaking(rate);
        sure.chances.sealant_holds = Chance::known(percent(100.0)).unwrap();
        let outlook = sure.outlook(1).unwrap();
        let sealant = outlook.way(Forward::RechargeWithSealant).unwrap();
        assert_eq!((value(sealant.expected), sealant.visits), (710.0, 0.0));
    }
    // One that never holds is a recharge that costs more.
    let mut never = leaking(2.0);
    never.chances.sealant_holds = Chance::known(percent(0.0)).unwrap();
    assert_eq!(expected(&never, Forward::RechargeWithSealant), expected(&never, Forward::Recharge) + 150.0);
}

/// One hour that finds the leak half the time, always within reach, always repaired for good.
#[test]
fn a_search_by_hand() {
    let mut prospect = leaking(2.0);
    prospect.habits.search_hours = 1;
    prospect.chances.found_in_an_hour = Chance::known(percent(50.0)).unwrap();
    prospect.chances.places = Places { reachable: 1.0, indoor_coil: 0.0, outdoor_unit: 0.0, records: 0 };
    prospect.chances.repair_holds = Chance::known(percent(100.0)).unwrap();
    prospect.chances.sealant_holds = Chance::known(percent(0.0)).unwrap();
    let outlook = prospect.outlook(1).unwrap();
    // Found: 500 + 240 against filling it three times, 1320: repaired. In vain: filled. Then the hour, and the call.
    let (repaired, filled) = (500.0 + 240.0, 440.0 + 2.0 * 440.0);
    let search = 120.0 + 145.0 + 0.5 * repaired + 0.5 * filled;
    assert!((value(outlook.way(Forward::LeakSearch).unwrap().expected) - search).abs() < 0.011);
    assert!((value(outlook.search().information) - 0.5 * (filled - repaired)).abs() < 0.011);
    assert!((value(outlook.search().cost) - 145.0).abs() < 0.011 && outlook.search().pays());
    // Trying in vain makes the next hour less hopeful: 1/2, then 1/3 of the rest by a belief of one case each way.
    prospect.chances.found_in_an_hour = Chance::believed(percent(50.0), 2.0).unwrap();
    prospect.habits.search_hours = 2;
    let (first, second) = (0.5, 0.5 / 3.0);
    let hours = first + 2.0 * (1.0 - first);
    let search = 120.0 + 145.0 * hours + (first + second) * repaired + (1.0 - first - second) * filled;
    assert!((expected(&prospect, Forward::LeakSearch) - search).abs() < 0.011);
}

/// Left alone at 4 of 8 lb it does not cool: nothing is paid but the call, and lost days count where they have a value.
#[test]
fn leaving_it_is_priced_always_and_ranked_only_with_a_value_of_cooling() {
    let outlook = leaking(2.0).outlook(1).unwrap();
    let leave = outlook.way(Forward::LeaveAsIs).unwrap();
    assert_eq!((value(leave.expected), leave.ranked), (120.0, false));
    assert!(outlook.ranking().all(|way| way.forward != Forward::LeaveAsIs));
    assert!(outlook.to_string().contains("not ranked, since lost cooling was given no value: leave as is"));
    let mut valued = leaking(2.0);
    valued.comfort_per_day = Some(money("10 USD"));
    let outlook = valued.outlook(1).unwrap();
    let leave = outlook.way(Forward::LeaveAsIs).unwrap();
    assert_eq!((value(leave.expected), leave.ranked), (120.0 + 3.0 * 120.0 * 10.0, true));
    // A day of waiting at each of two more visits.
    assert_eq!(value(outlook.way(Forward::Recharge).unwrap().expected), 1440.0 + 20.0);
    // With 1 lb missing it still cools until another pound is gone, after half a year.
    valued.missing = Interval::exactly(pounds(1.0)).unwrap();
    assert_eq!(expected(&valued, Forward::LeaveAsIs), 120.0 + 2.5 * 120.0 * 10.0);
}

/// The chance of each year's failure by its formula, half a year into the year.
#[test]
fn failure_with_age_by_hand() {
    let aging = Aging::believed(years(18.0), 3.0, 4.0).unwrap();
    let mut prospect = plain();
    prospect.chances.aging = aging;
    prospect.habits.discount = percent(4.0);
    let exposure = 4.0 * 18f64.powi(3);
    let alive = |age: f64| (exposure / (exposure + age.powi(3) - 9f64.powi(3))).powi(4);
    let paid: f64 = (1..=3)
        .map(|year| {
            let at = 9.0 + f64::from(year);
            (alive(at - 1.0) - alive(at)) * 9000.0 / 1.04f64.powf(f64::from(year) - 0.5)
        })
        .sum();
    assert!(paid > 500.0);
    assert!((expected(&prospect, Forward::Recharge) - 560.0 - paid).abs() < 0.006);
    assert!((aging.survives(years(9.0), years(3.0)).fraction() - alive(12.0)).abs() < 1e-12);
    // Without a price of new equipment failures are left out, and that is said.
    prospect.prices.replacement = None;
    let outlook = prospect.outlook(1).unwrap();
    assert_eq!(value(outlook.way(Forward::Recharge).unwrap().expected), 560.0);
    assert!(outlook.way(Forward::Replace).is_err());
    assert!(outlook.to_string().contains("failure of the equipment: left out"));
}

/// The extra energy of a charge that falls by a quarter again and again, by another rule of integration.
#[test]
fn energy_of_a_low_charge_by_another_rule() {
    let mut prospect = leaking(2.0);
    let (indoor, outdoor) = (celsius(25.0), celsius(33.0));
    prospect.energy =
        Some(EnergyUse { per_year: kilowatt_hours(3000.0), price: money("0.20 USD"), indoor, outdoor });
    let count = 20_000;
    let mean: f64 = (0..count)
        .map(|at| {
            let missing = 0.25 * (f64::from(at) + 0.5) / f64::from(count);
            let penalty = charge_penalty(Mode::Cooling, fraction(-missing), indoor, outdoor).unwrap();
            1.0 / penalty.cop.fraction() - 1.0
        })
        .sum::<f64>()
        / f64::from(count);
    let by_hand = 3.0 * 3000.0 * 0.20 * mean;
    let outlook = prospect.outlook(1).unwrap();
    let recharge = outlook.way(Forward::Recharge).unwrap();
    assert!((value(recharge.energy) - by_hand).abs() < 0.02, "{} {by_hand}", recharge.energy);
    assert!((value(recharge.expected) - 1440.0 - by_hand).abs() < 0.02);
    assert!(by_hand > 50.0);
}

#[test]
fn records_teach_the_chances() {
    let records: ShopRecords = serde_json::from_str(
        r#"{"sealants": {"worked": 6, "failed": 9}, "search_hours": {"worked": 40, "failed": 20},
            "places": [12, 20, 4], "repairs": {"worked": 30, "failed": 2},
            "failures": [{"watched": 50, "from_age": "10 yr", "to_age": "13 yr", "failed": 7}]}"#,
    )
    .unwrap();
    let ours = Chances::default().learned(&records).unwrap();
    let close = |a: Ratio, b: f64| assert!((a.fraction() - b).abs() < 1e-12, "{a} {b}");
    close(ours.sealant_holds.mean(), 8.0 / 20.0);
    close(ours.found_in_an_hour.mean(), 42.0 / 64.0);
    close(ours.repair_holds.mean(), 38.5 / 42.0);
    for (mean, cases) in ours.places.means().into_iter().zip([16.0, 24.5, 5.5]) {
        close(mean, cases / 46.0);
    }
    // Gamma: 4 + 7 failures over 4·18³ + 50·(13³ − 10³).
    let exposure = 4.0 * 5832.0 + 50.0 * (2197.0 - 1000.0);
    assert!((ours.aging.typical_life().years() - (exposure / 11.0f64).cbrt()).abs() < 1e-9);
    let prospect = Prospect { chances: ours, ..leaking(2.0) };
    let said = prospect.assumptions();
    let named = |said: &[Assumption], what: &str| said.iter().find(|one| one.what == what).unwrap().clone();
    for (what, records) in
        [("sealant_holds", 15), ("found_in_an_hour", 60), ("places", 36), ("repair_holds", 32), ("life", 50)]
    {
        let assumption = named(&said, what);
        assert_eq!((assumption.records, assumption.basis), (records, Basis::Records), "{what}");
    }
    assert_eq!(
        named(&said, "sealant_holds").to_string(),
        "a sealant holds: 40 % (a belief taught by 15 records of the shop)"
    );
    // `plain` sets leak, age, aging, trend and discount itself; the rest is common practice.
    for assumption in plain().assumptions() {
        let given = ["leak", "age", "life", "refrigerant_trend", "discount"].contains(&assumption.what);
        let basis = if given { Basis::Given } else { Basis::CommonPractice };
        assert_eq!(assumption.basis, basis, "{assumption}");
        assert_eq!(assumption.to_string().contains("common practice, no source"), !given, "{assumption}");
    }
    let usual = LeakRange::usual(pounds(8.0)).unwrap();
    let leak = named(&Prospect { leak: usual, ..plain() }.assumptions(), "leak");
    assert_eq!(
        leak.to_string(),
        "how fast it leaks: 0.40 lb to 8.00 lb a year, one time in two below 2.00 lb (common practice, no source)"
    );
    assert!(
        Chances::default()
            .learned(&ShopRecords {
                failures: vec![FailureRecords {
                    watched: 1,
                    from_age: years(3.0),
                    to_age: years(2.0),
                    failed: 0
                }],
                ..ShopRecords::default()
            })
            .is_err()
    );
}

#[test]
fn at_a_break_even_two_ways_cost_the_same() {
    let mut prospect = leaking(2.0);
    prospect.years = 10;
    let (one, other) = (Forward::Recharge, Forward::Replace);
    let price = prospect.break_even_refrigerant(one, other).unwrap().unwrap();
    prospect.prices.refrigerant = price;
    let apart = expected(&prospect, one) - expected(&prospect, other);
    assert!(apart.abs() < 0.5, "{apart} at {price}");
    prospect.prices.refrigerant = money("60 USD");
    let leak = prospect.break_even_leak(one, other).unwrap().unwrap().pounds_per_year();
    let at = |rate: f64| {
        let there = Prospect { leak: LeakRange::exactly(pounds_per_year(rate)).unwrap(), ..prospect.clone() };
        expected(&there, one) - expected(&there, other)
    };
    assert!(at(leak * 0.999) < 0.0 && at(leak * 1.001) > 0.0, "{leak}");
    let change = prospect.what_would_change(&prospect.outlook_drawn(1, 100).unwrap()).unwrap();
    assert!(change.to_string().starts_with("Between "), "{change}");
    // A sealant dearer by 150 and a chance to hold: never dearer than a recharge once it leaks fast.
    assert!(prospect.break_even_leak(one, Forward::RechargeWithSealant).unwrap().is_some());
    prospect.prices.replacement = None;
    assert!(prospect.break_even_leak(one, other).unwrap_err().is_inconsistent());
}

#[test]
fn the_same_seed_gives_the_same_bytes_and_the_spread_is_that_of_the_tree() {
    let mut prospect = leaking(1.0);
    prospect.leak = LeakRange::new(pounds_per_year(0.0), pounds_per_year(1.0), pounds_per_year(5.0)).unwrap();
    prospect.prices.recharge = PriceRange::new(money("150 USD"), money("250 USD")).unwrap();
    let json = |seed| serde_json::to_string(&prospect.outlook(seed).unwrap()).unwrap();
    assert_eq!(json(4), json(4));
    assert_ne!(json(4), json(5));
    assert!(json(4).contains(r#""kind":"a statistic, not a price""#));
    // 5 lb a year come one time in 5.4, no leak as often: nine in ten reach from the one to the other.
    // No leak: 560 less what the labour's low end may save. 5 lb a year: a visit each 0.4 years, 7 within 3.
    let outlook = prospect.outlook_drawn(4, 50_000).unwrap();
    let recharge = outlook.way(Forward::Recharge).unwrap();
    let (low, high) = (value_of(recharge.nine_in_ten.low()), value_of(recharge.nine_in_ten.high()));
    assert!((510.0..=560.0).contains(&low), "{low}");
    let most = 560.0 + 7.0 * 440.0;
    assert!((most..=most + 8.0 * 50.0).contains(&high), "{high}");
}

fn value_of(money: Money) -> f64 {
    money.amount().to_string().parse().unwrap()
}

#[test]
fn prices_come_from_the_card() {
    let card: RateCard = card();
    let missing = Interval::new(pounds(4.1), pounds(6.5)).unwrap();
    let mut situation = Situation::new("R-454B", missing);
    situation.replacement = Some("outdoor unit and indoor coil, 3 tons".into());
    let prices = Prices::from_card(&card, &situation).unwrap();
    assert_eq!(prices.currency(), Currency::USD);
    // A recharge as it is printed: the call, the labour, and the pounds as billed (4.5 and 6.5 by started halves).
    let printed = situation.recharge().price(&card).unwrap().total();
    for (printed, labour, pounds) in
        [(printed.low(), prices.recharge.low(), 4.5), (printed.high(), prices.recharge.high(), 6.5)]
    {
        let sum = value_of(prices.called.low()) + value_of(labour) + pounds * value_of(prices.refrigerant);
        assert!((sum - value_of(printed)).abs() < 0.011, "{sum} {printed}");
    }
    let replaced = situation.replace().unwrap().price(&card).unwrap().total();
    assert_eq!(prices.replacement.unwrap().plus(prices.called).unwrap(), replaced);
}

#[test]
fn a_prospect_survives_json_and_mistakes_are_named() {
    let prospect = Prospect { comfort_per_day: Some(money("8 USD")), ..leaking(2.0) };
    let json = serde_json::to_string(&prospect).unwrap();
    let back: Prospect = serde_json::from_str(&json).unwrap();
    assert_eq!(
        back.outlook_drawn(1, 100).unwrap().way(Forward::LeakSearch).unwrap().expected,
        prospect.outlook_drawn(1, 100).unwrap().way(Forward::LeakSearch).unwrap().expected
    );
    let field = |change: &dyn Fn(&mut Prospect)| {
        let mut wrong = leaking(2.0);
        change(&mut wrong);
        wrong.outlook_drawn(1, 100).unwrap_err().field().unwrap_or_default().to_owned()
    };
    assert_eq!(field(&|p| p.years = 0), "years");
    assert_eq!(field(&|p| p.years = 16), "years");
    assert_eq!(field(&|p| p.charge = pounds(f64::NAN)), "charge");
    assert_eq!(field(&|p| p.habits.called_at = percent(40.0)), "called_at");
    assert_eq!(field(&|p| p.habits.discount = percent(-1.0)), "discount");
    assert_eq!(field(&|p| p.leak = LeakRange::exactly(pounds_per_year(200.0)).unwrap()), "leak");
    let missing = Interval::exactly(pounds(9.0)).unwrap();
    assert!(Prospect { missing, ..leaking(2.0) }.outlook(1).unwrap_err().is_inconsistent());
    assert!(Prospect { comfort_per_day: Some(money("8 CAD")), ..leaking(2.0) }.outlook(1).is_err());
    assert!(Prospect { comfort_per_day: Some(money("-8 USD")), ..leaking(2.0) }.outlook(1).is_err());
    assert!(LeakRange::new(pounds_per_year(2.0), pounds_per_year(1.0), pounds_per_year(3.0)).is_err());
    let doubtful =
        Measured::from_standard(pounds_per_year(1.0), pounds_per_year(2.0), "two charges").unwrap();
    let leak = LeakRange::measured(&doubtful).unwrap();
    assert!((leak.high().pounds_per_year() - (1.0 + 2.0 * 1.644_853_627)).abs() < 1e-6);
    assert!(leak.mean() > pounds_per_year(1.0)); // what cannot be below zero lies higher on average
    assert!(Chance::believed(percent(120.0), 5.0).is_err() && Chance::believed(percent(20.0), 0.0).is_err());
    assert!(Aging::believed(years(90.0), 3.0, 4.0).is_err());
    assert!(
        ExpectedCost::of(f64::NAN, Currency::USD).is_err() && ExpectedCost::of(1e40, Currency::USD).is_err()
    );
}

prop_compose! {
    fn any_prospect()(
        years in 1u32..=15,
        leak in prop::array::uniform3(0.0..30.0f64),
        missing in 0.0..8.0f64,
        age in 0.0..25.0f64,
        prices in prop::array::uniform8(0.0..4000.0f64),
        pound in 0.0..200.0f64,
        trend in -5.0..15.0f64,
        discount in 0.0..12.0f64,
        called_at in 5.0..30.0f64,
        hours in 1u32..5,
        fails in any::<bool>(),
    ) -> Prospect {
        let mut leak = leak.map(|rate| rate * called_at / 30.0);
        leak.sort_by(f64::total_cmp);
        let [low, median, high] = leak.map(pounds_per_year);
        let [called, recharge, sealant, hour, reachable, coil, unit, new] = prices;
        let mut prospect = plain();
        prospect.years = years;
        prospect.leak = LeakRange::new(low, median, high).unwrap();
        prospect.missing = Interval::exactly(pounds(missing)).unwrap();
        prospect.age = kingvalve::quantity::years(age);
        prospect.prices = Prices {
            called: usd(called),
            recharge: usd(recharge),
            refrigerant: money(&format!("{pound:.2} USD")),
            per: WeightUnit::Pound,
            sealant: usd(sealant),
            search_hour: money(&format!("{:.2} USD", hour / 20.0)),
            repair: PlacePrices { reachable: usd(reachable), indoor_coil: usd(coil), outdoor_unit: usd(unit) },
            replacement: Some(usd(2.0 * new)),
        };
        prospect.habits.refrigerant_trend = percent(trend);
        prospect.habits.discount = percent(discount);
        prospect.habits.called_at = percent(called_at);
        prospect.habits.search_hours = hours;
        if fails {
            prospect.chances.aging = Aging::default();
        }
        prospect
    }
}

fn costs(prospect: &Prospect) -> Vec<f64> {
    prospect.outlook_drawn(1, 100).unwrap().ways().iter().map(|way| value(way.expected)).collect()
}

fn none_above(lower: &[f64], higher: &[f64]) -> bool {
    lower.len() == higher.len() && lower.iter().zip(higher).all(|(a, b)| *a <= b + 0.011)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// More to pay, nothing to gain: dearer refrigerant, a faster leak, a longer look, money that keeps its worth.
    #[test]
    fn what_can_only_cost_more_never_costs_less(prospect in any_prospect(), more in 1.0..1.9f64) {
        let today = costs(&prospect);
        let mut dearer = prospect.clone();
        let pound = value_of(prospect.prices.refrigerant) * more;
        dearer.prices.refrigerant = money(&format!("{pound:.2} USD"));
        prop_assert!(none_above(&today, &costs(&dearer)));
        let mut worthier = prospect.clone();
        worthier.habits.discount = prospect.habits.discount / more;
        prop_assert!(none_above(&today, &costs(&worthier)));
        let mut longer = prospect.clone();
        longer.years = (prospect.years + 1).min(15);
        prop_assert!(none_above(&today, &costs(&longer)));
        // Refrigerant that becomes cheaper faster than money loses worth would reward waiting.
        let mut steady = prospect.clone();
        steady.habits.refrigerant_trend = percent(0.0);
        let mut faster = steady.clone();
        let rate = |p: MassFlow| p * more;
        let mean = steady.leak.mean();
        steady.leak = LeakRange::exactly(mean).unwrap();
        faster.leak = LeakRange::exactly(rate(mean)).unwrap();
        prop_assert!(none_above(&costs(&steady), &costs(&faster)));
    }

    /// A firmer hope of a sealant or a repair never makes the way dearer; knowing never costs; a search is what it is
    /// worth less what it costs.
    #[test]
    fn better_chances_and_knowledge_never_cost(prospect in any_prospect(), better in 0.0..1.0f64) {
        let outlook = prospect.outlook_drawn(1, 100).unwrap();
        let mut firmer = prospect.clone();
        let raised = |chance: Chance| {
            let p = chance.mean().fraction();
            Chance::believed(fraction(p + better * (1.0 - p)), 10.0).unwrap()
        };
        firmer.chances.sealant_holds = raised(prospect.chances.sealant_holds);
        firmer.chances.repair_holds = raised(prospect.chances.repair_holds);
        prop_assert!(none_above(&costs(&firmer), &costs(&prospect)));
        let of = |forward| value(outlook.way(forward).unwrap().expected);
        let without = [Forward::Recharge, Forward::RechargeWithSealant, Forward::Replace].map(of);
        let without = without.into_iter().fold(f64::INFINITY, f64::min);
        let net = value(outlook.search().information) - value(outlook.search().cost);
        prop_assert!((without - of(Forward::LeakSearch) - net).abs() < 0.05);
        for way in outlook.ways() {
            let sums = &way.by_year;
            prop_assert!(sums.windows(2).all(|pair| pair[0] <= pair[1]));
            prop_assert!((value(*sums.last().unwrap()) - value(way.expected)).abs() < 0.011);
        }
    }
}
