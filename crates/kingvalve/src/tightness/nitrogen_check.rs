//! What a standing pressure test showed.

use serde::Serialize;

use super::{Leak, LeakGas, PressureTest};
use crate::Result;
use crate::measure::{Caution, Finding, Level, Limits, Measured, Verdict};
use crate::quantity::{Pressure, PressureDifference, Quantity, Throughput};

/// What a standing pressure test showed: the loss corrected for temperature, and what it means.
#[derive(Debug, Clone, Serialize)]
pub struct PressureTestCheck {
    expected: Measured<Pressure>,
    found: Measured<Pressure>,
    loss: Measured<PressureDifference>,
    allowed: Verdict<PressureDifference>,
    shown: Verdict<PressureDifference>,
    #[serde(skip)]
    leak: Option<Leak>,
}

impl PressureTestCheck {
    pub(super) fn new(
        test: &PressureTest,
        expected: Measured<Pressure>,
        loss: Measured<PressureDifference>,
    ) -> Result<Self> {
        let (allowed, source) = test.allowed();
        let verdict = Limits::at_most(allowed)?.from_source(source).judge(&loss, Level::default())?;
        let none = Limits::at_most(PressureDifference::ZERO)?.from_source("a tight system");
        let shown = none.judge(&loss, Level::default())?;
        let leak = match test.size() {
            Some(size) => {
                let (dp, v, dt) = (loss.value().base(), size.volume.value().base(), size.lasted.base());
                let throughput = Measured::exact(Throughput::from_base(dp * v / dt))
                    .depending_on(&loss, v / dt)
                    .depending_on(&size.volume, dp / dt);
                let mean = 0.5 * (test.start().pressure.value().base() + test.end().pressure.value().base());
                let temperature = test.end().temperature.value();
                let (inside, outside) = (Pressure::from_base(mean), size.site.atmosphere());
                // A gain is no leak outward, whatever its size.
                (dp > 0.0 && inside > outside)
                    .then(|| Leak::new(throughput, LeakGas::nitrogen(), inside, outside, temperature))
                    .transpose()?
            }
            None => None,
        };
        let found = test.end().pressure.clone();
        Ok(PressureTestCheck { expected, found, loss, allowed: verdict, shown, leak })
    }

    /// The absolute pressure a tight system would show at the last temperature.
    pub fn expected(&self) -> &Measured<Pressure> {
        &self.expected
    }

    /// The loss, corrected for temperature; negative where it gained.
    pub fn loss(&self) -> &Measured<PressureDifference> {
        &self.loss
    }

    /// Against the loss allowed.
    pub fn verdict(&self) -> &Verdict<PressureDifference> {
        &self.allowed
    }

    /// Against no loss at all: [`Outside`](Verdict::Outside) where these readings show a leak, of whatever size.
    pub fn leak_shown(&self) -> &Verdict<PressureDifference> {
        &self.shown
    }

    /// The smallest loss these readings could have shown: their expanded uncertainty.
    pub fn smallest_shown(&self) -> PressureDifference {
        self.loss.expanded(Level::default())
    }

    /// Whether it gained pressure beyond the doubt of the readings: not settled, or another temperature inside.
    pub fn gained(&self) -> bool {
        self.shown.judgement().probability_within().fraction() >= Level::default().probability().fraction()
            && self.loss.value() < PressureDifference::ZERO
    }

    /// The leak, where the volume and the time were given and the loss is above zero.
    pub fn leak(&self) -> Option<&Leak> {
        self.leak.as_ref()
    }

    /// In the shape all checks share.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        let mut finding = Finding::of("nitrogen_pressure_test")
            .measured("expected pressure", &self.expected)?
            .measured("found pressure", &self.found)?
            .measured("loss at the last temperature", &self.loss)?
            .judged("loss allowed", &self.allowed)?
            .judged("no loss", &self.shown)?
            .saying(self.allowed.to_string())
            .saying(self.in_words());
        if let Some(leak) = &self.leak {
            finding = finding.measured("leak", leak.throughput())?;
        }
        if self.gained() {
            finding = finding.concluding("gained");
        }
        Ok(finding
            .then(self.next())
            .caution(Caution::TestGas)
            .caution(Caution::HighPressure)
            .caution(Caution::Asphyxiation)
            .source("Span et al., J. Phys. Chem. Ref. Data 29 (2000) 1361")
            .source("JCGM 100:2008; JCGM 106:2012"))
    }

    fn in_words(&self) -> String {
        if self.gained() {
            return "It gained pressure beyond what the temperature explains: it had not settled, or the gas is not \
                    at the thermometer's temperature."
                .into();
        }
        let least = self.smallest_shown();
        if self.shown.is_outside() {
            format!("A leak is shown: these readings can show a loss of {least:.2} or more.")
        } else {
            format!("No leak is shown; these readings could not show a loss below {least:.2}.")
        }
    }

    fn next(&self) -> &'static str {
        if self.gained() {
            "Let it settle and start again: put the thermometer on the metal, in the shade, and note both together."
        } else if self.allowed.is_outside() {
            "Find the leak with bubble solution or a detector, release the nitrogen outdoors, repair, and test again."
        } else if self.allowed.is_unresolved() {
            "Let it stand longer, or read with a finer gauge: a leak's loss grows with time, the doubt does not."
        } else {
            "Release the nitrogen where it cannot gather, then evacuate."
        }
    }
}
