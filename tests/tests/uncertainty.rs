//! JCGM 100 and JCGM 106 examples.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::measure::{Coverage, Instrument, Level, Limits, Measured, Reading, Together};
use kingvalve::quantity::*;
use kingvalve_tests::{Answer, Row, Table};

#[test]
fn examples_of_the_gum_and_of_jcgm_106() {
    Table::open("uncertainty").check(|row| {
        let case = row.text("case");
        match case {
            _ if case.starts_with("gum_h2_") => h2(row, &case["gum_h2_".len()..]).into(),
            "gum_h1_second_order_uc" => Answer::LeftOut("propagation is first order"),
            _ if case.starts_with("gum_h3_") => Answer::LeftOut("no straight-line fit in this room"),
            "gum_h1_length_nm" => nm(h1().value()).into(),
            "gum_h1_uc_nm" => nm(h1().standard_uncertainty()).into(),
            "gum_h1_u_d_theta_nm" => h1_part("difference in temperature").into(),
            "gum_h1_u_d_alpha_nm" => h1_part("difference in expansion coefficient").into(),
            "gum_h1_u_ls_nm" => h1_part("standard").into(),
            "gum_h1_nu_eff" => h1().degrees_of_freedom().into(),
            "gum_h1_U99" | "gum_g4_U95" => {
                let standard = row.maybe_number("in_uc_nm").unwrap_or_else(|| row.number("in_uc_percent"));
                let given =
                    Measured::from_sample(meters(0.0), meters(standard), row.number("in_nu_eff"), "given");
                given.unwrap().expanded(level(row)).meters().into()
            }
            "gum_g4_uc" => g4(row).standard_uncertainty().meters().into(),
            "gum_g4_nu_eff" => g4(row).degrees_of_freedom().into(),
            _ if case.starts_with("t_") => {
                let unit = Measured::from_sample(meters(0.0), meters(1.0), row.number("in_nu_eff"), "given");
                unit.unwrap().expanded(level(row)).meters().into()
            }
            "rect_half_width_1" | "rect_alpha_cu" | "rect_dvm" => {
                let half_width = volts(row.number("in_half_width"));
                Measured::from_limits(volts(0.0), half_width, "given")
                    .unwrap()
                    .standard_uncertainty()
                    .volts()
                    .into()
            }
            "resolution_1" | "resolution_0p1F" => {
                let step = delta_fahrenheit(row.number("in_resolution"));
                let read = Reading::new(fahrenheit(70.0), Instrument::resolution(step)).unwrap();
                read.standard_uncertainty().delta_fahrenheit().into()
            }
            "triangular_1" | "arcsine_0p5" => Answer::LeftOut("no specification in the room has this shape"),
            "normal_99_resistor" => {
                // ±129 µΩ at 99 %: the half-width of a normal interval.
                let factor = Measured::from_standard(ohms(0.0), ohms(1.0), "unit").unwrap();
                let k = factor.expanded(level(row)).ohms();
                stated(ohms, row.number("in_expanded_U_uohm"), k).ohms().into()
            }
            "three_sigma_mass" => {
                stated(grams, row.number("in_expanded_U_ug"), row.number("in_k")).grams().into()
            }
            "spec_rss" => {
                let sum =
                    row.numbers("in_u_components").into_iter().fold(Measured::exact(volts(0.0)), |sum, u| {
                        sum + Measured::from_standard(volts(0.0), volts(u), "part").unwrap()
                    });
                sum.standard_uncertainty().volts().into()
            }
            _ if row.get("exp_conformance_probability").is_some() => conformity(row).into(),
            other => panic!("{other} is not answered"),
        }
    });
}

fn level(row: &Row) -> Level {
    Level::new(percent(row.number("in_level_percent"))).unwrap()
}

fn nm(length: Length) -> f64 {
    length.meters() * 1e9
}

/// An instrument whose accuracy is stated as an expanded uncertainty, far coarser than its step.
fn stated<Q: Quantity<Difference = Q>>(unit: fn(f64) -> Q, expanded: f64, k: f64) -> Q {
    let sheet =
        Instrument::resolution(unit(1e-6)).accuracy(unit(expanded)).accuracy_means(Coverage::Factor(k));
    Reading::new(unit(0.0), sheet).unwrap().standard_uncertainty()
}

/// H.1: l = ls + d − ls(δα·θ + αs·δθ), in meters; ratios carry 1/K and K.
fn h1() -> Measured<Length> {
    let (ls, d) = (50_000_623e-9, 215e-9);
    let (alpha, theta) = (11.5e-6, -0.1);
    let standard = Measured::from_sample(meters(ls), meters(25e-9), 18.0, "standard").unwrap();
    let comparison = [(5.8, 24.0, "repeats"), (3.9, 5.0, "random"), (6.7, 8.0, "systematic")]
        .map(|(u, nu, label)| Measured::from_sample(meters(0.0), meters(u * 1e-9), nu, label).unwrap())
        .into_iter()
        .fold(Measured::exact(meters(d)), |sum, part| sum + part);
    let rectangular = |half: f64, nu: f64, label: &'static str| {
        Measured::from_sample(fraction(0.0), fraction(half / 3f64.sqrt()), nu, label).unwrap()
    };
    let d_alpha = rectangular(1e-6, 50.0, "difference in expansion coefficient");
    let d_theta = rectangular(0.05, 2.0, "difference in temperature");
    Measured::exact(meters(ls + d))
        .depending_on(&standard, 1.0)
        .depending_on(&comparison, 1.0)
        .depending_on(&d_alpha, -ls * theta)
        .depending_on(&d_theta, -ls * alpha)
}

fn h1_part(label: &str) -> f64 {
    let length = h1();
    let part = length.contributions().into_iter().find(|part| part.label == label).unwrap();
    nm(length.standard_uncertainty()) * part.share.fraction().sqrt()
}

fn g4(row: &Row) -> Measured<Length> {
    let parts = row.numbers("in_u_components").into_iter().zip(row.numbers("in_nu_components"));
    parts.fold(Measured::exact(meters(0.0)), |sum, (u, nu)| {
        sum + Measured::from_sample(meters(0.0), meters(u), nu, "part").unwrap()
    })
}

fn h2(row: &Row, what: &str) -> f64 {
    let set = Together::of(5).unwrap();
    let v = set.mean(&row.numbers("in_V_V").into_iter().map(volts).collect::<Vec<_>>()).unwrap();
    let i = set.mean(&row.numbers("in_I_mA").into_iter().map(milliamperes).collect::<Vec<_>>()).unwrap();
    let phi = set.mean(&row.numbers("in_phi_rad").into_iter().map(fraction).collect::<Vec<_>>()).unwrap();
    let z = v.clone() / i.clone();
    let (ohm, angle) = (z.value(), phi.value().fraction());
    let r = z.clone().map(ohm * angle.cos(), angle.cos()).depending_on(&phi, -ohm.ohms() * angle.sin());
    let x = z.clone().map(ohm * angle.sin(), angle.sin()).depending_on(&phi, ohm.ohms() * angle.cos());
    match what {
        "mean_V" => v.value().volts(),
        "mean_I_mA" => i.value().milliamperes(),
        "mean_phi_rad" => angle,
        "u_mean_V" => v.standard_uncertainty().volts(),
        "u_mean_I_mA" => i.standard_uncertainty().milliamperes(),
        "u_mean_phi_rad" => phi.standard_uncertainty().fraction(),
        "r_V_I" => v.correlation(&i),
        "r_V_phi" => v.correlation(&phi),
        "r_I_phi" => i.correlation(&phi),
        "R_ohm" => r.value().ohms(),
        "X_ohm" => x.value().ohms(),
        "Z_ohm" => ohm.ohms(),
        "u_R_ohm" => r.standard_uncertainty().ohms(),
        "u_X_ohm" => x.standard_uncertainty().ohms(),
        "u_Z_ohm" => z.standard_uncertainty().ohms(),
        "r_R_X" => r.correlation(&x),
        "r_R_Z" => r.correlation(&z),
        "r_X_Z" => x.correlation(&z),
        other => panic!("{other} is not answered"),
    }
}

fn conformity(row: &Row) -> f64 {
    let limit = |column: &str| row.maybe_number(column).map(volts);
    let limits = match (limit("in_lower_limit"), limit("in_upper_limit")) {
        (Some(lower), Some(upper)) => Limits::between(lower, upper),
        (Some(lower), None) => Limits::at_least(lower),
        (None, Some(upper)) => Limits::at_most(upper),
        (None, None) => panic!("{}: no limit", row.place()),
    };
    let value =
        Measured::from_standard(volts(row.number("in_y")), volts(row.number("in_u")), "given").unwrap();
    let verdict = limits.unwrap().judge(&value, Level::default()).unwrap();
    verdict.judgement().probability_within().fraction()
}
