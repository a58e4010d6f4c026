//! The rate card: read, refused with the field named, written.

use kingvalve::estimate::{LineKind, RateCard, Rounding, Uplift};

use super::support::{card, money};

const CARD: &str = include_str!("../../../../examples/data/rate_card.json");

/// The error of the example card with one piece of its text replaced.
fn refused(old: &str, new: &str) -> String {
    assert!(CARD.contains(old), "{old}");
    RateCard::from_json(&CARD.replacen(old, new, 1)).unwrap_err().to_string()
}

#[test]
fn the_example_card_says_that_it_is_invented() {
    assert!(card().note.unwrap().contains("invented"));
}

#[test]
fn a_card_written_reads_back_and_is_written_alike() {
    let json = card().to_json().unwrap();
    let again = RateCard::from_json(&json).unwrap();
    assert_eq!(again, card());
    assert_eq!(again.to_json().unwrap(), json);
}

#[test]
fn a_fault_names_its_field() {
    for (old, new, error) in [
        (
            r#""regular": "145.00 USD""#,
            r#""regular": "145 dollars""#,
            r#"labor.technician.regular: a rate card cannot be read: unknown ISO 4217 currency "dollars""#,
        ),
        (
            r#""regular": "145.00 USD""#,
            r#""regular": 145.0"#,
            r#"labor.technician.regular: a rate card cannot be read: invalid type: floating point `145.0`, expected money as "123.45 USD" or {"amount": "123.45", "currency": "USD"}"#,
        ),
        (
            r#""regular": "145.00 USD""#,
            r#""regular": "145.00 CAD""#,
            "labor.technician.regular: price: 145.00 CAD is not in the card's currency USD; keep one currency on a card",
        ),
        (
            r#""trip": "89.00 USD""#,
            r#""trip": "-89.00 USD""#,
            "fees.trip: price -89.00 USD is out of range: not below nothing; leave credits off the card",
        ),
        (
            r#""diagnosis": "60.00 USD""#,
            r#""trip": "60.00 USD""#,
            r#"a rate card cannot be read: the name "trip" stands twice at line 20 column 10"#,
        ),
        (
            r#""count": "started" } },"#,
            r#""count": "begun" } },"#,
            r#"refrigerants.R-22.billed.count: a rate card cannot be read: unknown variant `begun`, expected `started` or `nearest`"#,
        ),
        (
            r#""high": "9850.00 USD""#,
            r#""high": "985.00 USD""#,
            r#"replacements.outdoor unit and indoor coil, 3 tons: a rate card cannot be read: price range: the low end 7400.00 USD is above the high end 985.00 USD; swap the ends"#,
        ),
        (
            r#""markup": "15 %""#,
            r#""margin": "100 %""#,
            "uplift.material.margin: margin 100 % is out of range: below 100 %; a margin is a share of the price; give a markup if it is a share of the cost",
        ),
        (
            r#""rate": "7.25 %""#,
            r#""rate": "7.25""#,
            r#"taxes[0].rate: a rate card cannot be read: cannot read "7.25" as a rate in percent: write it as 8.25 %"#,
        ),
        (
            r#"["refrigerant", "material", "equipment"]"#,
            "[]",
            "taxes[0].on: tax: it is on no kind of line; name the kinds, or leave the tax out",
        ),
        (
            r#""shop": "Invented Air Service""#,
            r#""shop": " ""#,
            r#"shop: cannot read " " as a name: give it one"#,
        ),
    ] {
        assert_eq!(refused(old, new), error);
    }
}

#[test]
fn an_unknown_field_is_an_error_everywhere() {
    for (old, new, field) in [
        (r#""shop":"#, r#""shopp":"#, "shopp: "),
        (r#""per": "lb""#, r#""for": "lb""#, "refrigerants.R-22.for: "),
        (r#""step": "0.25""#, r#""steps": "0.25""#, "hours_billed.steps: "),
        (
            r#""low": "7400.00 USD""#,
            r#""lo": "7400.00 USD""#,
            "replacements.outdoor unit and indoor coil, 3 tons.lo: ",
        ),
        (r#""jurisdiction":"#, r#""county":"#, "taxes[0].county: "),
    ] {
        let error = refused(old, new);
        assert!(error.starts_with(field) && error.contains("unknown field"), "{error}");
    }
}

#[test]
fn a_broken_text_is_an_error() {
    for length in 0..CARD.trim_end().len() {
        let Some(cut) = CARD.get(..length) else { continue };
        assert!(RateCard::from_json(cut).unwrap_err().is_unreadable());
    }
    assert!(RateCard::from_json(&"[".repeat(100_000)).unwrap_err().is_unreadable());
}

#[test]
fn what_is_not_on_the_card_names_what_is_near() {
    let card = card();
    for (error, text) in [
        (
            card.labor_rate("technican", "regular").map(drop),
            r#"unknown role on the rate card "technican"; did you mean technician?"#,
        ),
        (card.labor_rate("technician", "night").map(drop), r#"unknown time band on the rate card "night""#),
        (
            card.refrigerant("R454B").map(drop),
            r#"unknown refrigerant on the rate card "R454B"; did you mean R-454B?"#,
        ),
        (card.fee("tripp").map(drop), r#"unknown fee on the rate card "tripp"; did you mean trip?"#),
        (
            card.material("filterdryer").map(drop),
            r#"unknown material on the rate card "filterdryer"; did you mean filter-drier?"#,
        ),
        (card.replacement("furnace").map(drop), r#"unknown replacement on the rate card "furnace""#),
    ] {
        assert_eq!(error.unwrap_err().to_string(), text);
    }
}

#[test]
fn uplift_goes_by_kind() {
    let card = card();
    let drier = card.material("filter-drier").unwrap();
    assert_eq!(card.unit_price(LineKind::Material, drier).unwrap(), money("82.80 USD"));
    assert_eq!(card.unit_price(LineKind::Labor, drier).unwrap(), drier);
    let margin = Uplift::Margin("35 %".parse().unwrap());
    assert_eq!(margin.on(money("37.77 USD"), Rounding::HalfUp).unwrap(), money("58.11 USD"));
    assert!(Uplift::Margin("100 %".parse().unwrap()).on(money("1 USD"), Rounding::HalfUp).is_err());
}
