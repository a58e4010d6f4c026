//! The customer's options sheet, from an evaluation.

use super::Evaluation;
use super::report::masses;
use crate::charge::StandingFinding;
use crate::estimate::{Fact, OptionsSheet};
use crate::measure::Verdict;

impl Evaluation {
    /// The customer's options sheet; [`OptionsSheet::to_html`] prints it.
    ///
    /// The shop may change any field before printing: title, terms, advice, paper.
    ///
    /// # Example
    /// See [the room](super).
    pub fn sheet(&self) -> OptionsSheet {
        let (record, results) = (&self.record, &self.results);
        let fact = |label: &str, value: &str| Fact { label: label.to_owned(), value: value.to_owned() };
        OptionsSheet {
            shop: record.rates.as_ref().map(|rates| rates.shop.clone()).unwrap_or_default(),
            title: "Your air conditioner does not cool: what you can do".to_owned(),
            facts: vec![
                fact("Prepared for", &record.customer.name),
                fact("Address", &record.customer.address),
                fact("Equipment", &format!("{}, {}", record.equipment.description, self.refrigerant)),
                fact("Date", &record.date),
                fact("Technician", &record.technician),
            ],
            known: self.known(),
            unknown: self.unknown(),
            ways: results.ways.clone(),
            cautions: results.cautions.iter().map(|caution| caution.text().to_owned()).collect(),
            terms: record.note.iter().cloned().collect(),
            consent: record.consent.clone(),
            ..OptionsSheet::default()
        }
    }

    /// What the readings establish, in the customer's words.
    fn known(&self) -> Vec<String> {
        let results = &self.results;
        let mut known = Vec::new();
        match results.standing.as_ref().map(|standing| &standing.finding) {
            Some(StandingFinding::AllVapour { mass, .. }) => known.push(format!(
                "The system is nearly empty: {} of refrigerant are left of the {:.1} it should hold.",
                masses(*mass),
                results.charge_due
            )),
            Some(StandingFinding::LiquidPossible { .. }) => known.push(
                "There may be liquid refrigerant in the system; its standing pressure cannot tell how much."
                    .to_owned(),
            ),
            Some(StandingFinding::NotThisRefrigerantAlone { .. }) => known.push(
                "The pressure is too high for this refrigerant alone: there is something else in the system."
                    .to_owned(),
            ),
            None => {}
        }
        if let Some(missing) = results.missing {
            known.push(format!("{} of refrigerant are missing.", masses(missing)));
        }
        for capacitor in &results.capacitors {
            match capacitor.verdict() {
                Some(Verdict::Within(_)) => {
                    known.push(format!("Run capacitor, {}: within its limits.", capacitor.name))
                }
                Some(Verdict::Outside(judged)) => known.push(format!(
                    "Run capacitor, {}: {:.1}, outside its limits. It should be replaced.",
                    capacitor.name,
                    judged.value()
                )),
                Some(Verdict::Unresolved(_)) | None => {}
            }
        }
        known
    }
}
