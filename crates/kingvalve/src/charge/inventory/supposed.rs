//! What is supposed of a system, and what its oil holds.

/// What is supposed of a system.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Supposed {
    /// m³
    pub volume: f64,
    pub oil: Uptake,
    /// Standard deviations of the gauge's common doubt.
    pub gauge: f64,
    /// Share of the furthest shift of composition.
    pub shift: f64,
}

/// Refrigerant in the oil at a share s of the saturation pressure: slope·s/(1 − steepening·s).
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Uptake {
    /// kg per share of saturation, near nothing.
    pub slope: f64,
    /// From 0, Henry's law, to below 1, Raoult's.
    pub steepening: f64,
}

impl Uptake {
    /// kg; what lies above saturation counts as saturation.
    #[inline]
    pub fn held(&self, share: f64) -> f64 {
        let share = share.min(1.0);
        self.slope * share / (1.0 - self.steepening * share)
    }
}

#[cfg(test)]
mod tests {
    use super::Uptake;

    #[test]
    fn nothing_at_nothing_and_steeper_towards_saturation() {
        for steepening in [0.0, 0.5, 0.97] {
            let oil = Uptake { slope: 0.2, steepening };
            assert_eq!(oil.held(0.0), 0.0);
            let held: Vec<f64> = (0..=10).map(|n| oil.held(0.1 * f64::from(n))).collect();
            let rises: Vec<f64> = held.windows(2).map(|pair| pair[1] - pair[0]).collect();
            assert!(rises[0] > 0.0 && rises.windows(2).all(|pair| pair[1] >= pair[0] - 1e-12), "{rises:?}");
            assert_eq!(oil.held(1.5), oil.held(1.0));
        }
        assert_eq!(Uptake { slope: 0.2, steepening: 0.0 }.held(0.4), 0.2 * 0.4);
    }
}
