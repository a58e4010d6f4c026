//! The same reading, taken another way: what it would know.

use super::Reading;
use crate::measure::Instrument;
use crate::quantity::Quantity;
use crate::{Error, Result};

impl<Q: Quantity> Reading<Q> {
    /// The same value, had it been read on another instrument. The scatter of repeats stays: it is of what was read.
    ///
    /// # Errors
    /// Where that instrument does not reach the value.
    pub fn on(&self, instrument: Instrument<Q>) -> Result<Reading<Q>> {
        let read = match self.repeats() {
            [] => Reading::new(self.value, instrument),
            repeats => Reading::repeated(repeats, instrument),
        }?;
        Ok(self.told_of(read))
    }

    /// The same value, had it been repeated so often with the scatter seen so far.
    ///
    /// # Source
    /// JCGM 100:2008, 4.2: the scatter of a mean falls as 1/√n. The step and the accuracy stay.
    /// # Errors
    /// Unless it was repeated at all, and the number is even and at least two (the planned readings lie evenly to
    /// either side of the mean).
    pub fn repeated_planned(&self, count: usize) -> Result<Reading<Q>> {
        let Some(repeats) = &self.repeats else {
            return Err(Error::inconsistent(
                format!("repeats of {}", Q::NAME),
                "one reading alone shows no scatter",
                "repeat it at least once before planning more",
            ));
        };
        if count < 2 || !count.is_multiple_of(2) {
            let advice = "plan two, four, six … readings";
            return Err(Error::out_of_range(
                "number of repeats",
                count,
                "it is even and at least two",
                advice,
            ));
        }
        let deviation = repeats.scatter * (repeats.values.len() as f64).sqrt();
        // n values at ± this have the experimental standard deviation of those seen.
        let step = deviation * ((count as f64 - 1.0) / count as f64).sqrt();
        let value = self.value.base();
        let planned: Vec<Q> = (0..count)
            .map(|at| Q::from_base(if at % 2 == 0 { value + step } else { value - step }))
            .collect();
        Ok(self.told_of(Reading::repeated(&planned, self.instrument.clone())?))
    }

    fn told_of(&self, mut read: Reading<Q>) -> Reading<Q> {
        if !self.label.is_empty() {
            read = read.labelled(self.label.clone());
        }
        match self.ambient {
            Some(ambient) => read.at_ambient(ambient),
            None => read,
        }
    }
}
