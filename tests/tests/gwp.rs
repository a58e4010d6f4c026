//! Warming potentials of components and blends against the published ones.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::quantity::{percent, pounds};
use kingvalve::refrigerant::{Assessment, Refrigerant, designations};
use kingvalve_tests::{Answer, Row, Table};

#[test]
fn potentials_are_the_published_ones() {
    Table::open("gwp").check(|row| {
        let assessment = match row.text("in_basis") {
            "AR4 convention" => Assessment::Ar4,
            "US AIM Act" => {
                return Answer::LeftOut("exchange values are law, not an assessment report's potential");
            }
            "TAR" => return Answer::LeftOut("the third report is not offered"),
            basis => basis.parse().unwrap(),
        };
        let gwp = refrigerant(row).gwp(assessment).unwrap_or_else(|e| panic!("{}: {e}", row.place()));
        if row.get("in_composition_mass_percent").is_none() {
            assert_eq!(gwp.is_upper_bound(), row.get("exp_gwp100_upper_bound").is_some(), "{}", row.place());
        }
        gwp.kilograms_per_kilogram().into()
    });
}

/// As its row composes it, which must be the composition listed where the refrigerant is a listed one.
fn refrigerant(row: &Row) -> Refrigerant {
    let listed = row.get("in_refrigerant").map(Refrigerant::named);
    let Some(composition) = row.get("in_composition_mass_percent") else {
        return listed.unwrap().unwrap();
    };
    let parts: Vec<(&str, f64)> = composition
        .split(';')
        .map(|part| part.split_once('=').unwrap_or_else(|| panic!("{}: {part}", row.place())))
        .map(|(name, share)| (name, share.parse().unwrap()))
        .collect();
    let parts: Vec<_> = parts.into_iter().map(|(name, share)| (name, percent(share))).collect();
    let composed = Refrigerant::by_mass(&parts).unwrap();
    if let Some(Ok(listed)) = listed {
        let shares = |r: &Refrigerant| {
            let mut shares: Vec<_> =
                r.components().map(|(name, share)| format!("{name} {:.6}", share.percent())).collect();
            shares.sort();
            shares
        };
        assert_eq!(shares(&listed), shares(&composed), "{}", row.place());
    }
    composed
}

#[test]
fn every_listed_refrigerant_has_a_potential_or_says_which_component_has_none() {
    for name in designations() {
        let r = Refrigerant::named(name).unwrap();
        for assessment in [Assessment::Ar4, Assessment::Ar5, Assessment::Ar6] {
            match r.gwp(assessment) {
                Ok(gwp) => {
                    let values: Vec<f64> = r
                        .components()
                        .map(|(part, _)| Refrigerant::named(part).unwrap().gwp(assessment).unwrap())
                        .map(|gwp| gwp.kilograms_per_kilogram())
                        .collect();
                    let (low, high) = (
                        values.iter().copied().fold(f64::INFINITY, f64::min),
                        values.iter().copied().fold(0.0, f64::max),
                    );
                    let value = gwp.kilograms_per_kilogram();
                    assert!(value >= low - 1e-9 && value <= high + 1e-9, "{name} {assessment}");
                    assert!(!gwp.sources().is_empty());
                    let both = gwp.carbon_dioxide_equivalent(pounds(1.0)) * 2.0;
                    assert_eq!(gwp.carbon_dioxide_equivalent(pounds(2.0)), both);
                }
                Err(error) => {
                    let text = error.to_string();
                    assert!(error.is_inconsistent() && text.contains(&assessment.to_string()), "{text}");
                    assert!(r.components().any(|(part, _)| text.contains(&format!("for {part} "))), "{text}");
                }
            }
        }
    }
}
