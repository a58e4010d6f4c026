//! The scale of a picture of amounts. Drawing only: nothing here is billed.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use crate::estimate::Money;

/// A linear scale from nothing to a round amount, drawn so many pixels long.
pub(super) struct Scale {
    top: f64,
    step: f64,
    length: f64,
}

/// Steps of a scale, times a power of ten.
const ROUND: [f64; 4] = [1.0, 2.0, 2.5, 5.0];

impl Scale {
    /// The least round scale that holds every amount, in so many steps at most.
    pub(super) fn over(amounts: impl Iterator<Item = Money>, length: f64, steps: f64) -> Self {
        let most = amounts.map(|amount| number(amount.amount())).fold(0.0, f64::max);
        let rough = (most / steps).max(1.0);
        let power = 10_f64.powf(rough.log10().floor());
        let step =
            ROUND.iter().map(|round| round * power).find(|step| *step >= rough).unwrap_or(10.0 * power);
        Self { top: step * (most / step).ceil().max(1.0), step, length }
    }

    /// Where an amount stands, in pixels from the beginning.
    pub(super) fn at(&self, amount: Money) -> f64 {
        self.place(number(amount.amount()))
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
        tenth(amount / self.top * self.length)
    }
}

/// To a tenth of a pixel.
pub(super) fn tenth(pixels: f64) -> f64 {
    (pixels * 10.0).round() / 10.0
}

fn number(amount: Decimal) -> f64 {
    amount.to_f64().unwrap_or(0.0)
}
