//! The charge to weigh in: density times area by hand, and what each part rests on.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::charge::*;
use kingvalve::measure::*;
use kingvalve::quantity::*;
use kingvalve::refrigerant::Refrigerant;
use proptest::prelude::*;

fn plate(allowance: Option<LineAllowance>) -> PlateCharge {
    PlateCharge { factory: pounds(6.0), included_line: feet(15.0), allowance }
}

/// Bores in in² as the reference that lists ASTM B280 prints them.
#[test]
fn bores_are_those_of_the_list() {
    for (outside, temper, bore) in [
        (0.250, Temper::Annealed, 0.0284),
        (0.375, Temper::Annealed, 0.076),
        (0.375, Temper::Drawn, 0.078),
        (0.500, Temper::Annealed, 0.149),
        (0.500, Temper::Drawn, 0.145),
        (0.625, Temper::Drawn, 0.233),
        (0.750, Temper::Annealed, 0.363),
        (0.875, Temper::Annealed, 0.484),
        (1.125, Temper::Drawn, 0.825),
        (1.375, Temper::Drawn, 1.26),
    ] {
        let tube = Tube::acr(inches(outside), temper).unwrap();
        assert!((tube.bore().square_inches() / bore - 1.0).abs() < 0.004, "{outside} {temper:?}");
    }
    assert!(Tube::acr(inches(0.4), Temper::Annealed).unwrap_err().is_out_of_range());
    assert!(Tube::acr(inches(0.25), Temper::Drawn).unwrap_err().is_inconsistent());
}

/// By hand: 0.311 in inside is 0.0760 in²; times 12 in is 0.9115 in³ = 14.938 cm³; liquid R-410A at its bubble
/// point at 95 °F has 1005.09 kg/m³ (CoolProp 8.0.0), so a foot holds 15.01 g = 0.5296 oz.
#[test]
fn the_computed_allowance_is_density_times_area() {
    let r = Refrigerant::named("R-410A").unwrap();
    let tube = Tube::acr(inches(0.375), Temper::Annealed).unwrap();
    let allowance = liquid_line_allowance(&r, tube, fahrenheit(95.0)).unwrap();
    let by_hand = 1005.09 * std::f64::consts::PI / 4.0 * (0.311 * 0.0254f64).powi(2) * 0.3048;
    assert!((allowance.mass.kilograms() / by_hand - 1.0).abs() < 1e-3, "{}", allowance.mass.grams());
    assert!((allowance.mass.ounces() - 0.5296).abs() < 1e-3 && allowance.per == feet(1.0));
    let charge = WeighIn::of(&plate(None), feet(40.0), Some(allowance)).unwrap();
    assert!((charge.total().value().pounds() - (6.0 + 25.0 * 0.5296 / 16.0)).abs() < 2e-3);
    assert_eq!(charge.parts()[1].basis, Basis::Computed);
    assert!(!charge.is_all_by_the_maker());
}

#[test]
fn the_makers_allowance_comes_before_a_computed_one() {
    let makers = LineAllowance { mass: ounces(0.6), per: feet(1.0) };
    let computed = LineAllowance { mass: ounces(0.5), per: feet(1.0) };
    let charge = WeighIn::of(&plate(Some(makers)), feet(40.0), Some(computed)).unwrap();
    assert_eq!(charge.parts()[1].basis, Basis::Maker);
    assert!((charge.total().value().pounds() - (6.0 + 25.0 * 0.6 / 16.0)).abs() < 1e-12);
    assert!(charge.is_all_by_the_maker());
    let with_drier = charge.with(Accessory::usual_filter_drier().unwrap()).unwrap();
    assert!(!with_drier.is_all_by_the_maker());
    let finding = with_drier.finding(&Refrigerant::named("R-32").unwrap()).unwrap();
    assert!(finding.text().contains("usual figure, common practice"), "{}", finding.text());
    assert!(finding.cautions().contains(&Caution::FlammableRefrigerant));
}

#[test]
fn what_cannot_be_is_a_clear_error() {
    let none = PlateCharge { factory: pounds(0.0), ..plate(None) };
    let error = WeighIn::of(&none, feet(15.0), None).unwrap_err();
    assert!(error.to_string().contains("a data plate gives more than none"), "{error}");
    let error = WeighIn::of(&plate(None), feet(40.0), None).unwrap_err();
    assert!(error.to_string().contains("gives no allowance"), "{error}");
    assert!(WeighIn::of(&plate(None), feet(15.0), None).is_ok());
    assert!(WeighIn::of(&plate(None), feet(-1.0), None).unwrap_err().is_out_of_range());
    let long = LineAllowance { mass: pounds(1.0), per: feet(1.0) };
    assert!(WeighIn::of(&plate(Some(long)), feet(5.0), None).unwrap_err().is_inconsistent());
    let less = Accessory::given("drier", ounces(-1.0), Basis::Maker);
    assert!(WeighIn::of(&plate(None), feet(15.0), None).unwrap().with(less).unwrap_err().is_out_of_range());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// The total is the sum of its parts, and the doubt of the length counts once per allowance.
    #[test]
    fn the_total_is_the_sum_of_its_parts(length in 16.0..200.0f64, ounce in 0.1..2.0f64, drier in 0.0..12.0f64) {
        let allowance = LineAllowance { mass: ounces(ounce), per: feet(1.0) };
        let tape = Measured::from_standard(feet(length), feet(0.5), "tape").unwrap();
        let charge = WeighIn::of(&plate(Some(allowance)), &tape, None).unwrap()
            .with(Accessory::given("drier", ounces(drier), Basis::Maker)).unwrap();
        let sum: Mass = charge.parts().iter().map(|part| part.mass.value()).sum();
        prop_assert!((charge.total().value() - sum).abs() < pounds(1e-9));
        prop_assert!((charge.total().standard_uncertainty() - ounces(0.5 * ounce)).abs() < pounds(1e-9));
        let plain = plate(Some(allowance)).for_line(feet(length)).unwrap() + ounces(drier);
        prop_assert!((charge.total().value() - plain).abs() < pounds(1e-9));
    }
}
