//! The sheet as strings and places, ready to be laid out.

use rust_decimal::Decimal;
use serde::Serialize;

use super::clean::clean;
use super::scale::{Scale, WIDTH};
use super::{Consent, OptionsSheet, Paper, figures};
use crate::estimate::{BilledUnit, Line, Money, PricedWay, TaxLine};

#[derive(Serialize)]
pub(super) struct View {
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
    pub currency: &'static str,
    pub page_size: &'static str,
    pub points: f64,
    pub width: f64,
    pub ticks: Vec<Tick>,
    pub includes_tax: bool,
}

#[derive(Serialize)]
pub(super) struct WayView {
    pub letter: char,
    pub title: String,
    pub price: String,
    pub plain_price: String,
    pub is_range: bool,
    pub limit: String,
    pub plain_limit: String,
    pub chosen: bool,
    pub low: f64,
    pub high: f64,
    pub lines: Vec<LineView>,
    pub includes: Vec<String>,
    pub does_not_fix: Vec<String>,
    pub uncertain: Vec<String>,
    pub cautions: Vec<String>,
}

#[derive(Serialize)]
pub(super) struct LineView {
    pub what: String,
    pub detail: String,
    pub how_much: String,
    pub plain_how_much: String,
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
        let scale = Scale::over(sheet.ways.iter().map(PricedWay::total));
        let chosen = |way: &PricedWay| sheet.consent.as_ref().filter(|consent| consent.way == way.name());
        let lettered = || ('A'..='Z').zip(&sheet.ways);
        let currency = sheet.ways.first().map(|way| way.total().currency());
        let tick = |(x, amount)| {
            let label = currency.and_then(|currency| Money::new(amount, currency).ok()).map(figures::amount);
            Tick { x, label: label.map_or(String::new(), |label| whole(&label)) }
        };
        Self {
            shop: clean(&sheet.shop),
            shop_lines: all(&sheet.shop_lines),
            title: Some(clean(&sheet.title))
                .filter(|title| !title.is_empty())
                .unwrap_or("Your options".into()),
            facts: sheet.facts.iter().map(|fact| (clean(&fact.label), clean(&fact.value))).collect(),
            known: all(&sheet.known),
            unknown: all(&sheet.unknown),
            ways: lettered().map(|(letter, way)| WayView::of(letter, way, chosen(way), &scale)).collect(),
            advice: sheet.advice.as_deref().map(clean).filter(|advice| !advice.is_empty()),
            cautions: all(&sheet.cautions),
            terms: all(&sheet.terms),
            consent: lettered().find_map(|(letter, way)| {
                chosen(way).map(|consent| ConsentView {
                    letter,
                    title: clean(way.title()),
                    plain_up_to: consent.up_to.to_string(),
                    by: clean(&consent.by),
                    on: clean(&consent.on),
                })
            }),
            currency: currency.map_or("", |currency| currency.code()),
            page_size: match sheet.paper {
                Paper::Letter => "letter",
                Paper::A4 => "A4",
            },
            points: 0.0,
            width: WIDTH,
            ticks: scale.ticks().into_iter().map(tick).collect(),
            includes_tax: sheet.ways.iter().any(|way| !way.taxes().is_empty()),
        }
    }
}

impl WayView {
    fn of(letter: char, way: &PricedWay, consent: Option<&Consent>, scale: &Scale) -> Self {
        let limit = consent.map_or(way.not_to_exceed(), |consent| consent.up_to);
        let (total, words) = (way.total(), way.words());
        Self {
            letter,
            title: clean(way.title()),
            price: figures::range(total),
            plain_price: total.to_string().replace('–', " to "),
            is_range: !total.is_exact(),
            limit: figures::amount(limit),
            plain_limit: limit.to_string(),
            chosen: consent.is_some(),
            low: scale.at(total.low().amount()),
            high: scale.at(total.high().amount()),
            lines: way
                .lines()
                .iter()
                .map(LineView::of_line)
                .chain(way.taxes().iter().map(LineView::of_tax))
                .collect(),
            includes: all(&words.includes),
            does_not_fix: all(&words.does_not_fix),
            uncertain: all(&words.uncertain),
            cautions: all(&words.cautions),
        }
    }
}

impl LineView {
    fn of_line(line: &Line) -> Self {
        let quantity = line.quantity();
        // One piece, or none as it turns out: the amount says so.
        let told = quantity.unit() == BilledUnit::Each && quantity.high() <= Decimal::ONE;
        let times = |price: &str| if told { String::new() } else { format!("{quantity} × {price}") };
        let plain_price = line.unit_price().to_string();
        let plain_price = plain_price.rsplit_once(' ').map_or(plain_price.as_str(), |(price, _)| price);
        Self {
            what: clean(line.description()),
            detail: line.detail().map_or(String::new(), clean),
            how_much: times(&figures::range(line.unit_price())),
            plain_how_much: times(plain_price),
            amount: figures::range(line.amount()),
            plain_amount: line.amount().to_string().replace('–', " to "),
        }
    }

    fn of_tax(tax: &TaxLine) -> Self {
        let rate = tax.rate.to_string().replace(" %", "%");
        let contained = if tax.included { ", contained in the lines" } else { "" };
        Self {
            what: format!("{} {rate}{contained}", clean(&tax.name)),
            detail: String::new(),
            how_much: String::new(),
            plain_how_much: String::new(),
            amount: figures::range(tax.amount),
            plain_amount: tax.amount.to_string().replace('–', " to "),
        }
    }
}

fn all(texts: &[String]) -> Vec<String> {
    texts.iter().map(|text| clean(text)).filter(|text| !text.is_empty()).collect()
}

/// An amount of whole units without its zero places.
fn whole(label: &str) -> String {
    label.split_once('.').map_or(label, |(whole, _)| whole).to_owned()
}
