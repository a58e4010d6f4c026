//! Evenly spread points in six dimensions: five as standard normals, one as a share.
//!
//! Source: additive recurrence with the powers of 1/g, g⁷ = g + 1, the six-dimensional form of the golden ratio's
//! (Weyl's sequences; H. Niederreiter, "Random Number Generation and Quasi-Monte Carlo Methods", SIAM 1992, ch. 3; the
//! choice of g: M. Roberts, "The unreasonable effectiveness of quasirandom sequences", 2018).

use std::sync::LazyLock;

use crate::measure::normal_quantile;

/// What is supposed of a system has so many coordinates: volume, the oil's uptake, gauge,
/// composition, how the uptake steepens.
pub(super) const COORDINATES: usize = 5;
/// The longest run of points.
pub(super) const LONGEST: usize = 1024;

/// One point.
#[derive(Debug, Clone, Copy)]
pub(super) struct Point {
    pub normal: [f64; COORDINATES],
    /// Two shares half apart, each with the normal quantile of it.
    pub shares: [Share; 2],
}

/// A probability, and the standard normal's value that is not exceeded with it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Share {
    pub of: f64,
    pub quantile: f64,
}

/// The points, the same in every run; every beginning of them is evenly spread.
pub(super) fn points() -> &'static [Point] {
    static POINTS: LazyLock<Vec<Point>> = LazyLock::new(|| (0..LONGEST).map(point).collect());
    &POINTS
}

fn point(index: usize) -> Point {
    const G: f64 = 1.112_775_684_278_705_5;
    let at = |dimension: i32| (0.5 + (index + 1) as f64 * G.powi(-dimension)).fract().clamp(1e-9, 1.0 - 1e-9);
    let share = |of: f64| Share { of, quantile: normal_quantile(of) };
    let first = at(6);
    let second = (first + 0.5).fract().clamp(1e-9, 1.0 - 1e-9);
    Point {
        normal: [1, 2, 3, 4, 5].map(|dimension| normal_quantile(at(dimension))),
        shares: [share(first), share(second)],
    }
}
