//! Ways forward: what holds for any rates, and the five ways of one example.

use std::collections::BTreeMap;

use kingvalve::estimate::{
    BilledUnit, BillingStep, CardNames, Charge, Count, Currency, Decimal, Deposit, Discount, Item, LineKind,
    Money, Off, Percent, PriceRange, PricedWay, RateCard, RefrigerantRate, Rounding, Situation, Step, Task,
    Tax, TaxBasis, Uplift, Way, WeightUnit, Words, Work,
};
use kingvalve::measure::Interval;
use kingvalve::quantity::{hours, pounds};
use proptest::prelude::*;

use super::support::{any_currency, any_rounding, card, money};

fn any_price() -> impl Strategy<Value = Decimal> {
    (0_i64..100_000_000, 0_u32..5).prop_map(|(mantissa, places)| Decimal::new(mantissa, places))
}

fn any_step() -> impl Strategy<Value = BillingStep> {
    let count = prop::sample::select(vec![Count::Started, Count::Nearest]);
    let size = prop::sample::select(vec!["1", "0.5", "0.25", "0.1", "0.3", "0.01", "2"]);
    (size, count)
        .prop_map(|(size, count)| BillingStep { step: Step::new(size.parse().unwrap()).unwrap(), count })
}

fn any_percent() -> impl Strategy<Value = Percent> {
    (0_i64..400_000).prop_map(|places| Percent::new(Decimal::new(places, 4)).unwrap())
}

fn any_uplift() -> impl Strategy<Value = BTreeMap<LineKind, Uplift>> {
    let one = prop_oneof![any_percent().prop_map(Uplift::Markup), any_percent().prop_map(Uplift::Margin)];
    prop::collection::btree_map(prop::sample::select(LineKind::ALL.to_vec()), one, 0..4)
}

fn any_tax() -> impl Strategy<Value = Tax> {
    let on = prop::collection::btree_set(prop::sample::select(LineKind::ALL.to_vec()), 1..4);
    let basis = prop::sample::select(vec![TaxBasis::Line, TaxBasis::Invoice]);
    (any_percent(), on, any_rounding(), basis, any::<bool>()).prop_map(
        |(rate, on, rounding, basis, included)| Tax {
            name: "tax".into(),
            jurisdiction: None,
            rate,
            on,
            rounding,
            basis,
            included,
        },
    )
}

fn any_percent_up_to_100() -> impl Strategy<Value = Percent> {
    (0_i64..=1_000_000).prop_map(|places| Percent::new(Decimal::new(places, 4)).unwrap())
}

/// A share or an amount off, in dollars until the card's currency is known.
fn any_discount() -> impl Strategy<Value = Discount> {
    let on = prop::collection::btree_set(prop::sample::select(LineKind::ALL.to_vec()), 0..4);
    let fees = prop::collection::btree_set(Just("trip".to_owned()), 0..2);
    let amount = any_price().prop_map(|amount| Off::Amount(Money::new(amount, Currency::USD).unwrap()));
    let off = prop_oneof![any_percent_up_to_100().prop_map(Off::Share), amount];
    (on, fees, off)
        .prop_filter("on something", |(on, fees, _)| !(on.is_empty() && fees.is_empty()))
        .prop_map(|(on, fees, off)| Discount { name: "off".into(), off, on, fees, member: None })
}

fn in_currency(discount: Discount, currency: Currency) -> Discount {
    let off = match discount.off {
        Off::Amount(off) => {
            Off::Amount(Money::new(off.amount(), currency).unwrap().rounded(Rounding::Down).unwrap())
        }
        share => share,
    };
    Discount { off, ..discount }
}

prop_compose! {
    /// A card with one or two entries of each kind, in any currency.
    fn any_card()(
        currency in any_currency(),
        rounding in any_rounding(),
        prices in prop::array::uniform9(any_price()),
        hours_billed in any_step(),
        minimum in prop::option::of(Just(Step::ONE)),
        billed in any_step(),
        per in prop::sample::select(vec![WeightUnit::Pound, WeightUnit::Kilogram]),
        uplift in any_uplift(),
        taxes in prop::collection::vec(any_tax(), 0..3),
        offs in prop::collection::vec(any_discount(), 0..3),
        deposit in prop::option::of(any_percent_up_to_100()),
    ) -> RateCard {
        let [a, b, c, d, e, f, g, h, i] = prices.map(|price| Money::new(price, currency).unwrap());
        let (low, high) = if h <= i { (h, i) } else { (i, h) };
        let bands = |regular, evening| BTreeMap::from([("regular".into(), regular), ("evening".into(), evening)]);
        RateCard {
            shop: "any".into(),
            note: None,
            currency,
            rounding,
            labor: BTreeMap::from([("technician".into(), bands(a, b))]),
            hours_billed,
            minimum_hours: minimum,
            fees: BTreeMap::from([("trip".into(), c), ("diagnosis".into(), d)]),
            refrigerants: BTreeMap::from([("R-32".into(), RefrigerantRate { price: e, per, billed })]),
            materials: BTreeMap::from([("drier".into(), f), ("capacitor".into(), g)]),
            replacements: BTreeMap::from([("unit".into(), PriceRange::new(low, high).unwrap())]),
            uplift,
            taxes,
            discounts: offs.into_iter().map(|off| in_currency(off, currency)).collect(),
            memberships: BTreeMap::new(),
            deposit: deposit.map(|share| Deposit { ask: Off::Share(share), from: None }),
            warranty: BTreeMap::new(),
            ways: Vec::new(),
            additions: Vec::new(),
            labels: BTreeMap::new(),
        }
    }
}

fn any_item(names: &'static [&'static str]) -> impl Strategy<Value = Item> {
    (prop::sample::select(names), 0_u32..20, 0_u32..20).prop_map(|(name, least, more)| Item {
        name: name.into(),
        least,
        most: least + more,
    })
}

prop_compose! {
    fn any_task()(
        band in prop::sample::select(vec!["regular", "evening"]),
        low in 0.0..20.0_f64,
        more in 0.0..20.0_f64,
    ) -> Task {
        let hours = Interval::new(hours(low), hours(low + more)).unwrap();
        Task { what: "work".into(), role: "technician".into(), band: band.into(), hours }
    }
}

prop_compose! {
    fn any_charge()(low in 0.0..30.0_f64, more in 0.0..30.0_f64) -> Charge {
        Charge { designation: "R-32".into(), mass: Interval::new(pounds(low), pounds(low + more)).unwrap() }
    }
}

prop_compose! {
    fn any_work()(
        fees in prop::collection::vec(any_item(&["trip", "diagnosis"]), 0..3),
        tasks in prop::collection::vec(any_task(), 0..4),
        refrigerants in prop::collection::vec(any_charge(), 0..3),
        materials in prop::collection::vec(any_item(&["drier", "capacitor"]), 0..3),
        replacements in prop::collection::vec(any_item(&["unit"]), 0..2),
    ) -> Work {
        Work { fees, tasks, refrigerants, materials, replacements }
    }
}

fn way(work: Work) -> Way {
    Way { name: "any".into(), title: "Any".into(), work, words: Words::default() }
}

/// What stands on paper: the amounts of the lines and of the taxes that are added, read back from their text.
fn printed_sum(priced: &PricedWay, end: fn(PriceRange) -> Money) -> Money {
    let lines = priced.lines().iter().map(|line| line.amount());
    let taxes = priced.taxes().iter().filter(|tax| !tax.included).map(|tax| tax.amount);
    let read_back = |amount| money(&end(amount).to_string());
    let printed = Money::sum(priced.total().currency(), lines.chain(taxes).map(read_back)).unwrap();
    priced.discounts().iter().fold(printed, |sum, off| sum.minus(read_back(off.amount)).unwrap())
}

proptest! {
    #[test]
    fn the_printed_lines_sum_to_the_total(card in any_card(), work in any_work()) {
        let priced = way(work).price(&card).unwrap();
        prop_assert_eq!(printed_sum(&priced, PriceRange::low), priced.total().low());
        prop_assert_eq!(printed_sum(&priced, PriceRange::high), priced.total().high());
        prop_assert!(priced.lines().iter().all(|line| line.amount().low().is_payable() && line.amount().high().is_payable()));
        prop_assert!(priced.total().low() <= priced.total().high());
        prop_assert_eq!(priced.not_to_exceed(), priced.total().high());
        for off in priced.discounts() {
            prop_assert!(off.amount.low() <= off.amount.high() && off.amount.high().is_payable());
        }
        if let Some(deposit) = priced.deposit() {
            prop_assert!(deposit.is_payable() && !deposit.is_negative() && deposit <= priced.total().low());
        }
    }

    #[test]
    fn more_work_never_costs_less(card in any_card(), work in any_work(), more in any_work()) {
        let before = way(work.clone()).price(&card).unwrap().total();
        let after = way(work.and(more)).price(&card).unwrap().total();
        prop_assert!(after.low() >= before.low() && after.high() >= before.high());
    }

    #[test]
    fn the_order_of_work_does_not_matter(card in any_card(), a in any_work(), b in any_work()) {
        let one = way(a.clone().and(b.clone())).price(&card).unwrap().total();
        prop_assert_eq!(way(b.and(a)).price(&card).unwrap().total(), one);
    }

    #[test]
    fn a_way_written_reads_back(card in any_card(), work in any_work()) {
        let way = way(work);
        let json = serde_json::to_string(&way).unwrap();
        prop_assert_eq!(serde_json::to_string(&serde_json::from_str::<Way>(&json).unwrap()).unwrap(), json);
        let priced = way.price(&card).unwrap();
        let json = serde_json::to_string(&priced).unwrap();
        prop_assert_eq!(serde_json::from_str::<PricedWay>(&json).unwrap(), priced);
        let card_json = card.to_json().unwrap();
        prop_assert_eq!(RateCard::from_json(&card_json).unwrap(), card);
    }

    #[test]
    fn untaxed_whole_units_scale(card in any_card(), count in 0_u32..50, times in 1_u32..20) {
        let card = RateCard { taxes: Vec::new(), discounts: Vec::new(), uplift: BTreeMap::new(), ..card };
        let driers = |count| way(Work {
            materials: vec![Item { name: "drier".into(), least: count, most: count }],
            ..Work::default()
        });
        let payable = card.materials["drier"].is_payable();
        let one = driers(count).price(&card).unwrap().total().low();
        let many = driers(count * times).price(&card).unwrap().total().low();
        if payable {
            prop_assert_eq!(many, Money::sum(card.currency, (0..times).map(|_| one)).unwrap());
        }
    }

    #[test]
    fn billed_hours_cover_the_time_and_no_more_than_a_step(low in 0.0..50.0_f64, more in 0.0..50.0_f64) {
        let card = card();
        let worked = Interval::new(hours(low), hours(low + more)).unwrap();
        let billed = card.bill_hours(worked).unwrap();
        prop_assert_eq!(billed.unit(), BilledUnit::Hour);
        for (time, billed) in [(low, billed.low()), (low + more, billed.high())] {
            prop_assert!((billed % Decimal::new(25, 2)).is_zero());
            let billed: f64 = billed.to_string().parse().unwrap();
            prop_assert!(billed >= time - 1e-6);
            prop_assert!(billed < time + 0.25 + 1e-6 || billed == 1.0);
        }
    }
}

#[test]
fn a_unit_conversion_never_starts_another_step() {
    let rate = card().refrigerant("R-454B").unwrap(); // by started half pounds
    for half_pounds in 0..=2_000_u32 {
        let weight = pounds(f64::from(half_pounds) * 0.5);
        let billed = rate.bill(Interval::new(weight, weight).unwrap()).unwrap();
        assert_eq!(billed.low() * Decimal::TWO, half_pounds.into());
    }
}

#[test]
fn quantities_that_cannot_be_billed_are_refused() {
    let rate = card().refrigerant("R-454B").unwrap();
    let error = rate.bill(Interval::new(pounds(-0.5), pounds(1.0)).unwrap()).unwrap_err();
    assert!(error.is_out_of_range());
    assert_eq!(
        error.to_string(),
        "billed quantity -0.5 lb is out of range: 0 to 1000000 lb; check the reading it comes from"
    );
    assert!(rate.bill(Interval::new(pounds(0.0), pounds(1e7)).unwrap()).unwrap_err().is_out_of_range());
    for size in ["0", "-1", "0.0000001", "1000001"] {
        assert!(Step::new(size.parse().unwrap()).unwrap_err().is_out_of_range(), "{size}");
    }
}

fn situation() -> Situation {
    let mut situation = Situation::new("R-454B", Interval::new(pounds(4.1), pounds(6.5)).unwrap());
    situation.replacement = Some("outdoor unit and indoor coil, 3 tons".into());
    situation
}

/// The example card and pounds, by hand: 4.1 lb → 4.5 lb and 6.5 lb by started half pounds at 62.00; hours at 145.00;
/// material at 115 %; 7.25 % on refrigerant, material and equipment.
#[test]
fn the_five_ways_come_out_as_by_hand() {
    let priced: Vec<PricedWay> = situation().ways().iter().map(|way| way.price(&card()).unwrap()).collect();
    let totals: Vec<String> = priced.iter().map(|way| format!("{}: {}", way.name(), way.total())).collect();
    assert_eq!(
        totals,
        [
            "leave as is: 149.00 USD",                           // 89 + 60
            "recharge: 593.23–871.22 USD",                       // 149 + 145…290 + 279…403 + 20.23…29.22
            "recharge with sealant and dye: 775.02–1089.26 USD", // … 1.25–2.5 h, 135.70 more material
            "leak search: 294.00–1780.02 USD", // 149 + 145 … 149 + 95 + 1015 + 403 + 82.80 + 35.22
            "replace: 8225.50–10853.13 USD",   // 149 + 140 + 7400…9850 + 7.25 %
        ]
    );
    for way in &priced {
        let words = way.words();
        for said in [&words.includes, &words.does_not_fix, &words.uncertain, &words.cautions] {
            assert!(!said.is_empty(), "{}", way.name());
        }
    }
}

#[test]
fn a_situation_in_json_needs_only_what_is_particular() {
    let json = r#"{"refrigerant": "R-454B", "missing": {"low": "4.1 lb", "high": "6.5 lb"},
                   "hours": {"leak_search": {"low": "30 min", "high": "2 h"}}, "names": {"band": "evening"}}"#;
    let read: Situation = serde_json::from_str(json).unwrap();
    let mut built = Situation::new("R-454B", Interval::new(pounds(4.1), pounds(6.5)).unwrap());
    built.hours.leak_search = Interval::new(hours(0.5), hours(2.0)).unwrap();
    built.names.band = "evening".into();
    assert_eq!(read, built);
    let search = read.leak_search().price(&card()).unwrap();
    assert!(search.lines().iter().any(|line| line.description() == "Technician, evening"));
}

#[test]
fn without_a_replacement_there_are_four() {
    let situation = Situation { replacement: None, ..situation() };
    assert_eq!(situation.ways().len(), 4);
}

#[test]
fn nothing_missing_means_nothing_to_put_in() {
    let missing = Interval::new(pounds(-2.0), pounds(-1.0)).unwrap();
    let recharge = Situation { missing, ..situation() }.recharge().price(&card()).unwrap();
    let refrigerant = recharge.lines().iter().find(|line| line.kind() == LineKind::Refrigerant).unwrap();
    assert_eq!(refrigerant.amount(), PriceRange::zero(card().currency));
}

#[test]
fn other_work_is_priced_together() {
    let capacitor = Work {
        tasks: vec![Task {
            what: "replace the run capacitor".into(),
            role: "technician".into(),
            band: "regular".into(),
            hours: Interval::new(hours(0.25), hours(0.25)).unwrap(),
        }],
        materials: vec![Item::one("run capacitor 40/7.5 µF")],
        ..Work::default()
    };
    let both = situation().recharge().also(capacitor, Words::default()).price(&card()).unwrap();
    let labor: Vec<_> = both.lines().iter().filter(|line| line.kind() == LineKind::Labor).collect();
    assert_eq!(labor.len(), 1);
    assert_eq!(labor[0].description(), "Technician");
    assert_eq!(labor[0].detail(), Some("recharge by weight, replace the run capacitor"));
    assert_eq!(labor[0].quantity().to_string(), "1.25–2.25 h");
    assert_eq!(both.total().to_string(), "708.41–986.40 USD"); // + 36.25 + 73.60, and tax on the part
}

#[test]
fn what_the_card_lacks_is_named() {
    let names = CardNames { sealant_and_dye: "sealant".into(), ..CardNames::default() };
    let error = Situation { names, ..situation() }.recharge_with_sealant().price(&card()).unwrap_err();
    assert_eq!(error.to_string(), r#"unknown material on the rate card "sealant""#);
}

#[test]
fn a_limit_is_agreed_within_reason() {
    let recharge = situation().recharge().price(&card()).unwrap();
    assert_eq!(
        recharge.clone().limited_to(money("700.00 USD")).unwrap().not_to_exceed(),
        money("700.00 USD")
    );
    let error = recharge.clone().limited_to(money("500.00 USD")).unwrap_err();
    assert_eq!(
        error.to_string(),
        "not_to_exceed: not-to-exceed amount 500.00 USD is out of range: from 593.23 USD up, to the cent; agree on an \
         amount that the least of the work fits in, or choose another way"
    );
    assert!(recharge.clone().limited_to(money("700.001 USD")).is_err());
    assert!(recharge.limited_to(money("700.00 CAD")).unwrap_err().is_inconsistent());
}

#[test]
fn a_changed_record_is_not_believed() {
    let json = serde_json::to_string(&situation().recharge().price(&card()).unwrap()).unwrap();
    for (old, new, complaint) in [
        (r#""amount":"871.22""#, r#""amount":"771.22""#, "not"),
        (r#""amount":"279.00""#, r#""amount":"239.00""#, "4.5–6.5 lb of"),
        (r#""amount":"29.22""#, r#""amount":"19.22""#, "price range"),
        (r#""title":"#, r#""titel":"#, "unknown field"),
    ] {
        assert!(json.contains(old));
        let error = serde_json::from_str::<PricedWay>(&json.replacen(old, new, 1)).unwrap_err().to_string();
        assert!(error.contains(complaint), "{error}");
    }
}
