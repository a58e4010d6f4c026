//! The options sheet as strings and places, ready to be laid out.

use std::collections::BTreeMap;

use rust_decimal::Decimal;
use serde::Serialize;

use super::labels::Labels;
use super::scale::Scale;
use super::{Consent, OptionsSheet, figures};
use crate::estimate::{BilledUnit, Line, LineKind, Money, PriceRange, PricedWay, TaxLine};

/// Width of a price bar's picture, in CSS pixels.
pub(super) const WIDTH: f64 = 180.0;

#[derive(Serialize)]
pub(super) struct View {
    pub lang: &'static str,
    pub words: &'static BTreeMap<String, String>,
    pub shop: String,
    pub shop_lines: Vec<String>,
    pub title: String,
    pub facts: Vec<(String, String)>,
    pub known: Vec<String>,
    pub unknown: Vec<String>,
    pub ways: Vec<WayView>,
    pub advice: Option<String>,
    pub cautions: Vec<String>,
    pub terms: Vec<String>,
    pub consent: Option<ConsentView>,
    pub costs_note: String,
    pub ways_note: String,
    pub range_note: String,
    pub page_size: &'static str,
    pub points: f64,
    pub width: f64,
    pub ticks: Vec<Tick>,
}

#[derive(Serialize)]
pub(super) struct WayView {
    pub letter: char,
    pub title: String,
    pub price: String,
    pub plain_price: String,
    pub is_range: bool,
    pub limit: String,
    pub up_to: String,
    pub plain_limit: String,
    pub chosen: bool,
    pub low: f64,
    pub high: f64,
    pub likely: Option<LikelyView>,
    pub plain_likely: Option<String>,
    pub deposit: Option<String>,
    pub plain_deposit: Option<String>,
    pub lines: Vec<LineView>,
    pub includes: Vec<String>,
    /// What it includes, and what the shop warrants.
    pub included: Vec<String>,
    pub does_not_fix: Vec<String>,
    pub uncertain: Vec<String>,
    pub cautions: Vec<String>,
    pub warranty: Vec<String>,
    pub also: Vec<String>,
    pub plain_also: Vec<String>,
}

#[derive(Serialize)]
pub(super) struct LikelyView {
    pub low: f64,
    pub high: f64,
    pub text: String,
}

#[derive(Serialize)]
pub(super) struct LineView {
    pub what: String,
    pub detail: String,
    pub how_much: String,
    pub plain_how_much: String,
    pub quantity: String,
    pub price: String,
    pub amount: String,
    pub plain_amount: String,
}

#[derive(Serialize)]
pub(super) struct ConsentView {
    pub letter: char,
    pub title: String,
    pub plain_up_to: String,
    pub by: String,
    pub on: String,
}

#[derive(Serialize)]
pub(super) struct Tick {
    pub x: f64,
    pub label: String,
}

impl View {
    pub(super) fn of(sheet: &OptionsSheet) -> Self {
        let labels = Labels::new(&sheet.labels, sheet.language);
        let say = |key: &str, places: &[(&str, &str)]| sheet.language.sheet(key, places);
        let scale = Scale::over(sheet.ways.iter().map(|way| way.total().high()), WIDTH, 4.0);
        let chosen = |way: &PricedWay| sheet.consent.as_ref().filter(|consent| consent.way == way.name());
        let lettered = || ('A'..='Z').zip(&sheet.ways);
        let currency = sheet.ways.first().map(|way| way.total().currency());
        let code = currency.map_or("", |currency| currency.code());
        let tick = |(x, amount)| {
            let label = currency.and_then(|currency| Money::new(amount, currency).ok()).map(figures::amount);
            Tick { x, label: label.map_or(String::new(), |label| figures::whole_units(&label)) }
        };
        let taxed = sheet.ways.iter().any(|way| !way.taxes().is_empty());
        let tax = if taxed { say("tax_included", &[]) } else { String::new() };
        let draws = sheet.ways.iter().find_map(PricedWay::likely).map(|likely| likely.draws.to_string());
        let likely_note =
            draws.map_or(String::new(), |draws| format!(" {}", say("likely_note", &[("draws", &draws)])));
        let simulated = sheet.ways.iter().any(|way| way.likely().is_some());
        let costs_likely = if simulated { say("costs_likely", &[]) } else { String::new() };
        let ways: Vec<_> =
            lettered().map(|(letter, way)| WayView::of(letter, way, chosen(way), &scale, &labels)).collect();
        Self {
            lang: sheet.language.code(),
            words: sheet.language.sheet_strings(),
            shop: labels.of(&sheet.shop),
            shop_lines: labels.all(&sheet.shop_lines),
            title: Some(labels.of(&sheet.title))
                .filter(|title| !title.is_empty())
                .unwrap_or_else(|| say("your_options", &[])),
            facts: super::facts(&sheet.facts, &labels),
            known: labels.all(&sheet.known),
            unknown: labels.all(&sheet.unknown),
            advice: sheet
                .advice
                .as_deref()
                .map(|advice| labels.of(advice))
                .filter(|advice| !advice.is_empty()),
            cautions: labels.all(&sheet.cautions),
            terms: labels.all(&sheet.terms),
            consent: lettered().find_map(|(letter, way)| {
                chosen(way).map(|consent| ConsentView {
                    letter,
                    title: labels.of(way.title()),
                    plain_up_to: consent.up_to.to_string(),
                    by: labels.of(&consent.by),
                    on: labels.of(&consent.on),
                })
            }),
            costs_note: format!("{}{costs_likely}", say("costs_note", &[("currency", code), ("tax", &tax)])),
            ways_note: say("ways_note", &[("currency", code), ("tax", &tax)]),
            range_note: format!("{}{likely_note}", say("range_note", &[("currency", code)])),
            page_size: sheet.paper.css(),
            points: 0.0,
            width: WIDTH,
            ticks: scale.ticks().into_iter().map(tick).collect(),
            ways,
        }
    }
}

impl WayView {
    fn of(letter: char, way: &PricedWay, consent: Option<&Consent>, scale: &Scale, labels: &Labels) -> Self {
        let limit = consent.map_or(way.not_to_exceed(), |consent| consent.up_to);
        let (total, words) = (way.total(), way.words());
        let say = |key: &str, places: &[(&str, &str)]| labels.language.sheet(key, places);
        let plain = |range| figures::plain_range(range, labels.language);
        let likely = |range: &dyn Fn(PriceRange) -> String| {
            way.likely().filter(|likely| !likely.range.is_exact()).map(|likely| {
                let level = likely.level.to_string();
                say("likely", &[("level", &level), ("range", &range(likely.range))])
            })
        };
        let also = |range: &dyn Fn(PriceRange) -> String| -> Vec<String> {
            let one = |also: &crate::estimate::Together| {
                let total = range(also.total);
                say("also_total", &[("title", &labels.of(&also.title)), ("total", &total)])
            };
            way.together().iter().map(one).collect()
        };
        let warrants = |said: String| format!("{}: {said}", say("warranty", &[]));
        let mut included = labels.all(&words.includes);
        included.extend(labels.all(&words.warranty).into_iter().map(warrants));
        let deposit = |amount: fn(Money) -> String| {
            let due = way.deposit().filter(|deposit| !deposit.is_zero());
            due.map(|deposit| say("deposit", &[("amount", &amount(deposit))]))
        };
        Self {
            letter,
            title: labels.of(way.title()),
            price: figures::range(total),
            plain_price: plain(total),
            is_range: !total.is_exact(),
            limit: figures::amount(limit),
            up_to: say("up_to", &[("amount", &figures::amount(limit))]),
            plain_limit: limit.to_string(),
            chosen: consent.is_some(),
            low: scale.at(total.low()),
            high: scale.at(total.high()),
            likely: way.likely().zip(likely(&figures::range)).map(|(likely, text)| LikelyView {
                low: scale.at(likely.range.low()),
                high: scale.at(likely.range.high()),
                text,
            }),
            plain_likely: likely(&plain),
            deposit: deposit(figures::amount),
            plain_deposit: deposit(|amount| amount.to_string()),
            lines: lines(way, labels),
            includes: labels.all(&words.includes),
            included,
            does_not_fix: labels.all(&words.does_not_fix),
            uncertain: labels.all(&words.uncertain),
            cautions: labels.all(&words.cautions),
            warranty: labels.all(&words.warranty),
            also: also(&figures::range),
            plain_also: also(&plain),
        }
    }
}

/// Everything a total is made of: lines, discounts, taxes.
pub(super) fn lines(way: &PricedWay, labels: &Labels) -> Vec<LineView> {
    let lines = way.lines().iter().map(|line| LineView::of_line(line, labels));
    let offs = way.discounts().iter().map(|off| {
        let plain = format!("-{}", figures::plain_range(off.amount, labels.language));
        LineView::of_amount(labels.discount(off), format!("−{}", figures::range(off.amount)), plain)
    });
    let taxes = way.taxes().iter().map(|tax| LineView::of_tax(tax, labels));
    lines.chain(offs).chain(taxes).collect()
}

impl LineView {
    fn of_line(line: &Line, labels: &Labels) -> Self {
        let quantity = line.quantity();
        // One piece, or none as it turns out: the amount says so.
        let told = quantity.unit() == BilledUnit::Each && quantity.high() <= Decimal::ONE;
        let times = |price: &str| if told { String::new() } else { format!("{quantity} × {price}") };
        let plain_price = line.unit_price().to_string();
        let plain_price = plain_price.rsplit_once(' ').map_or(plain_price.as_str(), |(price, _)| price);
        Self {
            what: if line.kind() == LineKind::Labor {
                labels.role(line.description())
            } else {
                labels.of(line.description())
            },
            detail: line.detail().map_or(String::new(), |detail| labels.detail(detail)),
            how_much: times(&figures::range(line.unit_price())),
            plain_how_much: times(plain_price),
            quantity: quantity.to_string(),
            price: figures::range(line.unit_price()),
            amount: figures::range(line.amount()),
            plain_amount: figures::plain_range(line.amount(), labels.language),
        }
    }

    fn of_tax(tax: &TaxLine, labels: &Labels) -> Self {
        let rate = tax.rate.to_string().replace(" %", "%");
        let contained = if tax.included { labels.language.sheet("contained", &[]) } else { String::new() };
        let what = format!("{} {rate}{contained}", labels.of(&tax.name));
        Self::of_amount(what, figures::range(tax.amount), figures::plain_range(tax.amount, labels.language))
    }

    fn of_amount(what: String, amount: String, plain_amount: String) -> Self {
        let (detail, how_much, plain_how_much) = Default::default();
        let (quantity, price) = Default::default();
        Self { what, detail, how_much, plain_how_much, quantity, price, amount, plain_amount }
    }
}
