//! The scale of the price bars. Drawing only: nothing here is billed.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use crate::estimate::PriceRange;

/// A linear scale from nothing to a round amount, drawn `WIDTH` wide.
pub(super) struct Scale {
    top: f64,
    step: f64,
}

/// Width of a bar's picture, in CSS pixels.
pub(super) const WIDTH: f64 = 360.0;
/// Steps of a scale, times a power of ten.
const ROUND: [f64; 4] = [1.0, 2.0, 2.5, 5.0];
/// Steps on a scale at most.
const MOST_STEPS: f64 = 6.0;

impl Scale {
    /// The least round scale that holds every range.
    pub(super) fn over(ranges: impl Iterator<Item = PriceRange>) -> Self {
        let most = ranges.map(|range| number(range.high().amount())).fold(0.0, f64::max);
        let rough = (most / MOST_STEPS).max(1.0);
        let power = 10_f64.powf(rough.log10().floor());
        let step =
            ROUND.iter().map(|round| round * power).find(|step| *step >= rough).unwrap_or(10.0 * power);
        Self { top: step * (most / step).ceil().max(1.0), step }
    }

    /// Where an amount stands, in pixels from the left.
    pub(super) fn at(&self, amount: Decimal) -> f64 {
        self.place(number(amount))
    }

    /// The ticks: where each stands and the whole amount it marks.
    pub(super) fn ticks(&self) -> Vec<(f64, Decimal)> {
        let count = (self.top / self.step).round() as u32;
        let tick = |index: u32| {
            let amount = self.step * f64::from(index);
            (self.place(amount), Decimal::from(amount.round() as i64))
        };
        (0..=count).map(tick).collect()
    }

    fn place(&self, amount: f64) -> f64 {
        (amount / self.top * WIDTH * 10.0).round() / 10.0
    }
}

fn number(amount: Decimal) -> f64 {
    amount.to_f64().unwrap_or(0.0)
}
