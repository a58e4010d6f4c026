//! What is left in a cylinder as vapour is drawn off, against an integration on teqp's equilibria.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::refrigerant::Refrigerant;
use kingvalve_tests::{Answer, Table, close_on_scale};

#[test]
fn the_composition_left_is_the_one_integrated_elsewhere() {
    let mut worst = 0.0_f64;
    Table::open("withdrawal").check(|row| {
        let r = Refrigerant::named(row.text("in_refrigerant")).unwrap();
        let fluid = r.fluid();
        let (t, share) = (row.number("in_temperature_k"), row.number("in_mass_share_drawn"));
        let density = row.number("in_density_kg_m3") / fluid.molar_mass();
        let after = fluid.withdraw_vapour(t, density, share, 16).unwrap();
        close_on_scale("drawn", after.mass_share_gone, share, 1e-12).unwrap();
        let component = fluid.components().position(|name| name == row.text("in_component")).unwrap();
        let left = after.mass_fractions_left[component];
        worst = worst.max((left - row.number("exp_mass_fraction_left")).abs());
        Answer::Number(left)
    });
    // Promised are 0.1 % by mass; the two integrations agree far better.
    assert!(worst < 1e-5, "{worst:e}");
}
