//! The shop's own words in the language of a sheet.

use std::collections::BTreeMap;

use super::clean::clean;
use crate::estimate::price::sentence;
use crate::estimate::{DiscountLine, Language};

/// Looks words up, as they stand and as the start of a sentence, and cleans what is printed.
pub(super) struct Labels<'a> {
    labels: &'a BTreeMap<String, String>,
    /// The language of the sheet.
    pub language: Language,
}

impl<'a> Labels<'a> {
    pub(super) fn new(labels: &'a BTreeMap<String, String>, language: Language) -> Self {
        Self { labels, language }
    }

    /// One text, printable.
    pub(super) fn of(&self, text: &str) -> String {
        let label = || {
            let start = self.labels.iter().find(|(key, _)| sentence(key) == text);
            start.map(|(_, label)| sentence(label))
        };
        match self.labels.get(text) {
            Some(label) => clean(label),
            None if self.labels.is_empty() => clean(text),
            None => clean(&label().unwrap_or_else(|| text.to_owned())),
        }
    }

    /// Texts that are not blank.
    pub(super) fn all(&self, texts: &[String]) -> Vec<String> {
        texts.iter().map(|text| self.of(text)).filter(|text| !text.is_empty()).collect()
    }

    /// What a line says besides: tasks one by one, and how a weight is counted.
    pub(super) fn detail(&self, detail: &str) -> String {
        if let Some(step) = detail.strip_prefix("by started ") {
            return self.language.sheet("by_started", &[("step", &clean(step))]);
        }
        if let Some(step) = detail.strip_prefix("by weight, to ") {
            return self.language.sheet("by_weight", &[("step", &clean(step))]);
        }
        detail.split(", ").map(|task| self.task(task)).collect::<Vec<_>>().join(", ")
    }

    /// A task: by the shop's label, or as a built-in one is called in this language.
    fn task(&self, task: &str) -> String {
        match self.language.task_named(task).filter(|_| !self.labels.contains_key(task)) {
            Some(named) => named.to_owned(),
            None => self.of(task),
        }
    }

    /// A role and its time band: labelled as a whole, or each by itself.
    pub(super) fn role(&self, role: &str) -> String {
        let whole = self.of(role);
        match role.split_once(", ") {
            Some((role, band)) if whole == clean(role.trim()) + ", " + &clean(band) => {
                format!("{}, {}", self.of(role), self.of(band))
            }
            _ => whole,
        }
    }

    /// What a discount is called: by its own name, or by the membership that gives it.
    pub(super) fn discount(&self, line: &DiscountLine) -> String {
        let Some(member) = &line.member else { return self.of(&line.name) };
        let membership = self.of(&member.membership);
        match (&member.waives, &member.discount) {
            (Some(fee), _) => {
                self.language.sheet("waived", &[("membership", &membership), ("fee", &self.of(fee))])
            }
            (None, Some(discount)) => format!("{membership}: {}", self.of(discount)),
            (None, None) => membership,
        }
    }
}
