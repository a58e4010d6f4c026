//! What a check found, on a sheet: its names and numbers in the words of the sheet's language.
//!
//! A finding's own text is the check's, in English; nothing of it is printed here. What has no words in the language's file
//! is left out, so that no page speaks two languages.

use crate::estimate::{CheckStrings, Language, ReadingRow, UnitSystem, filled, places};
use crate::measure::{Finding, Told};

/// A finding to be printed.
pub(super) struct Said<'a> {
    finding: &'a Finding,
    words: &'static CheckStrings,
    title: String,
    language: Language,
    units: UnitSystem,
}

impl<'a> Said<'a> {
    /// A finding, taken when it was, as it is to be printed; none where the language has no words for the check.
    pub(super) fn of(
        finding: &'a Finding,
        at: Option<&str>,
        (language, units): (Language, UnitSystem),
    ) -> Option<Said<'a>> {
        let words = language.check(finding.check())?;
        let title = at.map_or_else(|| words.title.clone(), |at| format!("{} ({at})", words.title));
        Some(Said { finding, words, title, language, units })
    }

    /// What it judged, against where it should be.
    pub(super) fn rows(&self) -> impl Iterator<Item = ReadingRow> {
        let judged = self.finding.told().iter().filter(|told| told.verdict.is_some());
        judged.filter_map(|told| {
            let what = self.language.quantity(&told.what)?;
            let named = what.to_lowercase() == self.words.title.to_lowercase();
            let what = if named { self.title.clone() } else { format!("{}: {what}", self.title) };
            Some(ReadingRow::told(what, told, self.units))
        })
    }

    /// What it means, where the row of what was judged does not say it all.
    pub(super) fn meaning(&self) -> Option<String> {
        let said = self.keys().iter().find_map(|key| self.sentence(self.words.says.get(key)?));
        let judged = || {
            let verdict = self.finding.verdict().filter(|verdict| *verdict != "within")?;
            Some(self.language.finding(verdict, &[]))
        };
        said.or_else(judged).map(|said| format!("{}: {said}", self.title))
    }

    /// What to do next: what follows from what was found, and what always does.
    pub(super) fn next(&self) -> Vec<String> {
        let next = |key: &String| self.sentence(self.words.next.get(key)?);
        let mut all: Vec<String> = self.keys().iter().find_map(next).into_iter().collect();
        all.extend(next(&ALWAYS.to_owned()).filter(|always| !all.contains(always)));
        if all.is_empty() && self.finding.verdict() == Some("unresolved") {
            return vec![self.language.finding("next_unresolved", &[("check", &self.title)])];
        }
        all.into_iter().map(|said| format!("{}: {said}", self.title)).collect()
    }

    /// By what a sentence may go, what says most first.
    fn keys(&self) -> Vec<String> {
        let beyond = self.finding.told().iter().find(|told| told.verdict == Some("outside"));
        let side = beyond.map(|told| if below(told) { "outside_low" } else { "outside_high" });
        let verdict = self.finding.verdict();
        let side = side.filter(|_| verdict == Some("outside"));
        let keys = [self.finding.conclusion(), side, Some(verdict.unwrap_or("no_verdict")), Some(ALWAYS)];
        keys.into_iter().flatten().map(str::to_owned).collect()
    }

    /// A sentence with the finding's values in its places; none where it asks for one that is not there.
    fn sentence(&self, sentence: &str) -> Option<String> {
        let value = |place| {
            let told = self.finding.told().iter().find(|told| told.what == place)?;
            Some((place, self.units.told(told)))
        };
        let values: Vec<(&str, String)> = places(sentence).map(value).collect::<Option<_>>()?;
        let values: Vec<(&str, &str)> = values.iter().map(|(place, value)| (*place, &**value)).collect();
        Some(filled(sentence, &values))
    }
}

/// Said whatever was found.
const ALWAYS: &str = "always";

/// Whether a value that was judged to lie beyond a limit lies below the lower one.
fn below(told: &Told) -> bool {
    match (told.lower, told.upper) {
        (Some(lower), Some(upper)) => told.value < f64::midpoint(lower, upper),
        (lower, _) => lower.is_some(),
    }
}
