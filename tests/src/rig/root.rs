//! The root of a function that changes sign once.

/// Finds where `f` is zero between `low` and `high`, to `tolerance` in the argument; `None` where it does not change
/// sign, or is no number.
///
/// # Source
/// The Illinois variant of regula falsi: Dowell and Jarratt, BIT 11 (1971) 168.
pub fn between(mut low: f64, mut high: f64, tolerance: f64, mut f: impl FnMut(f64) -> f64) -> Option<f64> {
    let (mut at_low, mut at_high) = (f(low), f(high));
    if at_low == 0.0 {
        return Some(low);
    }
    if at_high == 0.0 {
        return Some(high);
    }
    if at_low.is_nan() || at_high.is_nan() || (at_low > 0.0) == (at_high > 0.0) {
        return None;
    }
    let mut last = 0;
    for round in 0..100 {
        // A function that is infinite at an end, or slow to close in, is halved.
        let even = !(at_low.is_finite() && at_high.is_finite()) || round % 12 == 11;
        let x = if even { 0.5 * (low + high) } else { (low * at_high - high * at_low) / (at_high - at_low) };
        let y = f(x);
        if y.is_nan() {
            return None;
        }
        if y == 0.0 || (high - low).abs() < tolerance {
            return Some(x);
        }
        let before = if (y > 0.0) == (at_low > 0.0) { low } else { high };
        if (y > 0.0) == (at_low > 0.0) {
            (low, at_low) = (x, y);
            if last == -1 {
                at_high *= 0.5;
            }
            last = -1;
        } else {
            (high, at_high) = (x, y);
            if last == 1 {
                at_low *= 0.5;
            }
            last = 1;
        }
        if !even && (x - before).abs() < 0.5 * tolerance {
            return Some(x);
        }
    }
    Some(0.5 * (low + high))
}
