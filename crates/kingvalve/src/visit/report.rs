//! The technician's report: plain text, 78 columns.

use std::fmt::Write;

use super::Evaluation;
use super::inventory::InventoryResult;
use super::results::{CapacitorResult, ChargedResult, RunningResult};
use super::said::Said;
use crate::Result;
use crate::charge::{AirIngress, StandingFinding};
use crate::estimate::Language;
use crate::measure::{Interval, Level, Verdict};
use crate::quantity::{Mass, TemperatureDifference};

const WIDTH: usize = 78;
/// The report is for the technician, as the checks' own texts are.
const ENGLISH: Language = Language::English;

impl Evaluation {
    /// The technician's report as plain text.
    ///
    /// # Errors
    /// A result that cannot be put into words (none is known).
    ///
    /// # Example
    /// See [the room](super).
    pub fn report(&self) -> Result<String> {
        let (record, results) = (&self.record, &self.results);
        let mut page = Page::default();
        page.title("Visit report");
        if let Some(note) = &record.note {
            page.line(note);
        }
        page.line(&format!("{}, {}", record.date, record.technician));
        page.line(&format!("For {}, {}", record.customer.name, record.customer.address));
        page.line(&format!("{}, {}", record.equipment.description, self.refrigerant));

        page.title("What was said");
        page.line(&format!("{} Since: {}.", record.intake.complaint, record.intake.since));
        for answer in &record.intake.answers {
            page.item(&format!("{} {}", answer.question, answer.answer));
        }

        if let Some(standing) = &results.standing {
            page.title("What the standing pressure says");
            page.line(&self.standing_numbers()?);
            page.line(&standing.text);
        }
        page.title("What is missing");
        page.line(&format!("The system should hold {:.2}, line set counted.", results.charge_due));
        page.line(&match results.missing {
            Some(missing) => format!("Missing before anything was added: {}.", masses(missing)),
            None => "How much is missing cannot be said from these readings.".to_owned(),
        });
        for capacitor in &results.capacitors {
            page.capacitor(capacitor);
        }
        if let Some(charged) = &results.charged {
            page.charged(charged)?;
        }
        for running in &results.running {
            page.running(running)?;
        }
        if let Some(inventory) = &results.inventory {
            page.inventory(inventory, results.charge_due);
        }
        for check in &results.checks {
            page.title(&format!("Check: {}", check.check().replace('_', " ")));
            page.line(check.text());
            check.next().iter().for_each(|next| page.item(next));
        }
        if !results.ways.is_empty() {
            page.title("Ways forward");
            for way in &results.ways {
                page.item(&format!(
                    "{}: {}, not to exceed {}",
                    way.title(),
                    way.total(),
                    way.not_to_exceed()
                ));
            }
        }
        if let Some(found) = &results.outlook {
            page.title("The years ahead");
            found.outlook.to_string().lines().for_each(|line| page.line(line));
            page.line(&found.change.to_string());
        }
        page.title("Not known from these readings");
        for unknown in self.unknown(ENGLISH) {
            page.item(&unknown);
        }
        page.title("Measure next");
        for next in self.next(ENGLISH) {
            page.item(&next);
        }
        page.title("Cautions");
        for caution in &results.cautions {
            page.item(caution.text());
        }
        Ok(page.text)
    }

    /// "62.0 psig …, where saturation is …"
    fn standing_numbers(&self) -> Result<String> {
        let Some(readings) = &self.record.standing else {
            return Ok(String::new());
        };
        let coldest = readings
            .temperatures
            .values()
            .map(|read| read.value)
            .min_by(|a, b| a.kelvins().total_cmp(&b.kelvins()));
        let mut text = format!("Read {:.1} with the {}", readings.pressure.value, readings.pressure.with);
        if let Some(coldest) = coldest {
            let site = &self.record.site;
            let dew = site.gauge(self.refrigerant.dew_pressure(coldest)?)?;
            let bubble = site.gauge(self.refrigerant.bubble_pressure(coldest)?)?;
            let _ = write!(
                text,
                "; at the coldest part, {coldest:.1}, saturation is {dew:.1} (dew) to {bubble:.1} (bubble)"
            );
        }
        text.push('.');
        Ok(text)
    }

    /// What the readings leave open.
    pub(super) fn unknown(&self, language: Language) -> Vec<String> {
        let say = |key: &str| language.visit(key, &[]);
        let mut open = vec![say("where")];
        if self.refrigerant.is_blend() {
            open.push(say("composition"));
        }
        if let Some(standing) = &self.results.standing
            && !matches!(standing.finding, StandingFinding::AllVapour { .. })
        {
            open.push(say("how_much"));
        }
        if self.record.outlook.is_some() && self.results.outlook.is_none() {
            open.push(say("no_outlook"));
        }
        open.extend(self.undecided().map(|name| language.visit("capacitor_open", &[("name", name)])));
        open
    }

    /// Run capacitors that the readings do not decide.
    fn undecided(&self) -> impl Iterator<Item = &str> {
        let undecided =
            |capacitor: &&CapacitorResult| capacitor.verdict().is_some_and(Verdict::is_unresolved);
        self.results.capacitors.iter().filter(undecided).map(|capacitor| capacitor.name.as_str())
    }

    pub(super) fn next(&self, language: Language) -> Vec<String> {
        let say = |key: &str| language.visit(key, &[]);
        let mut next = Vec::new();
        if let Some(standing) = &self.results.standing
            && self.results.charged.is_none()
        {
            next.push(say(&match standing.air {
                AirIngress::KeptOut => format!("next_{}", standing.finding.name()),
                AirIngress::Possible | AirIngress::DrawnIn => "next_open".to_owned(),
            }));
        }
        next.extend(self.undecided().map(|name| language.visit("next_capacitor", &[("name", name)])));
        next.extend(self.said(language).iter().flat_map(Said::next));
        if self.results.running.is_empty() {
            next.push(say("next_running"));
        }
        if next.is_empty() {
            next.push(say("next_again"));
        }
        next
    }
}

/// `4.1 to 6.5 lb`
pub(super) fn masses(range: Interval<Mass>) -> String {
    format!("{:.1} to {:.1}", range.low(), range.high())
}

#[derive(Default)]
struct Page {
    text: String,
}

impl Page {
    fn title(&mut self, title: &str) {
        if !self.text.is_empty() {
            self.text.push('\n');
        }
        self.text.push_str(title);
        self.text.push('\n');
        self.text.extend(std::iter::repeat_n('-', title.chars().count()));
        self.text.push('\n');
    }

    fn line(&mut self, line: &str) {
        self.wrapped("", "", line);
    }

    fn item(&mut self, item: &str) {
        self.wrapped("* ", "  ", item);
    }

    fn wrapped(&mut self, first: &str, rest: &str, text: &str) {
        let mut line = first.to_owned();
        let mut empty = true;
        for word in text.split_whitespace() {
            if !empty && line.chars().count() + 1 + word.chars().count() > WIDTH {
                self.text.push_str(&line);
                self.text.push('\n');
                line = rest.to_owned();
                empty = true;
            }
            if !empty {
                line.push(' ');
            }
            line.push_str(word);
            empty = false;
        }
        self.text.push_str(&line);
        self.text.push('\n');
    }

    fn capacitor(&mut self, capacitor: &CapacitorResult) {
        self.title(&format!("Run capacitor, {}", capacitor.name));
        for check in &capacitor.checks {
            for sentence in check.to_string().lines() {
                self.item(sentence);
            }
        }
    }

    fn charged(&mut self, charged: &ChargedResult) -> Result<()> {
        self.title("Charged");
        for (cylinder, mass) in &charged.steps {
            self.item(&format!("{:.2} from {cylinder}", mass.value()));
        }
        let total = charged.total.interval(Level::default())?;
        self.line(&format!(
            "In all {:.2} ({:.2} to {:.2}).",
            charged.total.value(),
            total.low(),
            total.high()
        ));
        if let Some(now) = charged.now {
            self.line(&format!("The system now holds {}.", masses(now)));
        }
        Ok(())
    }

    fn inventory(&mut self, inventory: &InventoryResult, due: Mass) {
        self.title("In the system, by all readings and weights");
        let now = &inventory.now;
        self.line(&format!(
            "{:.2}; one time in two {:.2}; nine times in ten {:.2}.",
            now.median, now.half, now.ninety
        ));
        self.line(&now.bar(due, WIDTH - 2));
        self.line("From empty to 120 %: - nine times in ten, = one time in two, | the middle, P full.");
        if inventory.missing().is_none() {
            self.line("Something else than this refrigerant is likelier in it than not: these are the most it can be.");
        }
        if let Some(conflict) = inventory.conflict {
            self.line(conflict.text());
            conflict.alternatives().iter().for_each(|alternative| self.item(alternative));
        } else if inventory.widened {
            self.line("The readings fit what is assumed of the system badly, so this was widened beyond what they say.");
        }
        for contribution in &inventory.contributions {
            self.item(&contribution.text());
        }
    }

    fn running(&mut self, running: &RunningResult) -> Result<()> {
        self.title(&format!("Running, {}", running.when));
        for (what, measured) in [
            ("Superheat", &running.superheat),
            ("Subcooling", &running.subcooling),
            ("Liquid line over outdoor air", &running.approach),
        ] {
            let doubt: TemperatureDifference = measured.expanded(Level::default());
            self.item(&format!(
                "{what}: {:.1} °F ± {:.1} °F",
                measured.value().delta_fahrenheit(),
                doubt.delta_fahrenheit()
            ));
        }
        Ok(())
    }
}
