//! Compositions and safety groups of the listed refrigerants against the lists they were read in.
#![allow(clippy::unwrap_used, clippy::panic, clippy::print_stdout, reason = "how a test fails and tells")]

use std::collections::BTreeMap;

use kingvalve::refrigerant::{Kind, Refrigerant, designations};
use kingvalve_tests::{Answer, Sheet, Table};

#[test]
fn compositions_are_the_listed_ones() {
    let sheet = Sheet::open("blend_compositions");
    for row in sheet.rows() {
        let name = row.text("designation");
        let r = Refrigerant::named(name).unwrap_or_else(|e| panic!("{}: {e}", row.place()));
        let names = row.text("components").split('/');
        let shares = row.text("mass_percent").split('/').map(|share| share.parse::<f64>().unwrap());
        let listed: BTreeMap<&str, f64> = names.zip(shares).collect();
        assert_eq!(listed.len(), r.components().count(), "{}", row.place());
        for (component, share) in r.components() {
            let wanted = listed.get(component).unwrap_or_else(|| panic!("{}: no {component}", row.place()));
            assert!((share.percent() - wanted).abs() < 1e-9, "{}: {component}", row.place());
        }
    }
    println!("{} compositions hold", sheet.rows().len());
}

#[test]
fn safety_groups_are_the_listed_ones() {
    Table::open("safety").check(|row| match Refrigerant::named(row.text("in_refrigerant")) {
        Ok(r) => match r.safety_group() {
            Some(group) => Answer::Text(group.to_string()),
            None => Answer::Text("none listed".to_owned()),
        },
        Err(_) => Answer::LeftOut("no equation of state, so not a refrigerant here"),
    });
}

#[test]
fn the_list_is_long_and_consistent() {
    let all: Vec<Refrigerant> = designations().map(|name| Refrigerant::named(name).unwrap()).collect();
    let pure = all.iter().filter(|r| r.kind() == Kind::Pure).count();
    println!("{} designations: {pure} pure, {} blends", all.len(), all.len() - pure);
    assert!(pure >= 45 && all.len() - pure >= 130);
    for r in &all {
        let sum: f64 = r.components().map(|(_, share)| share.fraction()).sum();
        assert!((sum - 1.0).abs() < 1e-12, "{r}");
        assert_eq!(r.is_blend(), r.kind() != Kind::Pure, "{r}");
        let series = r.designation().trim_start_matches("R-");
        match r.kind() {
            Kind::Zeotrope => assert!(series.starts_with('4') && series.len() >= 4, "{r}"),
            Kind::Azeotrope => assert!(series.starts_with('5') && series.len() >= 3, "{r}"),
            _ => {}
        }
        if let Some(tolerances) = r.composition_tolerances() {
            assert_eq!(tolerances.len(), r.components().count(), "{r}");
            for ((below, above), (_, share)) in tolerances.iter().zip(r.components()) {
                assert!(below.percent() <= 0.0 && above.percent() >= 0.0, "{r}");
                assert!(below.percent() + share.percent() > 0.0, "{r}");
            }
        }
    }
}

#[test]
fn accuracy_tells_what_each_pair_rests_on() {
    let mut by_basis: BTreeMap<String, usize> = BTreeMap::new();
    for r in designations().map(|name| Refrigerant::named(name).unwrap()) {
        let accuracy = r.accuracy();
        let n = r.components().count();
        assert_eq!(accuracy.pairs().len(), n * (n - 1) / 2, "{r}");
        assert_eq!(accuracy.papers().count(), n, "{r}");
        assert!(accuracy.papers().all(|(_, paper)| paper.len() > 20), "{r}");
        assert!(accuracy.pairs().iter().all(|pair| pair.paper.len() > 20), "{r}");
        assert!(accuracy.pairs().iter().all(|pair| pair.pressure_error <= accuracy.pressure_error()), "{r}");
        let basis = accuracy.basis().map_or("pure".to_owned(), |basis| basis.to_string());
        *by_basis.entry(basis).or_default() += 1;
    }
    println!("refrigerants by what their worst pair rests on: {by_basis:?}");
    let text = |name| Refrigerant::named(name).unwrap().accuracy().to_string();
    assert_eq!(text("R-32"), "about 0.5 % in pressure");
    assert_eq!(text("R-410A"), "R-32/R-125 measured; about 0.8 % in pressure");
}
