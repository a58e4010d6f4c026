//! The sheets of a visit, from an evaluation: options, outlook, work report, invoice.

use super::inventory::InventoryResult;
use super::said::Said;
use super::{Evaluation, priced};
use crate::Result;
use crate::charge::{AirIngress, StandingFinding};
use crate::estimate::{
    Fact, Invoice, Language, OptionsSheet, OutlookSheet, ReadingRow, UnitSystem, WorkReport,
};
use crate::measure::{Caution, Interval, Level, Limits, Measured, Verdict};
use crate::quantity::{Mass, TemperatureDifference};

/// What can hurt those who live there. What can hurt whoever does the work stands on the work report.
const HOUSEHOLD: [Caution; 5] = [
    Caution::FlammableRefrigerant,
    Caution::ToxicRefrigerant,
    Caution::UnknownSafetyGroup,
    Caution::Asphyxiation,
    Caution::Venting,
];

impl Evaluation {
    /// The customer's options sheet; [`OptionsSheet::to_html`] prints it.
    ///
    /// The shop may change any field before printing: title, terms, advice, paper.
    ///
    /// # Example
    /// See [the room](super).
    pub fn sheet(&self) -> OptionsSheet {
        let record = &self.record;
        let card = record.rates.as_ref();
        OptionsSheet {
            shop: card.map(|rates| rates.shop.clone()).unwrap_or_default(),
            title: self.say("title", &[]),
            facts: self.facts(),
            known: self.known(),
            unknown: self.unknown(record.language),
            ways: self.results.ways.clone(),
            advice: record.recommendation.clone(),
            cautions: self.cautions(|caution| HOUSEHOLD.contains(&caution)),
            terms: record.note.iter().cloned().collect(),
            consent: record.consent.clone(),
            language: record.language,
            labels: self.labels(),
            ..OptionsSheet::default()
        }
    }

    /// The years ahead: what each way is expected to cost; none where the record does not ask for it.
    ///
    /// # Example
    /// See [`OutlookSheet`].
    pub fn outlook_sheet(&self) -> Option<OutlookSheet> {
        let (record, found) = (&self.record, self.results.outlook.as_ref()?);
        let shop = record.rates.as_ref().map(|rates| rates.shop.clone()).unwrap_or_default();
        Some(OutlookSheet {
            facts: self.facts(),
            change: Some(found.change),
            terms: record.note.iter().cloned().collect(),
            language: record.language,
            units: record.units,
            labels: self.labels(),
            ..OutlookSheet::of(shop, found.outlook.clone())
        })
    }

    /// The work report: readings against where they should be, what they mean, what was done.
    ///
    /// # Errors
    /// A reading that cannot be judged.
    ///
    /// # Example
    /// ```
    /// use kingvalve::visit::Visit;
    /// # let text = include_str!("../../../../examples/data/no_cool_r454b.json");
    /// let report = Visit::from_json(text)?.evaluate()?.work_report()?;
    /// assert!(report.to_text().contains("Run capacitor, fan section"));
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn work_report(&self) -> Result<WorkReport> {
        let record = &self.record;
        let done = record.done.as_ref();
        let intake = &record.intake;
        let mut said =
            vec![format!("{} {}", intake.complaint, self.say("since", &[("since", &intake.since)]))];
        said.extend(intake.answers.iter().map(|answer| format!("{} {}", answer.question, answer.answer)));
        said.extend(intake.filter.iter().map(|filter| self.say("filter", &[("filter", filter)])));
        said.extend(intake.thermostat.iter().map(|set| self.say("thermostat", &[("thermostat", set)])));
        let mut found = self.known();
        found.extend(self.said(self.record.language).iter().filter_map(Said::meaning));
        Ok(WorkReport {
            shop: record.rates.as_ref().map(|rates| rates.shop.clone()).unwrap_or_default(),
            facts: self.facts(),
            said,
            readings: self.readings()?,
            found,
            open: self.unknown(record.language),
            charged: self.refrigerant_facts(),
            done: done.map(|done| done.notes.clone()).unwrap_or_default(),
            next: self.next(record.language),
            recommendation: record.recommendation.clone(),
            follow_up: record.follow_up.clone(),
            cautions: self.cautions(|_| true),
            terms: record.note.iter().cloned().collect(),
            language: record.language,
            labels: self.labels(),
            ..WorkReport::default()
        })
    }

    /// The invoice of the work as it was; none where nothing is billed.
    ///
    /// # Example
    /// ```
    /// use kingvalve::visit::Visit;
    /// # let text = include_str!("../../../../examples/data/no_cool_r454b.json");
    /// let invoice = Visit::from_json(text)?.evaluate()?.invoice().unwrap();
    /// assert_eq!(invoice.bill.total().to_string(), "798.72 USD");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn invoice(&self) -> Option<Invoice> {
        let (record, bill) = (&self.record, self.results.bill.clone()?);
        let done = record.done.as_ref()?;
        let number = done.invoice.iter().map(|number| self.fact("number", number));
        let shop = record.rates.as_ref().map(|rates| rates.shop.clone()).unwrap_or_default();
        Some(Invoice {
            facts: number.chain(self.facts()).collect(),
            paid: done.paid.clone(),
            refrigerant: self.refrigerant_facts(),
            consent: record.consent.clone(),
            terms: record.note.iter().cloned().collect(),
            language: record.language,
            labels: self.labels(),
            ..Invoice::of(shop, bill)
        })
    }

    /// The same evaluation, its sheets in another language and other units; amounts are the same.
    ///
    /// # Errors
    /// As for [`evaluate`](super::Visit::evaluate).
    ///
    /// # Example
    /// ```
    /// use kingvalve::estimate::{Language, UnitSystem};
    /// use kingvalve::visit::Visit;
    /// # let text = include_str!("../../../../examples/data/no_cool_r454b.json");
    /// let evaluation = Visit::from_json(text)?.evaluate()?;
    /// let spanish = evaluation.printed_in(Language::Spanish, UnitSystem::Si)?;
    /// assert!(spanish.sheet().to_text()?.contains("Recargar"));
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn printed_in(&self, language: Language, units: UnitSystem) -> Result<Evaluation> {
        let mut printed = self.clone();
        (printed.record.language, printed.record.units) = (language, units);
        printed.results.ways = priced::ways(&printed.record, &self.refrigerant, self.results.missing)?;
        let (record, ways) = (&printed.record, &printed.results.ways);
        printed.results.bill = priced::bill(record, &self.refrigerant, self.results.charged.as_ref(), ways)?;
        Ok(printed)
    }

    /// The same evaluation with the likely price beside every way's range, simulated ([`Way::likely`](crate::estimate::Way::likely)).
    ///
    /// # Errors
    /// A number of draws out of range.
    ///
    /// # Example
    /// ```
    /// use kingvalve::visit::Visit;
    /// # let text = include_str!("../../../../examples/data/no_cool_r454b.json");
    /// let evaluation = Visit::from_json(text)?.evaluate()?.with_likely_prices(500, 1)?;
    /// assert!(evaluation.results().ways.iter().all(|way| way.likely().is_some()));
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn with_likely_prices(&self, draws: u32, seed: u64) -> Result<Evaluation> {
        let mut likely = self.clone();
        if let (Some(card), Some(missing)) = (priced::card(&self.record)?, self.results.missing) {
            let printed = (self.record.language, self.record.units);
            let ways = priced::laid_out(&self.record, &self.refrigerant, missing, &card, printed);
            let with = |(way, priced): (&crate::estimate::Way, &crate::estimate::PricedWay)| {
                priced.clone().with_likely(way.likely(&card, draws, seed)?)
            };
            likely.results.ways = ways.iter().zip(&self.results.ways).map(with).collect::<Result<_>>()?;
        }
        Ok(likely)
    }

    /// What the other checks found, for the sheet.
    pub(super) fn said(&self, language: Language) -> Vec<Said<'_>> {
        let printed = (language, self.record.units);
        let at = self.record.checks.iter().map(|check| check.at.as_deref());
        let findings = self.results.checks.iter().zip(at);
        findings.filter_map(|(finding, at)| Said::of(finding, at, printed)).collect()
    }

    fn say(&self, key: &str, places: &[(&str, &str)]) -> String {
        self.record.language.visit(key, places)
    }

    fn fact(&self, key: &str, value: &str) -> Fact {
        Fact::new(self.record.language.sheet(key, &[]), value)
    }

    fn facts(&self) -> Vec<Fact> {
        let record = &self.record;
        vec![
            self.fact("prepared_for", &record.customer.name),
            self.fact("address", &record.customer.address),
            self.fact("equipment", &format!("{}, {}", record.equipment.description, self.refrigerant)),
            self.fact("date", &record.date),
            self.fact("technician", &record.technician),
        ]
    }

    fn labels(&self) -> std::collections::BTreeMap<String, String> {
        let labels = self.record.rates.as_ref().and_then(|rates| rates.labels.get(&self.record.language));
        labels.cloned().unwrap_or_default()
    }

    fn cautions(&self, told: impl Fn(Caution) -> bool) -> Vec<String> {
        let told = self.results.cautions.iter().copied().filter(|caution| told(*caution));
        told.map(|caution| self.record.language.caution(caution).to_owned()).collect()
    }

    /// Refrigerant: what should be there, what was, what went in and came out.
    fn refrigerant_facts(&self) -> Vec<Fact> {
        let (results, units, language) = (&self.results, self.record.units, self.record.language);
        let mut facts = vec![Fact::new(self.say("should_hold", &[]), units.text(results.charge_due))];
        facts.extend(
            self.held_before()
                .map(|held| Fact::new(self.say("held_before", &[]), units.range(held, language))),
        );
        if let Some(recovered) = &results.recovered {
            facts.push(Fact::new(self.say("recovered", &[]), units.text(recovered.value())));
        }
        if let Some(charged) = &results.charged {
            facts.push(Fact::new(self.say("charged", &[]), units.text(charged.total.value())));
            let now = charged.now.filter(|_| results.inventory.is_none());
            facts.extend(now.map(|now| Fact::new(self.say("held_after", &[]), units.range(now, language))));
        }
        facts.extend(results.inventory.as_ref().and_then(|inventory| self.held_now(inventory)));
        facts
    }

    /// What the system holds by all readings, where it is this refrigerant.
    fn held_now(&self, inventory: &InventoryResult) -> Option<Fact> {
        let (now, units) = (inventory.now, self.record.units);
        let to = |range: Interval<Mass>| {
            let [low, high] = [range.low(), range.high()].map(|end| units.text(end));
            self.say("to", &[("low", &low), ("high", &high)])
        };
        let (median, half, ninety) = (units.text(now.median), to(now.half), to(now.ninety));
        let text = self.say("in_system", &[("median", &median), ("half", &half), ("ninety", &ninety)]);
        inventory.missing().map(|_| Fact::new(self.say("by_readings", &[]), text))
    }

    /// What the system held before anything was weighed.
    fn held_before(&self) -> Option<Interval<Mass>> {
        let (due, missing) = (self.results.charge_due, self.results.missing?);
        Interval::new(due - missing.high(), due - missing.low()).ok()
    }

    /// The readings that can be judged, against where they should be.
    fn readings(&self) -> Result<Vec<ReadingRow>> {
        let (results, units) = (&self.results, self.record.units);
        let mut rows = Vec::new();
        for capacitor in &results.capacitors {
            let what = self.say("capacitor", &[("name", &capacitor.name)]);
            rows.extend(capacitor.verdict().map(|verdict| ReadingRow::judged(what, verdict, units)));
        }
        let targets = self.record.targets.clone().unwrap_or_default();
        for running in &results.running {
            let row = |key: &str, measured: &Measured<_>, target: Option<&Limits<TemperatureDifference>>| {
                let what = self.say(key, &[("when", &running.when)]);
                let Some(target) = target else { return Ok(ReadingRow::measured(what, measured, units)) };
                let verdict = target.judge(measured, Level::default())?;
                Ok::<_, crate::Error>(ReadingRow::judged(what, &verdict, units))
            };
            rows.push(row("superheat", &running.superheat, targets.superheat.as_ref())?);
            rows.push(row("subcooling", &running.subcooling, targets.subcooling.as_ref())?);
            rows.push(row("approach", &running.approach, None)?);
        }
        rows.extend(self.said(self.record.language).iter().flat_map(|said| said.rows().collect::<Vec<_>>()));
        Ok(rows)
    }

    /// What the readings establish, in the customer's words.
    fn known(&self) -> Vec<String> {
        let (results, units, language) = (&self.results, self.record.units, self.record.language);
        let mut known = Vec::new();
        match results.standing.as_ref().map(|standing| &standing.finding) {
            Some(StandingFinding::AllVapour { mass, .. }) => {
                let told = self.results.inventory.as_ref().and_then(|_| self.held_before());
                let held = units.range(told.unwrap_or(*mass), language);
                let due = units.text(results.charge_due);
                known.push(self.say("nearly_empty", &[("held", &held), ("due", &due)]));
            }
            Some(StandingFinding::LiquidPossible { .. }) => known.push(self.say("liquid_possible", &[])),
            Some(StandingFinding::NotThisRefrigerantAlone { .. }) => known.push(self.say("not_alone", &[])),
            None => {}
        }
        if let Some(conflict) = results.inventory.as_ref().and_then(|inventory| inventory.conflict) {
            known.push(self.say(conflict.name(), &[]));
        }
        match results.standing.as_ref().map(|standing| standing.air) {
            Some(air @ (AirIngress::Possible | AirIngress::DrawnIn)) => {
                known.push(self.say(&format!("air_{}", air.name()), &[]));
            }
            Some(AirIngress::KeptOut) | None => {}
        }
        if let Some(missing) = results.missing {
            known.push(self.say("missing", &[("missing", &units.range(missing, language))]));
        }
        for capacitor in &results.capacitors {
            let name = capacitor.name.as_str();
            match capacitor.verdict() {
                Some(Verdict::Within(_)) => known.push(self.say("capacitor_within", &[("name", name)])),
                Some(Verdict::Outside(judged)) => {
                    let value = units.text(judged.value());
                    known.push(self.say("capacitor_outside", &[("name", name), ("value", &value)]));
                }
                Some(Verdict::Unresolved(_)) | None => {}
            }
        }
        known
    }
}
