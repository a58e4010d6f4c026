//! The simulated interval: within the range, the same for a seed, and as likely as it says.

use kingvalve::estimate::{Addition, After, LineKind, Money, RateCard, ShopWay, Situation, Words, Work};
use kingvalve::measure::{Generator, Interval};
use kingvalve::quantity::pounds;

use super::support::card;

fn situation() -> Situation {
    let mut situation = Situation::new("R-454B", Interval::new(pounds(4.1), pounds(6.5)).unwrap());
    situation.replacement = Some("outdoor unit and indoor coil, 3 tons".into());
    situation
}

#[test]
fn the_likely_price_lies_within_the_range() {
    for way in situation().ways_of(&card()) {
        let (range, likely) = (way.price(&card()).unwrap().total(), way.likely(&card(), 500, 7).unwrap());
        assert!(range.low() <= likely.range.low() && likely.range.high() <= range.high(), "{}", way.name);
        assert_eq!(range.is_exact(), likely.range.is_exact(), "{}", way.name);
        assert_eq!(likely, way.likely(&card(), 500, 7).unwrap());
        assert!(way.price(&card()).unwrap().with_likely(likely).is_ok());
    }
}

#[test]
fn a_likely_price_of_something_else_is_refused() {
    let replace = situation().replace().unwrap().likely(&card(), 100, 1).unwrap();
    let error = situation().recharge().price(&card()).unwrap().with_likely(replace).unwrap_err();
    assert!(error.is_inconsistent() && error.to_string().contains("leaves the range"), "{error}");
    for draws in [0, 99, 1_000_001] {
        assert!(situation().recharge().likely(&card(), draws, 1).unwrap_err().is_out_of_range());
    }
}

/// One exact weight by a step of a hundredth of a pound: the price is uniform, so its central 90 % are known.
#[test]
fn a_uniform_price_has_a_known_central_part() {
    let mut card = card();
    let fine = r#"{"price": "100.00 USD", "per": "lb", "billed": {"step": "0.01", "count": "nearest"}}"#;
    card.refrigerants.insert("R-454B".into(), serde_json::from_str(fine).unwrap());
    card.taxes.clear();
    let mut way = situation().recharge();
    way.work.fees.clear();
    way.work.tasks.clear();
    way.work.refrigerants[0].mass = Interval::new(pounds(0.0), pounds(10.0)).unwrap();
    let likely = way.likely(&card, 20_000, 3).unwrap().range;
    let dollars = |money: Money| money.amount().to_string().parse::<f64>().unwrap();
    // 5 % and 95 % of 0 to 1000 USD, to four standard deviations of a 5 % quantile of 20 000 draws: 6.2 USD.
    assert!((dollars(likely.low()) - 50.0).abs() < 6.5, "{likely}");
    assert!((dollars(likely.high()) - 950.0).abs() < 6.5, "{likely}");
}

/// Drawn apart from the code under test: nine in ten single outcomes, priced one by one, lie in the interval.
#[test]
fn nine_in_ten_outcomes_lie_in_it() {
    let way = situation().leak_search();
    let likely = way.likely(&card(), 4_000, 11).unwrap().range;
    let mut generator = Generator::seeded(99);
    let (mut inside, outcomes) = (0, 1_000);
    for _ in 0..outcomes {
        let mut one = way.clone();
        for task in &mut one.work.tasks {
            let (low, high) = (task.hours.low(), task.hours.high());
            task.hours = Interval::exactly(low + (high - low) * generator.uniform()).unwrap();
        }
        for charge in &mut one.work.refrigerants {
            let (low, high) = (charge.mass.low(), charge.mass.high());
            charge.mass = Interval::exactly(low + (high - low) * generator.uniform()).unwrap();
        }
        for item in
            one.work.fees.iter_mut().chain(&mut one.work.materials).filter(|item| item.least < item.most)
        {
            let count = u32::from(generator.uniform() < 0.5);
            (item.least, item.most) = (count, count);
        }
        let total = one.price(&card()).unwrap().total();
        assert!(total.is_exact());
        inside += u32::from(likely.low() <= total.low() && total.low() <= likely.high());
    }
    let share = f64::from(inside) / f64::from(outcomes);
    assert!((share - 0.9).abs() < 0.04, "{share}");
}

#[test]
fn a_shop_adds_ways_and_additions_as_data() {
    let own = ShopWay {
        name: "drain".into(),
        title: "Clean the drain".into(),
        after: After::Diagnosis,
        work: Work::default(),
        words: Words::default(),
    };
    let replaced = ShopWay { name: "replace and clean".into(), after: After::Replace, ..own.clone() };
    let card = RateCard { ways: vec![own, replaced], ..card() };
    assert_eq!(situation().ways_of(&card).len(), 7);
    let without = Situation { replacement: None, ..situation() };
    assert_eq!(without.ways_of(&card).len(), 5, "no replacement, none of the ways that start from it");
    let json = card.to_json().unwrap();
    assert_eq!(RateCard::from_json(&json).unwrap(), card);
}

#[test]
fn together_is_priced_as_one_visit() {
    let capacitor = card().addition("run capacitor").unwrap().clone();
    let priced = situation().recharge().price_with(&card(), std::slice::from_ref(&capacitor)).unwrap();
    let Addition { work, words, .. } = capacitor;
    let whole = situation().recharge().also(work, words).price(&card()).unwrap();
    assert_eq!(priced.together()[0].total, whole.total());
    assert_eq!(whole.lines().iter().filter(|line| line.kind() == LineKind::Labor).count(), 1);
    assert!(card().addition("run capacitr").unwrap_err().to_string().contains("did you mean run capacitor?"));
}
