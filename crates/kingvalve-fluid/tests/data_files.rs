//! Every data file is compiled in, and every one of them makes a working fluid.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::path::Path;

use kingvalve_fluid::{Fluid, pure_names};

fn files(folder: &str) -> usize {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("data").join(folder);
    std::fs::read_dir(path)
        .unwrap()
        .filter(|entry| entry.as_ref().unwrap().path().extension().unwrap() == "json")
        .count()
}

#[test]
fn every_pure_fluid_file_is_in_the_table() {
    assert_eq!(pure_names().count(), files("pure"));
    let table = include_str!("../src/data/files.rs");
    assert_eq!(table.matches("/pair/").count(), files("pair"));
}

#[test]
fn every_pure_fluid_boils() {
    for name in pure_names() {
        let fluid = Fluid::pure(name).unwrap();
        assert_eq!(fluid.components().collect::<Vec<_>>(), [name]);
        let critical = fluid.critical_point().unwrap();
        let middle = 0.5 * (fluid.temperature_range().0 + critical.temperature);
        let bubble = fluid.bubble_at_temperature(middle).unwrap_or_else(|e| panic!("{name}: {e}"));
        assert!(bubble.pressure > 0.0 && bubble.pressure < critical.pressure, "{name}");
        // The equation meets its own critical point: p(T_c, ρ_c) = p_c.
        let hotter = (critical.temperature * 1.0001).min(fluid.temperature_range().1);
        assert!(fluid.density(hotter, critical.pressure * 0.5).unwrap() > 0.0, "{name}");
    }
}
