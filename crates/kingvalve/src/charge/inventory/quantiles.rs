//! Quantiles of weighted values.

/// The shares whose quantiles are asked for.
const WANTED: [f64; 5] = [0.05, 0.25, 0.5, 0.75, 0.95];
/// The values fall into so many heaps of equal width; only heaps in which a quantile lies are sorted.
const HEAPS: usize = 128;

/// Quantiles of values with weights above zero, each weight centred on its value and straight lines between; `None` where
/// there is no value.
pub(super) fn quantiles(values: &[(f64, f64)]) -> Option<[f64; 5]> {
    let (mut least, mut most, mut total) = (f64::INFINITY, f64::NEG_INFINITY, 0.0);
    for &(value, weight) in values {
        least = least.min(value);
        most = most.max(value);
        total += weight;
    }
    if !(total > 0.0 && total.is_finite() && (most - least).is_finite()) {
        return None;
    }
    let scale = if most > least { (HEAPS - 1) as f64 / (most - least) } else { 0.0 };
    let heap_of: Vec<u8> = values.iter().map(|(value, _)| ((value - least) * scale) as u8).collect();
    // Of each heap: its weight, and its largest value with that one's weight.
    let mut heaps = [(0.0, f64::NEG_INFINITY, 0.0); HEAPS];
    for (&(value, weight), index) in values.iter().zip(&heap_of) {
        if let Some((all, largest, of_largest)) = heaps.get_mut(usize::from(*index)) {
            *all += weight;
            if value >= *largest {
                (*largest, *of_largest) = (value, weight);
            }
        }
    }
    let mut out = [most; 5];
    let mut next = 0;
    // What was passed: the weight of all, and the last value with the share that its own middle stands at.
    let (mut passed, mut last) = (0.0, None::<(f64, f64)>);
    let mut sorted = Vec::new();
    for (index, (weight, largest, of_largest)) in heaps.into_iter().enumerate() {
        let Some(wanted) = WANTED.get(next) else { break };
        let end = (passed + weight - 0.5 * of_largest) / total;
        if weight == 0.0 || end < *wanted {
            passed += weight;
            last = if weight > 0.0 { Some((largest, end)) } else { last };
            continue;
        }
        sorted.clear();
        let here = values.iter().zip(&heap_of).filter(|(_, of)| usize::from(**of) == index);
        sorted.extend(here.map(|(value, _)| *value));
        sorted.sort_unstable_by(|a: &(f64, f64), b: &(f64, f64)| a.0.total_cmp(&b.0));
        for &(value, weight) in &sorted {
            let here = (passed + 0.5 * weight) / total;
            while let (Some(slot), Some(share)) = (out.get_mut(next), WANTED.get(next)) {
                if here < *share {
                    break;
                }
                *slot = match last {
                    Some((before, at)) if here > at => before + (value - before) * (share - at) / (here - at),
                    _ => value,
                };
                next += 1;
            }
            passed += weight;
            last = Some((value, here));
        }
    }
    Some(out)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The same by sorting everything.
    fn slowly(values: &[(f64, f64)]) -> [f64; 5] {
        let mut sorted: Vec<(f64, f64)> = values.to_vec();
        sorted.sort_by(|a, b| a.0.total_cmp(&b.0));
        let total: f64 = sorted.iter().map(|v| v.1).sum();
        let mut middles = Vec::new();
        let mut passed = 0.0;
        for (value, weight) in &sorted {
            middles.push(((passed + 0.5 * weight) / total, *value));
            passed += weight;
        }
        WANTED.map(|share| match middles.iter().position(|(at, _)| *at >= share) {
            None => middles.last().unwrap().1,
            Some(0) => middles[0].1,
            Some(n) => {
                let ((a, low), (b, high)) = (middles[n - 1], middles[n]);
                low + (high - low) * (share - a) / (b - a)
            }
        })
    }

    #[test]
    fn heaps_give_what_sorting_gives() {
        let mut random = crate::measure::Generator::seeded(5);
        for case in 0..200 {
            let count = 1 + case % 37 * 9;
            let values: Vec<(f64, f64)> = (0..count)
                .map(|_| {
                    let value = random.normal() * if random.uniform() < 0.02 { 1e4 } else { 1.0 };
                    let weight = 1e-3 + random.uniform().powi(1 + case % 6);
                    (value, weight)
                })
                .chain([(0.5, 0.1)])
                .collect();
            let (fast, slow) = (quantiles(&values).unwrap(), slowly(&values));
            for (fast, slow) in fast.into_iter().zip(slow) {
                assert!((fast - slow).abs() <= 1e-9 * (1.0 + slow.abs()), "{case}: {fast} {slow}");
            }
        }
    }

    #[test]
    fn edges() {
        assert_eq!(quantiles(&[]), None);
        assert_eq!(quantiles(&[(2.0, 3.0)]), Some([2.0; 5]));
        assert_eq!(quantiles(&[(1.0, f64::INFINITY)]), None);
    }
}
