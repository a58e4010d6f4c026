//! Evenly spread points in seven dimensions: six as standard normals, one as a share.
//!
//! Source: additive recurrence with the powers of 1/g, g⁸ = g + 1, the seven-dimensional form of the golden ratio's
//! (Weyl's sequences; H. Niederreiter, "Random Number Generation and Quasi-Monte Carlo Methods", SIAM 1992, ch. 3; the
//! choice of g: M. Roberts, "The unreasonable effectiveness of quasirandom sequences", 2018). The noise beside them goes by the
//! golden ratio itself.

use std::sync::LazyLock;

use crate::measure::{normal_cdf, normal_quantile};

/// What is supposed of a system has so many coordinates: the oil's uptake, gauge, thermometer, composition, how the
/// uptake steepens, and last the volume.
pub(super) const COORDINATES: usize = 6;
pub(super) const VOLUME: usize = COORDINATES - 1;
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
    /// A standard normal's value besides, evenly spread too.
    pub noise: f64,
}

/// The points, the same in every run; every beginning of them is evenly spread.
pub(super) fn points() -> &'static [Point] {
    static POINTS: LazyLock<Vec<Point>> = LazyLock::new(|| (0..LONGEST).map(point).collect());
    &POINTS
}

/// The share of a standard normal below a value, within 1e-5: straight lines between nodes. It stands for what is supposed,
/// never for a probability.
pub(super) fn even(normal: f64) -> f64 {
    const REACH: f64 = 6.0;
    const PER_UNIT: f64 = 64.0;
    static NODES: LazyLock<Vec<f64>> = LazyLock::new(|| {
        let count = (2.0 * REACH * PER_UNIT) as usize + 2;
        (0..count).map(|node| normal_cdf(node as f64 / PER_UNIT - REACH)).collect()
    });
    let place = (normal.clamp(-REACH, REACH) + REACH) * PER_UNIT;
    let node = place as usize;
    match NODES.get(node..node + 2) {
        Some(&[below, above]) => below + (place - node as f64) * (above - below),
        _ => normal_cdf(normal),
    }
}

fn point(index: usize) -> Point {
    const G: f64 = 1.096_981_557_798_559_8;
    let at = |dimension: i32| (0.5 + (index + 1) as f64 * G.powi(-dimension)).fract().clamp(1e-9, 1.0 - 1e-9);
    let turned = |number: usize| (number as f64 + 1.0) * 0.618_033_988_749_894_9 % 1.0;
    let share = |of: f64, number: usize| Share {
        of,
        quantile: normal_quantile(of),
        noise: normal_quantile(turned(2 * index + number)),
    };
    let first = at(7);
    let second = (first + 0.5).fract().clamp(1e-9, 1.0 - 1e-9);
    Point {
        normal: [2, 3, 4, 5, 6, 1].map(|dimension| normal_quantile(at(dimension))),
        shares: [share(first, 0), share(second, 1)],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn even_is_the_share_below() {
        for index in -900..=900 {
            let normal = f64::from(index) / 100.0;
            assert!((even(normal) - normal_cdf(normal)).abs() < 1e-5, "{normal}");
        }
    }
}
