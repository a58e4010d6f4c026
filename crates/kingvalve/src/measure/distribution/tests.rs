//! Against scipy, within the tolerances of the table.

use super::{normal_cdf, normal_cdf_of_both, normal_quantile, student_cdf, student_quantile};

const TABLE: &str = include_str!("../../../../../tests/reference/distributions.csv");

#[test]
fn values_are_those_of_scipy() {
    let mut checked = 0;
    for line in TABLE.lines().filter(|line| !line.starts_with('#')).skip(1) {
        let fields: Vec<&str> = line.split(',').collect();
        let number = |at: usize| fields[at].parse::<f64>().unwrap_or(f64::INFINITY);
        let (x, nu, expected) = (number(1), number(2), number(3));
        let got = match fields[0] {
            "normal_cdf" => normal_cdf(x),
            "normal_quantile" => normal_quantile(x),
            "student_cdf" => student_cdf(x, nu),
            "student_quantile" => student_quantile(x, nu),
            other => unreachable!("{other}"),
        };
        assert!((got - expected).abs() <= number(4).max(number(5) * expected.abs()), "{line}: got {got}");
        checked += 1;
    }
    assert!(checked > 400);
}

#[test]
fn quantiles_invert_and_are_symmetric() {
    for nu in [1.0, 2.5, 7.0, 40.0, 3e3, f64::INFINITY] {
        let mut last = 0.0;
        for step in 1..200 {
            let p = 0.5 + 0.5 * f64::from(step) / 200.0;
            let t = student_quantile(p, nu);
            assert!(t > last);
            assert!((student_cdf(t, nu) - p).abs() < 1e-13);
            assert!((student_cdf(-t, nu) - (1.0 - p)).abs() < 1e-13);
            last = t;
        }
    }
}

/// A pair taken together is what each is alone, to the bit, in every part of either tail.
#[test]
fn two_at_once_are_each_alone() {
    let at = |step: i32| f64::from(step) * 0.37;
    let edges = [f64::NEG_INFINITY, -5.656_854_249_492_381, -0.662_91, -0.0, 0.0, f64::INFINITY, f64::NAN];
    let places: Vec<f64> = (-110..=110).map(at).chain(edges).collect();
    for &a in &places {
        for &b in &places {
            let both = normal_cdf_of_both([a, b]).map(f64::to_bits);
            assert_eq!(both, [a, b].map(|x| normal_cdf(x).to_bits()), "{a} {b}");
        }
    }
}

#[test]
fn edges() {
    assert_eq!(normal_cdf(f64::INFINITY), 1.0);
    assert_eq!(normal_cdf(f64::NEG_INFINITY), 0.0);
    assert!(normal_cdf(f64::NAN).is_nan());
    assert_eq!(normal_quantile(0.0), f64::NEG_INFINITY);
    assert_eq!(normal_quantile(1.0), f64::INFINITY);
    assert!(normal_quantile(-0.1).is_nan());
    assert!(student_cdf(f64::NAN, 3.0).is_nan());
    assert_eq!(student_cdf(f64::INFINITY, 3.0), 1.0);
    assert_eq!(student_quantile(1.0, 3.0), f64::INFINITY);
    assert!(student_quantile(1.5, 3.0).is_nan());
}
