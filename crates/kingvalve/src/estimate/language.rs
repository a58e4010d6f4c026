//! The language of what a customer reads: two files of strings each, one for sheets and one for checks.

use std::collections::BTreeMap;
use std::fmt;
use std::str::FromStr;
use std::sync::LazyLock;

use schemars::JsonSchema;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

use super::Words;
use crate::measure::Caution;
use crate::{Error, Result};

/// The language of a sheet.
///
/// What a shop writes itself (names on its rate card, findings, terms) is printed as written; a card can carry
/// [`labels`](super::RateCard::labels) in other languages.
///
/// # Example
/// ```
/// use kingvalve::estimate::{Language, Situation};
/// use kingvalve::measure::Interval;
/// use kingvalve::quantity::pounds;
/// let mut situation = Situation::new("R-454B", Interval::new(pounds(4.1), pounds(6.5))?);
/// situation.language = "es".parse()?;
/// assert_eq!(situation.recharge().title, "Recargar");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize, JsonSchema,
)]
pub enum Language {
    /// English.
    #[default]
    #[serde(rename = "en")]
    English,
    /// Spanish.
    #[serde(rename = "es")]
    Spanish,
}

impl Language {
    /// Every language there is.
    pub const ALL: [Self; 2] = [Self::English, Self::Spanish];

    /// Its ISO 639 code.
    pub fn code(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::Spanish => "es",
        }
    }

    /// A caution in this language.
    pub fn caution(self, caution: Caution) -> &'static str {
        self.strings().caution.get(caution.name()).map_or(caution.text(), String::as_str)
    }

    /// A sentence of a sheet, its places filled.
    pub(crate) fn sheet(self, key: &str, places: &[(&str, &str)]) -> String {
        filled(self.strings().sheet.get(key).map_or(key, String::as_str), places)
    }

    /// A sentence about a visit, its places filled.
    pub(crate) fn visit(self, key: &str, places: &[(&str, &str)]) -> String {
        filled(self.strings().visit.get(key).map_or(key, String::as_str), places)
    }

    /// A sentence about the years ahead, its places filled.
    pub(crate) fn outlook(self, key: &str, places: &[(&str, &str)]) -> String {
        filled(self.strings().outlook.get(key).map_or(key, String::as_str), places)
    }

    /// The fixed strings of a sheet, for templates.
    pub(super) fn sheet_strings(self) -> &'static BTreeMap<String, String> {
        &self.strings().sheet
    }

    /// The fixed strings of the years ahead, for templates.
    pub(super) fn outlook_strings(self) -> &'static BTreeMap<String, String> {
        &self.strings().outlook
    }

    /// What is said of a check, by its name.
    pub(crate) fn check(self, name: &str) -> Option<&'static CheckStrings> {
        self.checks().checks.get(name)
    }

    /// What a judged quantity of a check is called.
    pub(crate) fn quantity(self, name: &str) -> Option<&'static str> {
        self.checks().quantities.get(name).map(String::as_str)
    }

    /// A sentence said of any check, its places filled.
    pub(crate) fn finding(self, key: &str, places: &[(&str, &str)]) -> String {
        filled(self.checks().finding.get(key).map_or(key, String::as_str), places)
    }

    /// What a built-in task is called.
    pub(super) fn task(self, key: &str) -> String {
        self.strings().tasks.get(key).cloned().unwrap_or_else(|| key.to_owned())
    }

    /// A built-in task, whatever language it is given in, in this one.
    pub(super) fn task_named(self, task: &str) -> Option<&'static str> {
        let tasks = |language: Self| language.strings().tasks.iter();
        let (key, _) = Self::ALL.into_iter().flat_map(tasks).find(|(_, name)| *name == task)?;
        self.strings().tasks.get(key).map(String::as_str)
    }

    /// Title and words of a built-in way, their places filled.
    pub(super) fn way(self, name: &str, places: &[(&str, &str)]) -> (String, Words) {
        let Some(way) = self.strings().ways.get(name) else { return (name.to_owned(), Words::default()) };
        let all = |sentences: &[String]| sentences.iter().map(|sentence| filled(sentence, places)).collect();
        let words = Words {
            includes: all(&way.includes),
            does_not_fix: all(&way.does_not_fix),
            uncertain: all(&way.uncertain),
            cautions: all(&way.cautions),
            warranty: Vec::new(),
        };
        (way.title.clone(), words)
    }

    fn strings(self) -> &'static Strings {
        match self {
            Self::English => &ENGLISH,
            Self::Spanish => &SPANISH,
        }
    }

    fn checks(self) -> &'static Checks {
        match self {
            Self::English => &ENGLISH_CHECKS,
            Self::Spanish => &SPANISH_CHECKS,
        }
    }
}

impl fmt::Display for Language {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.code())
    }
}

impl FromStr for Language {
    type Err = Error;

    /// Reads the code.
    ///
    /// # Errors
    /// A language that there are no strings for.
    fn from_str(code: &str) -> Result<Self> {
        let known = || Self::ALL.into_iter();
        known()
            .find(|language| language.code() == code)
            .ok_or_else(|| Error::unknown("language", code, known().map(Self::code)))
    }
}

#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct Strings {
    ways: BTreeMap<String, WayStrings>,
    tasks: BTreeMap<String, String>,
    sheet: BTreeMap<String, String>,
    visit: BTreeMap<String, String>,
    outlook: BTreeMap<String, String>,
    caution: BTreeMap<String, String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WayStrings {
    title: String,
    includes: Vec<String>,
    does_not_fix: Vec<String>,
    uncertain: Vec<String>,
    cautions: Vec<String>,
}

#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct Checks {
    checks: BTreeMap<String, CheckStrings>,
    quantities: BTreeMap<String, String>,
    finding: BTreeMap<String, String>,
}

/// What is said of a check: sentences by what it concluded or how it judged, their places the names of its values.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct CheckStrings {
    /// What it is called.
    pub title: String,
    /// What it means.
    #[serde(default)]
    pub says: BTreeMap<String, String>,
    /// What to do next.
    #[serde(default)]
    pub next: BTreeMap<String, String>,
}

static ENGLISH: LazyLock<Strings> = LazyLock::new(|| read(include_str!("language/en.json")));
static SPANISH: LazyLock<Strings> = LazyLock::new(|| read(include_str!("language/es.json")));

static ENGLISH_CHECKS: LazyLock<Checks> = LazyLock::new(|| read(include_str!("language/en.checks.json")));
static SPANISH_CHECKS: LazyLock<Checks> = LazyLock::new(|| read(include_str!("language/es.checks.json")));

/// The files are part of the program; that they read is tested.
fn read<T: Default + DeserializeOwned>(file: &str) -> T {
    serde_json::from_str(file).unwrap_or_default()
}

/// The places of a sentence.
pub(crate) fn places(sentence: &str) -> impl Iterator<Item = &str> {
    sentence.split('{').skip(1).filter_map(|rest| rest.split_once('}')).map(|(place, _)| place)
}

/// A sentence with `{name}` replaced, in one pass: what is put in is never read as a place itself.
pub(crate) fn filled(sentence: &str, places: &[(&str, &str)]) -> String {
    let mut text = String::with_capacity(sentence.len());
    let mut rest = sentence;
    while let Some((before, after)) = rest.split_once('{') {
        text.push_str(before);
        match after.split_once('}') {
            Some((name, beyond)) => {
                let value = places.iter().find(|(place, _)| *place == name).map_or("", |(_, value)| value);
                text.push_str(value);
                rest = beyond;
            }
            None => {
                text.push('{');
                rest = after;
            }
        }
    }
    text.push_str(rest);
    text
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use serde_json::Value;

    use super::*;

    fn flat(file: &str) -> BTreeMap<String, String> {
        fn walk(path: &str, value: &Value, into: &mut BTreeMap<String, String>) {
            match value {
                Value::Object(fields) => {
                    fields.iter().for_each(|(key, value)| walk(&format!("{path}/{key}"), value, into));
                }
                Value::Array(items) => {
                    items.iter().enumerate().for_each(|(at, item)| walk(&format!("{path}/{at}"), item, into));
                }
                text => drop(into.insert(path.to_owned(), text.as_str().unwrap().to_owned())),
            }
        }
        let mut into = BTreeMap::new();
        walk("", &serde_json::from_str(file).unwrap(), &mut into);
        into.retain(|key, _| !key.starts_with("/caution"));
        into
    }

    fn sorted(text: &str) -> Vec<&str> {
        let mut places: Vec<&str> = places(text).collect();
        places.sort_unstable();
        places
    }

    #[test]
    fn every_file_reads_and_says_the_same_things() {
        for (english, spanish) in [
            (include_str!("language/en.json"), include_str!("language/es.json")),
            (include_str!("language/en.checks.json"), include_str!("language/es.checks.json")),
        ] {
            let (english, spanish) = (flat(english), flat(spanish));
            assert_eq!(english.keys().collect::<Vec<_>>(), spanish.keys().collect::<Vec<_>>());
            for (key, text) in &english {
                assert_eq!(sorted(text), sorted(&spanish[key]), "{key}");
            }
        }
        for language in Language::ALL {
            assert!(!language.strings().sheet.is_empty() && !language.checks().checks.is_empty());
        }
    }

    #[test]
    fn every_caution_is_translated() {
        for caution in Caution::ALL {
            assert_eq!(Language::English.caution(caution), caution.text());
            assert!(SPANISH.caution.contains_key(caution.name()), "{}", caution.name());
        }
        assert_eq!(SPANISH.caution.len(), Caution::ALL.len());
    }

    #[test]
    fn what_is_put_in_is_not_read_again() {
        assert_eq!(filled("{a} and {b}", &[("a", "{b}"), ("b", "x")]), "{b} and x");
        assert_eq!(filled("{a", &[("a", "x")]), "{a");
        assert_eq!(filled("none {c}.", &[]), "none .");
    }
}
