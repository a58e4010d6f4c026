//! A way forward and its price.

use serde::{Deserialize, Serialize};

use super::discounted::discounted;
use super::{Addition, DiscountLine, LikelyPrice, Line, Money, PriceRange, RateCard, TaxLine, Work, price};
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
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
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
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema)]
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
    /// What the shop warrants.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub warranty: Vec<String>,
}

impl Words {
    /// These words and `more`.
    #[must_use]
    pub fn and(mut self, more: Self) -> Self {
        self.includes.extend(more.includes);
        self.does_not_fix.extend(more.does_not_fix);
        self.uncertain.extend(more.uncertain);
        self.cautions.extend(more.cautions);
        self.warranty.extend(more.warranty);
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
    /// Hours of one role and time band are added up and billed as one line, refrigerant of one designation and pieces of one
    /// name likewise, so that a started step is billed once a visit and not once a task. Every line is made payable, and the total is the sum of
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
        let (discounts, left) = discounted(&lines, card)?;
        let taxes = price::taxes(&lines, &left, card)?;
        let mut words = self.words.clone();
        words.warranty.extend(card.warranty.get(&self.name).into_iter().flatten().cloned());
        let said = (self.name.clone(), self.title.clone(), words);
        let mut priced = PricedWay::new(said, card.currency, lines, discounts, taxes)?;
        if let Some(deposit) = card.deposit {
            priced.deposit = deposit.of(priced.total.low(), card.rounding)?;
        }
        Ok(priced)
    }
}

impl Way {
    /// Its price, and beside it what the whole comes to with each of some additions done at the same visit.
    ///
    /// # Errors
    /// As for [`price`](Self::price).
    ///
    /// # Example
    /// See [`Addition`].
    pub fn price_with(&self, card: &RateCard, additions: &[Addition]) -> Result<PricedWay> {
        let mut priced = self.price(card)?;
        for addition in additions {
            let work = self.work.clone().and(addition.work.clone());
            let total = price::total(&work, card).map_err(|error| error.in_field(&addition.name))?;
            let (name, title) = (addition.name.clone(), addition.title.clone());
            priced.together.push(Together { name, title, total });
        }
        Ok(priced)
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
    #[serde(skip_serializing_if = "Vec::is_empty")]
    discounts: Vec<DiscountLine>,
    taxes: Vec<TaxLine>,
    total: PriceRange,
    not_to_exceed: Money,
    #[serde(skip_serializing_if = "Option::is_none")]
    deposit: Option<Money>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    together: Vec<Together>,
    #[serde(skip_serializing_if = "Option::is_none")]
    likely: Option<LikelyPrice>,
    words: Words,
}

/// What a way comes to with something else done at the same visit.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Together {
    /// What programs call the addition.
    pub name: String,
    /// What the customer reads.
    pub title: String,
    /// The whole: the way and the addition, priced as one.
    pub total: PriceRange,
}

impl PricedWay {
    fn new(
        (name, title, words): (String, String, Words),
        currency: super::Currency,
        lines: Vec<Line>,
        discounts: Vec<DiscountLine>,
        taxes: Vec<TaxLine>,
    ) -> Result<Self> {
        let subtotal = PriceRange::sum(currency, lines.iter().map(Line::amount))?;
        let left = discounts.iter().map(|discount| discount.amount).try_fold(subtotal, PriceRange::minus)?;
        let total = taxes.iter().map(TaxLine::added).try_fold(left, PriceRange::plus)?;
        let not_to_exceed = total.high();
        Ok(Self {
            name,
            title,
            lines,
            subtotal,
            discounts,
            taxes,
            total,
            not_to_exceed,
            deposit: None,
            together: Vec::new(),
            likely: None,
            words,
        })
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

    /// The discounts, as printed: what is taken off the lines before tax.
    pub fn discounts(&self) -> &[DiscountLine] {
        &self.discounts
    }

    /// What is asked when the way is agreed on, where the shop asks anything.
    pub fn deposit(&self) -> Option<Money> {
        self.deposit
    }

    /// The taxes, as printed.
    pub fn taxes(&self) -> &[TaxLine] {
        &self.taxes
    }

    /// The sum of the lines, less the discounts, with the taxes they do not contain already.
    pub fn total(&self) -> PriceRange {
        self.total
    }

    /// The most that is charged without asking again: the high end of the total, unless it was agreed lower or higher.
    pub fn not_to_exceed(&self) -> Money {
        self.not_to_exceed
    }

    /// What it comes to with something else done at the same visit.
    pub fn together(&self) -> &[Together] {
        &self.together
    }

    /// Where the price likely falls, where that was simulated.
    pub fn likely(&self) -> Option<&LikelyPrice> {
        self.likely.as_ref()
    }

    /// The same with the likely price beside the range.
    ///
    /// # Errors
    /// A likely price that leaves the range.
    pub fn with_likely(mut self, likely: LikelyPrice) -> Result<Self> {
        let total = self.total;
        if !(total.low() <= likely.range.low() && likely.range.high() <= total.high()) {
            let why = format!("{} leaves the range {total}", likely.range);
            return Err(
                Error::inconsistent("likely price", why, "simulate it by the same card").in_field("likely")
            );
        }
        self.likely = Some(likely);
        Ok(self)
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
    #[serde(default)]
    discounts: Vec<DiscountLine>,
    taxes: Vec<TaxLine>,
    total: PriceRange,
    not_to_exceed: Money,
    deposit: Option<Money>,
    #[serde(default)]
    together: Vec<Together>,
    likely: Option<LikelyPrice>,
    words: Words,
}

impl TryFrom<Written> for PricedWay {
    type Error = Error;

    fn try_from(written: Written) -> Result<Self> {
        let Written {
            name,
            title,
            lines,
            subtotal,
            discounts,
            taxes,
            total,
            not_to_exceed,
            deposit,
            together,
            likely,
            words,
        } = written;
        let mut summed = Self::new((name, title, words), total.currency(), lines, discounts, taxes)?;
        if let Some(deposit) = deposit {
            deposit.same_currency(total.low())?;
            if deposit.is_negative() || deposit > total.low() || !deposit.is_payable() {
                let limit = format!("from nothing to {}, to the cent", total.low());
                let advice = "a deposit is part of what is due for certain";
                return Err(Error::out_of_range("deposit", deposit, limit, advice).in_field("deposit"));
            }
        }
        summed.deposit = deposit;
        summed.together = together;
        for (field, sum, written) in [("subtotal", summed.subtotal, subtotal), ("total", summed.total, total)]
        {
            if sum != written {
                let why = format!("the lines come to {sum}, not {written}");
                return Err(Error::inconsistent("sum", why, "price the way again").in_field(field));
            }
        }
        let summed = summed.limited_to(not_to_exceed)?;
        likely.map_or(Ok(summed.clone()), |likely| summed.with_likely(likely))
    }
}
