//! Integrals of smooth functions between knots.
#![allow(clippy::excessive_precision, reason = "nodes as computed")]

/// Nodes and weights of 16-point Gauss–Legendre quadrature, positive half (numpy 2.4.6, `leggauss(16)`).
const GAUSS: [(f64, f64); 8] = [
    (0.095_012_509_837_637_44, 0.189_450_610_455_068_64),
    (0.281_603_550_779_258_9, 0.182_603_415_044_923_64),
    (0.458_016_777_657_227_39, 0.169_156_519_395_002_65),
    (0.617_876_244_402_643_8, 0.149_595_988_816_576_7),
    (0.755_404_408_355_003, 0.124_628_971_255_534_07),
    (0.865_631_202_387_831_8, 0.095_158_511_682_492_6),
    (0.944_575_023_073_232_6, 0.062_253_523_938_647_456),
    (0.989_400_934_991_649_9, 0.027_152_459_411_754_176),
];

/// The integral of `f` from `low` to `high`, by 16-point Gauss–Legendre quadrature between the knots that lie there.
pub(super) fn integral(f: impl Fn(f64) -> f64, low: f64, high: f64, knots: &[f64]) -> f64 {
    let mut sum = 0.0;
    let mut from = low;
    for to in knots.iter().copied().filter(|knot| *knot > low && *knot < high).chain([high]) {
        let (middle, half) = (0.5 * (from + to), 0.5 * (to - from));
        if half > 0.0 {
            let both = |(x, w): &(f64, f64)| w * (f(middle - half * x) + f(middle + half * x));
            sum += half * GAUSS.iter().map(both).sum::<f64>();
            from = to;
        }
    }
    sum
}

/// Where a function that changes over `width` near `centre` is cut: every width, eight to either side.
pub(super) fn around(centre: f64, width: f64) -> impl Iterator<Item = f64> {
    (-8..=8).map(move |k| centre + f64::from(k) * width)
}
