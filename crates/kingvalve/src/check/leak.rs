//! `leak_rate`.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{Check, Fields, refrigerant};
use crate::charge::forecast::{
    Appliance, DatedCharge, Day, Decline, LeakForm, LeakRate, LeakRule, USUAL_HORIZON, leak_threshold,
};
use crate::measure::{Caution, Finding, Instrument, Level, Limits, Measured, Reading};
use crate::quantity::{Mass, MassFlow, Ratio, Time, days};
use crate::refrigerant::{Assessment, Gwp, Refrigerant};
use crate::{Error, Result};

/// How fast a system leaks, from what was added and when; what that is in a year, and when it will be short again.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct LeakRateCheck {
    /// Its designation: "R-410A".
    refrigerant: String,
    /// The full charge in normal operation.
    full_charge: Mass,
    /// The scale all charges were weighed on.
    scale: Instrument<Mass>,
    /// The charges, in the order of their dates; each brings the system to the same mark. The first is the one from
    /// which time counts.
    charges: Vec<Charge>,
    /// How closely a charge meets its mark, to either side.
    meets_mark_within: Mass,
    /// Below this charge the system no longer cools as it should, where that is known.
    #[serde(default)]
    lowest_charge: Option<Mass>,
    /// How the leak goes on; at a constant rate where it is left out.
    #[serde(default)]
    form: Option<LeakForm>,
    /// What it is for, to hold it against the federal rule of the United States.
    #[serde(default)]
    appliance: Option<Ruled>,
    /// How sure to be; 95 % where it is left out.
    #[serde(default)]
    level: Level,
}

/// One charge.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Charge {
    /// The day: "2026-06-01".
    day: Day,
    /// What was added.
    added: Mass,
}

/// The rule to hold a system against.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Ruled {
    /// Ozone-depleting refrigerants, or hydrofluorocarbons and their substitutes.
    rule: LeakRule,
    /// What the appliance is for.
    kind: Appliance,
}

impl Check for LeakRateCheck {
    const NAME: &'static str = "leak_rate";
    const EXAMPLE: &'static str = include_str!("examples/leak_rate.json");
    const FIELDS: Fields = &[("dated charges", "charges"), ("mass with limits", "meets_mark_within")];

    fn find(self) -> Result<Finding> {
        let refrigerant = refrigerant(&self.refrigerant)?;
        if !(self.full_charge > Mass::ZERO && self.full_charge.is_finite()) {
            let advice = "read it from the data plate";
            return Err(Error::out_of_range("full charge", self.full_charge, "it is above zero", advice)
                .in_field("full_charge"));
        }
        let mut charges = Vec::new();
        for (at, charge) in self.charges.iter().enumerate() {
            let read = Reading::new(charge.added, self.scale.clone())
                .map_err(|error| error.in_field(format!("charges[{at}].added")))?;
            let added = read.labelled(format!("charge of {}", charge.day)).measured();
            charges.push(DatedCharge { day: charge.day, added });
        }
        let leak = LeakRate::from_charges(&charges, self.meets_mark_within)?;
        let a_year = leak.per_year();
        let share = a_year.clone().share_of(Measured::exact(self.full_charge));
        let mut finding = Finding::of(Self::NAME)
            .measured("leak rate", leak.rate())?
            .measured("lost in all", leak.lost())?
            .measured("lost in a year", &a_year)?
            .measured("share of the full charge a year", &share)?
            .saying(leak.to_string());
        if leak.changed(self.level) {
            finding = finding.saying(
                "The rate differed from one charge to the next by more than its doubt: the leak grew, or was mended in part.",
            );
        }
        if let Ok(gwp) = refrigerant.gwp(Assessment::Ar4) {
            let carbon = leak.carbon_dioxide_per_year(&gwp);
            finding = finding
                .measured("carbon dioxide equivalent a year", &carbon)?
                .saying(format!(
                    "A year's loss warms as {:.1} t of carbon dioxide.",
                    carbon.value().metric_tons()
                ))
                .source(format!("GWP {gwp}"));
        }
        if let Some(lowest) = self.lowest_charge {
            finding = finding.saying(self.shortage(&leak, charges.last(), lowest)?);
        }
        if let Some(ruled) = &self.appliance {
            finding = self.ruled(finding, &refrigerant, ruled, &charges)?;
        }
        let finding = finding
            .then("Find and mend the leak; adding refrigerant to a known leak is unlawful in some places.")
            .caution(Caution::Venting)
            .caution(Caution::HighPressure)
            .source("balance of mass; JCGM 100:2008");
        Ok(refrigerant.cautioned(finding))
    }
}

impl LeakRateCheck {
    /// When the charge falls below the lowest, counted from the last charge.
    fn shortage(&self, leak: &LeakRate, last: Option<&DatedCharge>, lowest: Mass) -> Result<String> {
        let Some(last) = last else { return Ok(String::new()) };
        if leak.rate().value() <= MassFlow::ZERO {
            return Ok("No loss shows, so no date by which it would be short.".into());
        }
        let charge =
            Measured::from_limits(self.full_charge, self.meets_mark_within, "charge meets its mark")?;
        let form = self.form.unwrap_or(LeakForm::Constant);
        let decline = Decline::of(last.day, charge, leak.rate().clone(), form)?;
        let crossing = decline
            .falls_below(lowest, USUAL_HORIZON, self.level)
            .map_err(|error| error.in_field("lowest_charge"))?;
        Ok(format!("If the leak stays as it is, less than {lowest:.2} is left: {crossing}."))
    }

    /// The rate by the rule's annualizing method against its threshold.
    fn ruled(
        &self,
        finding: Finding,
        refrigerant: &Refrigerant,
        ruled: &Ruled,
        charges: &[DatedCharge],
    ) -> Result<Finding> {
        let threshold = leak_threshold(ruled.rule, ruled.kind);
        let gwp: Option<Gwp> = refrigerant.gwp(Assessment::Ar4).ok();
        // Where no potential is known, the charge alone decides, and the text says so.
        let applies = match &gwp {
            Some(gwp) => threshold.applies_to(self.full_charge, gwp),
            None => self.full_charge >= threshold.full_charge,
        };
        let finding = match (&gwp, threshold.gwp_above) {
            (None, Some(least)) if applies => finding.saying(format!(
                "No warming potential is known here for {refrigerant}: {} applies only where it is above {least}.",
                threshold.source
            )),
            _ => finding,
        };
        if !applies {
            return Ok(finding
                .saying(format!(
                    "{} does not apply: it is for a full charge of {:.0} and more{}.",
                    threshold.source,
                    threshold.full_charge,
                    threshold
                        .gwp_above
                        .map_or(String::new(), |gwp| format!(", and a warming potential above {gwp}"))
                ))
                .source(threshold.source));
        }
        let [.., before, last] = charges else { return Ok(finding) };
        let since: Time = last.day.since(before.day).min(days(365.0));
        let full_year = self.full_charge * (since / days(365.0));
        let rate: Measured<Ratio> = last.added.clone().share_of(Measured::exact(full_year));
        let verdict =
            Limits::at_most(threshold.rate)?.from_source(threshold.source).judge(&rate, self.level)?;
        Ok(finding
            .measured("leak rate by the annualizing method", &rate)?
            .judged("leak rate by the annualizing method", &verdict)?
            .saying(format!("By the annualizing method: {verdict}"))
            .source(threshold.source))
    }
}
