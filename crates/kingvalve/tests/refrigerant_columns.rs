//! Columns of readings against one reading at a time.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::quantity::*;
use kingvalve::refrigerant::Refrigerant;
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn a_column_says_what_each_of_its_rows_says(
        kelvin in prop::collection::vec(prop_oneof![200.0..500.0, Just(f64::NAN), Just(-1.0)], 0..200),
    ) {
        let r = Refrigerant::named("R-407C").unwrap();
        let t: Vec<Temperature> = kelvin.iter().map(|&t| kelvins(t)).collect();
        let mut p = vec![pascals(0.0); t.len()];
        let mut back = vec![kelvins(0.0); t.len()];
        let mut density = vec![kilograms_per_cubic_meter(0.0); t.len()];
        for dew in [false, true] {
            if dew {
                r.dew_pressures(&t, &mut p).unwrap();
                r.dew_temperatures(&p, &mut back).unwrap();
                r.dew_densities(&t, &mut density).unwrap();
            } else {
                r.bubble_pressures(&t, &mut p).unwrap();
                r.bubble_temperatures(&p, &mut back).unwrap();
                r.bubble_densities(&t, &mut density).unwrap();
            }
            for row in 0..t.len() {
                let (one, rho) = if dew {
                    (r.dew_pressure(t[row]), r.dew_density(t[row]))
                } else {
                    (r.bubble_pressure(t[row]), r.bubble_density(t[row]))
                };
                match one {
                    Ok(one) => {
                        prop_assert_eq!(p[row], one);
                        prop_assert!((back[row].kelvins() - t[row].kelvins()).abs() < 1e-6);
                        prop_assert!((density[row] / rho.unwrap() - 1.0).abs() < 1e-14);
                    }
                    Err(_) => prop_assert!(!p[row].is_finite() && !back[row].is_finite() && !density[row].is_finite()),
                }
            }
        }
    }
}

#[test]
fn columns_of_different_lengths_are_refused() {
    let r = Refrigerant::named("R-32").unwrap();
    let error = r.dew_temperatures(&[psia(100.0)], &mut []).unwrap_err();
    assert_eq!(
        error.to_string(),
        "columns: 1 rows are given and there is room for 0; give both the same length"
    );
}
