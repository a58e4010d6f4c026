//! The invoice: what was done, what it costs, what is paid, what is due.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::doc::Block;
use super::labels::Labels;
use super::text::list;
use super::view::{LineView, lines};
use super::{Consent, Fact, Paper, Templates, doc, facts, figures, html};
use crate::estimate::{Language, Money, PricedWay};
use crate::{Error, Result};

/// A payment that was made.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Payment {
    /// How: "deposit, card".
    pub what: String,
    /// When, as it is to be printed.
    pub on: String,
    /// How much.
    pub amount: Money,
}

/// An invoice on one page: the work as it was, to the cent, within what was authorised.
///
/// # Errors
/// Its forms refuse a bill that is still a range, and one above the amount the customer agreed to.
///
/// # Example
/// ```
/// use kingvalve::estimate::{Invoice, Item, RateCard, Way, Words, Work};
/// # let card = RateCard::from_json(include_str!("../../../../../examples/data/rate_card.json"))?;
/// let work = Work { fees: vec![Item::one("trip")], materials: vec![Item::one("filter-drier")], ..Work::default() };
/// let bill = Way { name: "drier".into(), title: "New drier".into(), work, words: Words::default() }.price(&card)?;
/// let invoice = Invoice::of(card.shop.clone(), bill);
/// assert_eq!(invoice.balance()?.to_string(), "177.80 USD");
/// assert!(invoice.to_html()?.contains("$177.80"));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Invoice {
    /// The shop, as it signs.
    pub shop: String,
    /// Its address, telephone, licence: a line each.
    pub shop_lines: Vec<String>,
    /// "Invoice" if blank.
    pub title: String,
    /// Labelled facts at the head: number, date, customer.
    pub facts: Vec<Fact>,
    /// The work as it was, priced: every quantity known.
    pub bill: PricedWay,
    /// What was paid.
    pub paid: Vec<Payment>,
    /// Refrigerant put in and taken out.
    pub refrigerant: Vec<Fact>,
    /// What the customer agreed to.
    pub consent: Option<Consent>,
    /// The shop's small print.
    pub terms: Vec<String>,
    /// The paper it is laid out for.
    pub paper: Paper,
    /// The language of everything the library says.
    pub language: Language,
    /// The shop's own words in that language.
    pub labels: BTreeMap<String, String>,
}

#[derive(Serialize)]
struct View {
    lang: &'static str,
    words: &'static BTreeMap<String, String>,
    shop: String,
    shop_lines: Vec<String>,
    title: String,
    facts: Vec<(String, String)>,
    way: String,
    lines: Vec<LineView>,
    sums: Vec<Sum>,
    refrigerant: Vec<(String, String)>,
    warranty: Vec<String>,
    authorised: Option<String>,
    terms: Vec<String>,
    note: String,
    page_size: &'static str,
    points: f64,
}

#[derive(Serialize)]
struct Sum {
    what: String,
    amount: String,
    plain_amount: String,
    strong: bool,
}

impl Invoice {
    /// A bill of a shop, with nothing else on it.
    pub fn of(shop: impl Into<String>, bill: PricedWay) -> Self {
        Self {
            shop: shop.into(),
            bill,
            shop_lines: Vec::new(),
            title: String::new(),
            facts: Vec::new(),
            paid: Vec::new(),
            refrigerant: Vec::new(),
            consent: None,
            terms: Vec::new(),
            paper: Paper::default(),
            language: Language::default(),
            labels: BTreeMap::new(),
        }
    }

    /// What is still to be paid; below nothing where too much was.
    ///
    /// # Errors
    /// A bill that is still a range, or above what was agreed; a payment in another currency.
    pub fn balance(&self) -> Result<Money> {
        let total = self.total()?;
        self.paid.iter().try_fold(total, |due, payment| due.minus(payment.amount))
    }

    /// The total, once it is known to be one amount and within what was agreed.
    fn total(&self) -> Result<Money> {
        let total = self.bill.total();
        if !total.is_exact() {
            let advice = "bill what was done: one number of hours, one weight";
            return Err(Error::inconsistent("invoice", format!("its total is a range, {total}"), advice)
                .in_field("bill"));
        }
        if let Some(consent) = &self.consent
            && total.high() > consent.up_to
        {
            let limit = format!("{} agreed to up to {}", consent.by, consent.up_to);
            let advice = "ask before more is done, and put the new amount into the consent";
            return Err(Error::out_of_range("total", total, limit, advice).in_field("consent.up_to"));
        }
        Ok(total.high())
    }

    /// One HTML page, with its style inside, by the built-in templates.
    ///
    /// # Errors
    /// As for [`balance`](Self::balance).
    pub fn to_html(&self) -> Result<String> {
        html::render("invoice.html", self.view()?)
    }

    /// The same by a shop's own templates.
    ///
    /// # Errors
    /// As for [`balance`](Self::balance); a template that does not read, or asks for what is not there.
    pub fn to_html_by(&self, templates: &Templates) -> Result<String> {
        templates.render("invoice.html", self.view()?)
    }

    /// Plain text, 78 columns wide.
    ///
    /// # Errors
    /// As for [`balance`](Self::balance).
    pub fn to_text(&self) -> Result<String> {
        Ok(doc::text(&self.blocks()?))
    }

    /// Markdown (CommonMark).
    ///
    /// # Errors
    /// As for [`balance`](Self::balance).
    pub fn to_markdown(&self) -> Result<String> {
        Ok(doc::markdown(&self.blocks()?))
    }

    fn view(&self) -> Result<View> {
        let (total, balance) = (self.total()?, self.balance()?);
        let labels = Labels::new(&self.labels, self.language);
        let say = |key: &str, places: &[(&str, &str)]| self.language.sheet(key, places);
        let sum = |what: String, amount: Money, strong: bool| Sum {
            what,
            amount: figures::amount(amount),
            plain_amount: amount.to_string(),
            strong,
        };
        let mut sums = vec![sum(say("total", &[]), total, true)];
        for payment in &self.paid {
            let places = [("what", labels.of(&payment.what)), ("on", labels.of(&payment.on))];
            let places = places.each_ref().map(|(place, text)| (*place, text.as_str()));
            sums.push(sum(say("paid", &places), Money::zero(total.currency()).minus(payment.amount)?, false));
        }
        let owed = if balance.is_negative() { "balance_owed" } else { "balance" };
        let due =
            if balance.is_negative() { Money::zero(balance.currency()).minus(balance)? } else { balance };
        sums.push(sum(say(owed, &[]), due, true));
        let authorised = self.consent.as_ref().map(|consent| {
            let (by, on) = (labels.of(&consent.by), labels.of(&consent.on));
            say("authorised", &[("by", &by), ("on", &on), ("amount", &figures::amount(consent.up_to))])
        });
        Ok(View {
            lang: self.language.code(),
            words: self.language.sheet_strings(),
            shop: labels.of(&self.shop),
            shop_lines: labels.all(&self.shop_lines),
            title: Some(labels.of(&self.title))
                .filter(|title| !title.is_empty())
                .unwrap_or(say("invoice", &[])),
            facts: facts(&self.facts, &labels),
            way: labels.of(self.bill.title()),
            lines: lines(&self.bill, &labels),
            sums,
            refrigerant: facts(&self.refrigerant, &labels),
            warranty: labels.all(&self.bill.words().warranty),
            authorised,
            terms: labels.all(&self.terms),
            note: say("invoice_note", &[("currency", total.currency().code())]),
            page_size: self.paper.css(),
            points: if self.bill.lines().len() > 14 { 8.0 } else { 9.5 },
        })
    }

    fn blocks(&self) -> Result<Vec<Block>> {
        let view = self.view()?;
        let say = |key: &str| self.language.sheet(key, &[]);
        let mut blocks = vec![Block::Title { from: view.shop, title: view.title }];
        blocks.extend(view.shop_lines.into_iter().map(Block::Plain));
        blocks.extend(view.facts.into_iter().map(|(label, value)| Block::Fact(label, value)));
        blocks.push(Block::Heading(format!("{}: {}", say("invoice_for"), view.way)));
        for line in view.lines {
            let or_nothing = |text: &str, said: String| if text.is_empty() { String::new() } else { said };
            let detail = or_nothing(&line.detail, format!(" ({})", line.detail));
            let how_much = or_nothing(&line.how_much, format!(", {}", line.plain_how_much));
            blocks.push(Block::Row {
                what: format!("{}{detail}{how_much}", line.what),
                amount: line.plain_amount,
            });
        }
        blocks
            .extend(view.sums.into_iter().map(|sum| Block::Row { what: sum.what, amount: sum.plain_amount }));
        let refrigerant: Vec<String> =
            view.refrigerant.iter().map(|(label, value)| format!("{label}: {value}")).collect();
        list(&mut blocks, say("charged"), &refrigerant);
        list(&mut blocks, say("warranty"), &view.warranty);
        let authorised = view.authorised.map(|said| format!("{said} {}", say("within_authorised")));
        list(&mut blocks, say("agreed"), authorised.as_slice());
        list(&mut blocks, say("terms"), &view.terms);
        Ok(blocks)
    }
}
