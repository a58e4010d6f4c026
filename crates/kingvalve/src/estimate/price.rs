//! From work to lines: everything that is billed, in the order in which it is printed.

use super::discounted::discounted;
use super::{BilledQuantity, BilledUnit, BillingStep, Charge, Count, Item, Line, LineKind, PriceRange};
use super::{RateCard, RefrigerantRate, Step, Task, TaxLine, WeightUnit, Work};
use crate::Result;
use crate::measure::Interval;
use crate::quantity::{Mass, Quantity, Time};

/// The time band that goes unsaid on a line.
pub(super) const REGULAR: &str = "regular";

/// The lines of some work: fees, hours, refrigerant, material, replacements.
pub(super) fn lines(work: &Work, card: &RateCard) -> Result<Vec<Line>> {
    let mut lines = Vec::new();
    for item in together(&work.fees) {
        lines.push(pieces(&item, LineKind::Fee, PriceRange::exact(card.fee(&item.name)?)?, card)?);
    }
    for tasks in grouped(&work.tasks, |task| (&task.role, &task.band)) {
        lines.extend(labor(&tasks, card)?);
    }
    for charges in grouped(&work.refrigerants, |charge| &charge.designation) {
        lines.extend(refrigerant(&charges, card)?);
    }
    for item in together(&work.materials) {
        lines.push(pieces(&item, LineKind::Material, PriceRange::exact(card.material(&item.name)?)?, card)?);
    }
    for item in together(&work.replacements) {
        lines.push(pieces(&item, LineKind::Equipment, card.replacement(&item.name)?, card)?);
    }
    Ok(lines)
}

/// What some work comes to: the lines less discounts, with taxes.
pub(super) fn total(work: &Work, card: &RateCard) -> Result<PriceRange> {
    let lines = lines(work, card)?;
    let (_, left) = discounted(&lines, card)?;
    let net = PriceRange::sum(card.currency, left.iter().copied())?;
    taxes(&lines, &left, card)?.iter().map(TaxLine::added).try_fold(net, PriceRange::plus)
}

/// The taxes on what discounts leave of some lines, each at the low and at the high end; a tax that none of them bears is
/// left out.
pub(super) fn taxes(lines: &[Line], left: &[PriceRange], card: &RateCard) -> Result<Vec<TaxLine>> {
    let tax_line = |tax: &super::Tax| {
        let taxed = || {
            lines.iter().zip(left).filter(|(line, _)| tax.on.contains(&line.kind())).map(|(_, left)| *left)
        };
        let low = tax.amount(card.currency, taxed().map(PriceRange::low))?;
        let high = tax.amount(card.currency, taxed().map(PriceRange::high))?;
        let amount = PriceRange::new(low, high)?;
        Ok(TaxLine { name: tax.name.clone(), rate: tax.rate, amount, included: tax.included })
    };
    let borne = |tax: &&super::Tax| lines.iter().any(|line| tax.on.contains(&line.kind()));
    card.taxes.iter().filter(borne).map(tax_line).collect()
}

fn pieces(item: &Item, kind: LineKind, price: PriceRange, card: &RateCard) -> Result<Line> {
    let quantity =
        BilledQuantity::pieces(item.least, item.most).map_err(|error| error.in_field(&item.name))?;
    let unit_price =
        PriceRange::new(card.unit_price(kind, price.low())?, card.unit_price(kind, price.high())?)?;
    Line::new(sentence(&item.name), kind, quantity, unit_price, card.rounding)
}

/// The hours of one role in one time band, added up and billed once.
fn labor(tasks: &[&Task], card: &RateCard) -> Result<Option<Line>> {
    let Some(Task { role, band, .. }) = tasks.first() else { return Ok(None) };
    let hours = card.bill_hours(summed(tasks.iter().map(|task| task.hours))?)?;
    let rate = card.unit_price(LineKind::Labor, card.labor_rate(role, band)?)?;
    let what = tasks.iter().map(|task| task.what.as_str()).collect::<Vec<_>>().join(", ");
    let line = Line::new(
        if band == REGULAR { sentence(role) } else { sentence(&format!("{role}, {band}")) },
        LineKind::Labor,
        hours,
        PriceRange::exact(rate)?,
        card.rounding,
    );
    line.map(|line| Some(line.with_detail(what)))
}

/// The weight of one refrigerant, added up and billed once.
fn refrigerant(charges: &[&Charge], card: &RateCard) -> Result<Option<Line>> {
    let Some(Charge { designation, .. }) = charges.first() else { return Ok(None) };
    let rate = card.refrigerant(designation)?;
    let weight = rate.bill(summed(charges.iter().map(|charge| charge.mass))?)?;
    let price = card.unit_price(LineKind::Refrigerant, rate.price)?;
    let BillingStep { step, count } = rate.billed;
    let unit = BilledUnit::from(rate.per).symbol();
    let counted = match count {
        Count::Started => format!("by started {step} {unit}"),
        Count::Nearest => format!("by weight, to {step} {unit}"),
    };
    let line =
        Line::new(designation, LineKind::Refrigerant, weight, PriceRange::exact(price)?, card.rounding);
    line.map(|line| Some(line.with_detail(counted)))
}

impl RateCard {
    /// Hours as billed: counted in the card's steps, and at least the card's minimum where any are worked.
    ///
    /// # Units
    /// Time in, hours out.
    ///
    /// # Source
    /// The card's own rule; see [`BillingStep`].
    ///
    /// # Valid range
    /// 0 to a million hours.
    ///
    /// # Accuracy
    /// Counting is exact on the time rounded to a millionth of an hour.
    ///
    /// # Errors
    /// A time below nothing, or beyond the range.
    ///
    /// # Example
    /// ```
    /// use kingvalve::estimate::RateCard;
    /// use kingvalve::measure::Interval;
    /// use kingvalve::quantity::{hours, minutes};
    /// # let card = RateCard::from_json(include_str!("../../../../examples/data/rate_card.json"))?;
    /// let billed = card.bill_hours(Interval::new(minutes(20.0), hours(1.6))?)?;
    /// assert_eq!(billed.to_string(), "1–1.75 h"); // at least an hour, by started quarters
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn bill_hours(&self, worked: Interval<Time>) -> Result<BilledQuantity> {
        let bill = |time: Time| -> Result<_> {
            let billed = self.hours_billed.bill(time.hours(), BilledUnit::Hour)?;
            let minimum = self.minimum_hours.filter(|_| !billed.is_zero()).map(Step::size);
            Ok(minimum.map_or(billed, |minimum| billed.max(minimum)))
        };
        BilledQuantity::new(bill(worked.low())?, bill(worked.high())?, BilledUnit::Hour)
    }
}

impl RefrigerantRate {
    /// Weight as billed: counted in the steps of this refrigerant.
    ///
    /// # Units
    /// Mass in; pounds or kilograms out, as the rate says.
    ///
    /// # Source
    /// The rate's own rule; see [`BillingStep`].
    ///
    /// # Valid range
    /// 0 to a million units.
    ///
    /// # Accuracy
    /// Counting is exact on the mass rounded to a millionth of its unit.
    ///
    /// # Errors
    /// A mass below nothing, or beyond the range.
    ///
    /// # Example
    /// ```
    /// use kingvalve::estimate::RateCard;
    /// use kingvalve::measure::Interval;
    /// use kingvalve::quantity::pounds;
    /// # let card = RateCard::from_json(include_str!("../../../../examples/data/rate_card.json"))?;
    /// let billed = card.refrigerant("R-454B")?.bill(Interval::new(pounds(4.1), pounds(6.5))?)?;
    /// assert_eq!(billed.to_string(), "4.5–6.5 lb"); // by started half pounds
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn bill(&self, weighed: Interval<Mass>) -> Result<BilledQuantity> {
        let bill = |mass: Mass| match self.per {
            WeightUnit::Pound => self.billed.bill(mass.pounds(), BilledUnit::Pound),
            WeightUnit::Kilogram => self.billed.bill(mass.kilograms(), BilledUnit::Kilogram),
        };
        BilledQuantity::new(bill(weighed.low())?, bill(weighed.high())?, self.per.into())
    }
}

/// Items of one name as one.
fn together(items: &[Item]) -> Vec<Item> {
    let sum = |group: Vec<&Item>| {
        let add =
            |count: fn(&Item) -> u32| group.iter().fold(0_u32, |sum, item| sum.saturating_add(count(item)));
        let (least, most) = (add(|item| item.least), add(|item| item.most));
        group.first().map(|item| Item { name: item.name.clone(), least, most })
    };
    grouped(items, |item| &item.name).into_iter().filter_map(sum).collect()
}

/// Things that share a key, together, in the order in which the keys first stand.
fn grouped<'a, T, K: PartialEq>(things: &'a [T], key: impl Fn(&'a T) -> K) -> Vec<Vec<&'a T>> {
    let mut groups: Vec<(K, Vec<&'a T>)> = Vec::new();
    for thing in things {
        let its_key = key(thing);
        match groups.iter_mut().find(|(known, _)| *known == its_key) {
            Some((_, group)) => group.push(thing),
            None => groups.push((its_key, vec![thing])),
        }
    }
    groups.into_iter().map(|(_, group)| group).collect()
}

/// Low added to low, high to high.
fn summed<Q: Quantity + std::iter::Sum>(
    intervals: impl Iterator<Item = Interval<Q>> + Clone,
) -> Result<Interval<Q>> {
    Interval::new(intervals.clone().map(|one| one.low()).sum(), intervals.map(|one| one.high()).sum())
}

/// A name as the start of a sentence.
pub(super) fn sentence(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}
