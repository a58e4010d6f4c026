//! A way forward and its price.

use serde::{Deserialize, Serialize};

use super::{Line, Money, PriceRange, RateCard, TaxLine, Work, price};
use crate::{Error, Result};

/// A way forward, before it is priced. Plain data: a shop adds its own.
///
/// # Example
/// ```
/// use kingvalve::estimate::{Item, RateCard, Way, Words, Work};
/// # let card = RateCard::from_json(include_str!("../../../../examples/data/rate_card.json"))?;
/// let way = Way {
///     name: "new drier".into(),
///     title: "Replace the filter-drier".into(),
///     work: Work { fees: vec![Item::one("trip")], materials: vec![Item::one("filter-drier")], ..Work::default() },
///     words: Words::default(),
/// };
/// let priced = way.price(&card)?;
/// assert_eq!(priced.total().to_string(), "177.80 USD"); // 89.00, 72.00 + 15 %, and 7.25 % tax on the drier
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Way {
    /// What programs call it.
    pub name: String,
    /// What the customer reads.
    pub title: String,
    /// What it takes.
    pub work: Work,
    /// What is said of it.
    #[serde(default)]
    pub words: Words,
}

/// What is said of a way: sentences for the customer.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Words {
    /// What it includes.
    pub includes: Vec<String>,
    /// What it leaves unrepaired.
    pub does_not_fix: Vec<String>,
    /// What nobody knows yet, and what would move the price.
    pub uncertain: Vec<String>,
    /// What can hurt somebody or something.
    pub cautions: Vec<String>,
}

impl Words {
    /// These words and `more`.
    #[must_use]
    pub fn and(mut self, more: Self) -> Self {
        self.includes.extend(more.includes);
        self.does_not_fix.extend(more.does_not_fix);
        self.uncertain.extend(more.uncertain);
        self.cautions.extend(more.cautions);
        self
    }
}

impl Way {
    /// This way with something done besides, priced together: hours add up before they are billed.
    #[must_use]
    pub fn also(mut self, work: Work, words: Words) -> Self {
        self.work = self.work.and(work);
        self.words = self.words.and(words);
        self
    }

    /// Its price by a rate card.
    ///
    /// Hours of one role and time band are added up and billed as one line, refrigerant of one designation likewise, so that
    /// a started step is billed once a visit and not once a task. Every line is made payable, and the total is the sum of
    /// the lines and taxes as printed.
    ///
    /// # Units
    /// The currency of the card.
    ///
    /// # Source
    /// Definitions: [`Line`], [`Tax`](super::Tax), [`BillingStep`](super::BillingStep).
    ///
    /// # Valid range
    /// Quantities not below nothing.
    ///
    /// # Accuracy
    /// Decimal from the billed quantity on; the low end has every quantity at its least, the high end at its most. The range
    /// is the sum of extremes, not a likelihood.
    ///
    /// # Errors
    /// A name that is not on the card; a card that does not validate; a quantity or an amount out of range.
    ///
    /// # Example
    /// See [`Way`].
    pub fn price(&self, card: &RateCard) -> Result<PricedWay> {
        card.validate().map_err(|error| error.in_field("rate_card"))?;
        let lines = price::lines(&self.work, card)?;
        let taxes = price::taxes(&lines, card)?;
        PricedWay::new(self.name.clone(), self.title.clone(), card.currency, lines, taxes, self.words.clone())
    }
}

/// A way forward with its price: the lines, the taxes, and a total that is their sum to the cent.
///
/// Read from JSON it is believed only if every line is its quantity at its price and the totals are the sums.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Written")]
pub struct PricedWay {
    name: String,
    title: String,
    lines: Vec<Line>,
    subtotal: PriceRange,
    taxes: Vec<TaxLine>,
    total: PriceRange,
    not_to_exceed: Money,
    words: Words,
}

impl PricedWay {
    fn new(
        name: String,
        title: String,
        currency: super::Currency,
        lines: Vec<Line>,
        taxes: Vec<TaxLine>,
        words: Words,
    ) -> Result<Self> {
        let subtotal = PriceRange::sum(currency, lines.iter().map(Line::amount))?;
        let total = taxes.iter().map(TaxLine::added).try_fold(subtotal, PriceRange::plus)?;
        Ok(Self { name, title, lines, subtotal, taxes, total, not_to_exceed: total.high(), words })
    }

    /// What programs call it.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// What the customer reads.
    pub fn title(&self) -> &str {
        &self.title
    }

    /// The lines, as printed.
    pub fn lines(&self) -> &[Line] {
        &self.lines
    }

    /// The sum of the lines.
    pub fn subtotal(&self) -> PriceRange {
        self.subtotal
    }

    /// The taxes, as printed.
    pub fn taxes(&self) -> &[TaxLine] {
        &self.taxes
    }

    /// The sum of the lines and of the taxes they do not contain already.
    pub fn total(&self) -> PriceRange {
        self.total
    }

    /// The most that is charged without asking again: the high end of the total, unless it was agreed lower or higher.
    pub fn not_to_exceed(&self) -> Money {
        self.not_to_exceed
    }

    /// What is said of it.
    pub fn words(&self) -> &Words {
        &self.words
    }

    /// The same with another amount agreed as the most that is charged without asking again.
    ///
    /// # Errors
    /// An amount below the low end of the total, which no work under this way can meet; one that is not payable; another
    /// currency.
    pub fn limited_to(mut self, most: Money) -> Result<Self> {
        let low = self.total.low();
        low.same_currency(most)?;
        if most < low || !most.is_payable() {
            let limit = format!("from {low} up, to the cent");
            let advice = "agree on an amount that the least of the work fits in, or choose another way";
            return Err(
                Error::out_of_range("not-to-exceed amount", most, limit, advice).in_field("not_to_exceed")
            );
        }
        self.not_to_exceed = most;
        Ok(self)
    }
}

/// A priced way as it was written, before it is believed.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    name: String,
    title: String,
    lines: Vec<Line>,
    subtotal: PriceRange,
    taxes: Vec<TaxLine>,
    total: PriceRange,
    not_to_exceed: Money,
    words: Words,
}

impl TryFrom<Written> for PricedWay {
    type Error = Error;

    fn try_from(written: Written) -> Result<Self> {
        let Written { name, title, lines, subtotal, taxes, total, not_to_exceed, words } = written;
        let summed = Self::new(name, title, total.currency(), lines, taxes, words)?;
        for (field, sum, written) in [("subtotal", summed.subtotal, subtotal), ("total", summed.total, total)]
        {
            if sum != written {
                let why = format!("the lines come to {sum}, not {written}");
                return Err(Error::inconsistent("sum", why, "price the way again").in_field(field));
            }
        }
        summed.limited_to(not_to_exceed)
    }
}
