//! The one shape in which every check answers.

use serde::Serialize;
use serde_json::Value;

use super::{Caution, Level, Measured, Verdict};
use crate::quantity::{Quantity, Unit};
use crate::{Error, Result};

/// What a check found: what was measured, how it was judged, what to do next, what can hurt, and the sources.
///
/// Each room has results of its own types; this is the form in which they travel to a report, a record or another
/// language. Its order of fields is fixed, so the same finding gives the same bytes.
///
/// # Example
/// ```
/// use kingvalve::measure::{Caution, Finding, Level, Limits, Measured};
/// use kingvalve::quantity::*;
/// let sag = Measured::from_standard(percent(4.0), percent(0.5), "voltmeter")?;
/// let verdict = Limits::at_most(percent(10.0))?.from_source("shop policy").judge(&sag, Level::default())?;
/// let finding = Finding::of("supply_sag")
///     .measured("sag", &sag)?
///     .judged("sag", &verdict)?
///     .saying("The supply holds up at start.")
///     .caution(Caution::LiveVoltage)
///     .source("common practice, no source");
/// assert_eq!(finding.verdict(), Some("within"));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Finding {
    check: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    verdict: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    conclusion: Option<&'static str>,
    text: String,
    measured: Vec<Named>,
    verdicts: Vec<Named>,
    next: Vec<String>,
    cautions: Vec<Caution>,
    sources: Vec<String>,
    #[serde(skip)]
    told: Vec<Told>,
}

/// A value of a finding as plain numbers: for whoever prints it in other units or another language.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Told {
    /// Its name.
    pub what: String,
    /// The units of its quantity; the numbers are in the base unit.
    pub units: &'static [Unit],
    pub value: f64,
    /// Its expanded doubt; none where it is known without.
    pub doubt: Option<f64>,
    /// What it was judged against.
    pub lower: Option<f64>,
    pub upper: Option<f64>,
    pub verdict: Option<&'static str>,
}

/// A value under a name.
#[derive(Debug, Clone, PartialEq, Serialize)]
struct Named {
    what: String,
    #[serde(flatten)]
    value: Value,
}

impl Finding {
    /// A finding of the check of that name, with nothing in it yet.
    pub fn of(check: &'static str) -> Self {
        Finding {
            check,
            verdict: None,
            conclusion: None,
            text: String::new(),
            measured: Vec::new(),
            verdicts: Vec::new(),
            next: Vec::new(),
            cautions: Vec::new(),
            sources: Vec::new(),
            told: Vec::new(),
        }
    }

    /// Adds a measured or computed quantity.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn measured<Q>(mut self, what: impl Into<String>, value: &Measured<Q>) -> Result<Self>
    where
        Q: Quantity + Serialize,
        Q::Difference: Serialize,
    {
        let what = what.into();
        let doubt = value.expanded(Level::default()).base();
        self.told.push(Told { doubt: Some(doubt), ..Told::of(&what, value.value()) });
        self.measured.push(named(what, value)?);
        Ok(self)
    }

    /// Adds a quantity known without doubt: a rating, a limit, a count.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn given<Q: Quantity + Serialize>(mut self, what: impl Into<String>, value: Q) -> Result<Self> {
        let what = what.into();
        self.told.push(Told::of(&what, value));
        self.measured.push(named(what, &value)?);
        Ok(self)
    }

    /// Adds a verdict. The first one added is the finding's own.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn judged<Q>(mut self, what: impl Into<String>, verdict: &Verdict<Q>) -> Result<Self>
    where
        Q: Quantity + Serialize,
        Q::Difference: Serialize,
    {
        self.verdict.get_or_insert(verdict.name());
        let (what, judgement) = (what.into(), verdict.judgement());
        self.told.push(Told {
            doubt: Some(judgement.expanded_uncertainty().base()),
            lower: judgement.limits().lower().map(Quantity::base),
            upper: judgement.limits().upper().map(Quantity::base),
            verdict: Some(verdict.name()),
            ..Told::of(&what, judgement.value())
        });
        self.verdicts.push(named(what, verdict)?);
        Ok(self)
    }

    /// Says what the check concludes by name, where a verdict does not say it: `leak`, `all_vapour`. The text says it in
    /// words.
    #[must_use]
    pub fn concluding(mut self, conclusion: &'static str) -> Self {
        self.conclusion = Some(conclusion);
        self
    }

    /// Adds a sentence to the finding's text.
    #[must_use]
    pub fn saying(mut self, sentence: impl AsRef<str>) -> Self {
        if !self.text.is_empty() {
            self.text.push(' ');
        }
        self.text.push_str(sentence.as_ref());
        self
    }

    /// Adds something to do next.
    #[must_use]
    pub fn then(mut self, next: impl Into<String>) -> Self {
        self.next.push(next.into());
        self
    }

    /// Adds a caution, once.
    #[must_use]
    pub fn caution(mut self, caution: Caution) -> Self {
        if !self.cautions.contains(&caution) {
            self.cautions.push(caution);
        }
        self
    }

    /// Adds a source, once.
    #[must_use]
    pub fn source(mut self, source: impl Into<String>) -> Self {
        let source = source.into();
        if !self.sources.contains(&source) {
            self.sources.push(source);
        }
        self
    }

    /// The check's name.
    pub fn check(&self) -> &str {
        self.check
    }

    /// `"within"`, `"outside"` or `"unresolved"`, where the check judges something.
    pub fn verdict(&self) -> Option<&str> {
        self.verdict
    }

    /// What it concludes, by name, where a verdict does not say it.
    pub fn conclusion(&self) -> Option<&str> {
        self.conclusion
    }

    /// Its values as plain numbers, in the order in which they were added.
    pub(crate) fn told(&self) -> &[Told] {
        &self.told
    }

    /// The finding in words.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// What to do next.
    pub fn next(&self) -> &[String] {
        &self.next
    }

    /// What can hurt someone.
    pub fn cautions(&self) -> &[Caution] {
        &self.cautions
    }

    /// Where the method and the limits come from.
    pub fn sources(&self) -> &[String] {
        &self.sources
    }
}

impl Told {
    fn of<Q: Quantity>(what: &str, value: Q) -> Told {
        let (doubt, lower, upper, verdict) = (None, None, None, None);
        Told { what: what.to_owned(), units: Q::units(), value: value.base(), doubt, lower, upper, verdict }
    }
}

fn named(what: impl Into<String>, value: &impl Serialize) -> Result<Named> {
    let value =
        serde_json::to_value(value).map_err(|error| Error::malformed("a finding", error.to_string()))?;
    Ok(Named { what: what.into(), value })
}
