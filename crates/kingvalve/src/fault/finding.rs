//! The ranking in the shape shared by all checks.

use super::{Basis, Fault, Metering, NextReading, Ranking, Spreads};
use crate::Result;
use crate::measure::{Caution, Finding};
use crate::quantity::Ratio;

/// Below this fit the text says that no single fault explains the readings: common practice, no source.
const POOR_FIT: f64 = 0.01;
/// A reading is worth taking where it raises the chance to be right by so many percent: common practice, no source.
const HELPS: f64 = 1.0;
/// From this probability on the likeliest fault is called so without reserve: common practice, no source.
const STANDS_OUT: f64 = 0.5;

/// A probability in words: neither 0 % nor 100 % is ever meant.
fn share(probability: Ratio) -> String {
    match probability.percent() {
        low if low < 1.0 => "below 1 %".into(),
        high if high > 99.0 => "above 99 %".into(),
        between => format!("{between:.0} %"),
    }
}

impl Ranking {
    /// The finding: probabilities, what to read next, how to confirm the likeliest, cautions and sources.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self, spreads: &Spreads) -> Result<Finding> {
        let mut finding = Finding::of("fault_ranking");
        for residual in self.residuals() {
            finding = finding.measured(format!("{}, off by", residual.feature()), residual.value())?;
        }
        for ranked in self.ranked() {
            finding = finding.given(format!("probability: {}", ranked.fault), ranked.probability)?;
        }
        finding = finding.concluding(self.top().fault.name()).saying(self.in_words());
        if self.fit().fraction() < POOR_FIT {
            finding = finding.saying(
                "None of these faults alone explains the readings: think of two at once, of a reading in error, or of \
                 a system that does not run steadily, and read again before acting.",
            );
        }
        finding = finding.saying(
            "Ranked are single faults in steady cooling, at least 15 minutes after the start, coils free of ice; \
             probabilities are no better than the patterns and priors they rest on.",
        );
        let worth = self.worth_reading(spreads);
        if worth.is_empty() && !self.residuals().is_empty() {
            finding = finding.saying("No reading still open would tell the first two apart much better.");
        }
        for next in worth {
            finding = finding.then(next.to_string());
        }
        finding = finding.then(self.top().fault.confirm());
        Ok(self.cautioned(self.sourced(finding)))
    }

    fn in_words(&self) -> String {
        let (top, second) = (self.top(), self.second());
        let lead = if self.residuals.is_empty() {
            "Nothing was read yet; by the priors alone"
        } else if top.probability.fraction() >= STANDS_OUT {
            "Likeliest"
        } else {
            "No fault stands out; first comes"
        };
        let colon = if lead == "Likeliest" { ":" } else { "" };
        let mut text = format!(
            "{lead}{colon} {}, {}; then {}, {}.",
            top.fault,
            share(top.probability),
            second.fault,
            share(second.probability)
        );
        if top.fault != Fault::NoFault && second.fault != Fault::NoFault {
            text.push_str(&format!(" No fault: {}.", share(self.probability(Fault::NoFault))));
        }
        text
    }

    /// The reading to take next; and another where it tells nearly as much and changes what one would say.
    fn worth_reading(&self, spreads: &Spreads) -> Vec<NextReading> {
        let next = self.next_readings(spreads);
        let best = next.first().map_or(0.0, |best| best.bits);
        let helps = |next: &NextReading| {
            next.bits >= 0.5 * best && (next.right_after - next.right_now).percent() >= HELPS
        };
        next.into_iter().filter(helps).take(2).collect()
    }

    fn sourced(&self, finding: Finding) -> Finding {
        let published = Fault::ALL.iter().any(|fault| {
            self.residuals().iter().any(|r| self.patterns.basis(*fault, r.feature()) == Basis::Published)
        });
        let finding = if published {
            finding.source(
                "directions: Rossi and Braun 1997 (HVAC&R Research 3, 19), as quoted by Li and Braun, Table 1-1; \
                 confirmed by Breuker and Braun 1998 (HVAC&R Research 4, 303)",
            )
        } else {
            finding
        };
        let others = match self.metering() {
            Metering::FixedOrifice => "directions of the other faults: from memory",
            Metering::Valve => "directions with a valve: from memory (Chen and Braun 2001; NIST SP 1087)",
        };
        finding.source(others).source("sizes, scatter, severities and priors: common practice, no source")
    }

    fn cautioned(&self, mut finding: Finding) -> Finding {
        for caution in [Caution::HighPressure, Caution::LiveVoltage, Caution::MovingParts, Caution::Frostbite]
        {
            finding = finding.caution(caution);
        }
        finding.caution(Caution::Venting)
    }
}
