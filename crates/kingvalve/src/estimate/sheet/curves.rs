//! Curves of expected cost over years, told apart by their strokes: a picture for a printer without colour.

use serde::Serialize;

use super::figures;
use super::scale::{Scale, tenth};
use crate::estimate::{Language, Money};

/// What one way costs up to the end of each year, today first.
pub(super) struct Line {
    pub letter: char,
    pub title: String,
    pub amounts: Vec<Money>,
}

/// The picture: lines, what stands at their ends, and the two axes.
#[derive(Serialize)]
pub(super) struct Curves {
    width: f64,
    height: f64,
    left: f64,
    right: f64,
    bottom: f64,
    lines: Vec<Stroke>,
    levels: Vec<Mark>,
    years: Vec<Mark>,
    said: String,
}

#[derive(Serialize)]
struct Stroke {
    letter: char,
    points: String,
    dashes: &'static str,
    /// Where the line ends, and where its letter stands beside it.
    end: f64,
    beside: f64,
    amount: String,
}

#[derive(Serialize)]
struct Mark {
    at: f64,
    label: String,
}

const WIDTH: f64 = 720.0;
const HEIGHT: f64 = 236.0;
const LEFT: f64 = 62.0;
const RIGHT: f64 = 632.0;
const TOP: f64 = 10.0;
const BOTTOM: f64 = 212.0;
/// Strokes that differ without colour; a sixth line begins again.
const DASHES: [&str; 5] = ["1.5 3.5", "none", "8 3", "12 3 2 3", "4 3"];
/// Letters at the ends of lines stand this far apart at least.
const APART: f64 = 17.0;

impl Curves {
    /// Height over width.
    pub(super) fn ratio(&self) -> f64 {
        self.height / self.width
    }

    pub(super) fn of(lines: &[Line], language: Language) -> Self {
        let scale =
            Scale::over(lines.iter().flat_map(|line| line.amounts.iter().copied()), BOTTOM - TOP, 6.0);
        let last = lines.iter().map(|line| line.amounts.len()).max().unwrap_or(1).saturating_sub(1).max(1);
        let across = |year: usize| tenth(LEFT + (RIGHT - LEFT) * year as f64 / last as f64);
        let up = |amount: Money| tenth(BOTTOM - scale.at(amount));
        let end = |line: &Line| line.amounts.last().map_or(BOTTOM, |amount| up(*amount));
        let beside = spread(&lines.iter().map(end).collect::<Vec<_>>());
        let strokes = lines.iter().zip(beside).zip(DASHES.iter().cycle()).map(|((line, beside), dashes)| {
            let place = |(year, amount): (usize, &Money)| format!("{},{}", across(year), up(*amount));
            Stroke {
                letter: line.letter,
                points: line.amounts.iter().enumerate().map(place).collect::<Vec<_>>().join(" "),
                dashes,
                end: end(line),
                beside,
                amount: line.amounts.last().map_or(String::new(), |amount| figures::about(*amount)),
            }
        });
        let currency = lines.iter().find_map(|line| line.amounts.first()).map(|amount| amount.currency());
        let level = |(above, amount)| {
            let amount = currency.and_then(|currency| Money::new(amount, currency).ok());
            Mark { at: tenth(BOTTOM - above), label: amount.map_or(String::new(), figures::about) }
        };
        let year = |year: usize| {
            let today = || language.outlook("today", &[]);
            Mark { at: across(year), label: if year == 0 { today() } else { year.to_string() } }
        };
        Self {
            width: WIDTH,
            height: HEIGHT,
            left: LEFT,
            right: RIGHT,
            bottom: BOTTOM,
            levels: scale.ticks().into_iter().map(level).collect(),
            years: (0..=last).map(year).collect(),
            said: said(lines, language),
            lines: strokes.collect(),
        }
    }
}

/// The picture in words: where each line starts and where it ends.
fn said(lines: &[Line], language: Language) -> String {
    let one = |line: &Line| {
        let [today, last] = [line.amounts.first(), line.amounts.last()]
            .map(|amount| amount.map_or(String::new(), |amount| figures::about(*amount)));
        let letter = line.letter.to_string();
        let places = [("letter", &*letter), ("title", &*line.title), ("today", &*today), ("last", &*last)];
        language.outlook("curve", &places)
    };
    lines.iter().map(one).collect::<Vec<_>>().join(" ")
}

/// Places near to those asked for that stand apart: upwards from the axis, then down from the top where they reach it.
fn spread(asked: &[f64]) -> Vec<f64> {
    let mut order: Vec<(usize, f64)> = asked.iter().copied().enumerate().collect();
    order.sort_by(|(_, a), (_, b)| b.total_cmp(a));
    let mut lowest = BOTTOM;
    for (_, place) in &mut order {
        *place = place.min(lowest);
        lowest = *place - APART;
    }
    let mut highest = TOP;
    for (_, place) in order.iter_mut().rev() {
        *place = place.max(highest);
        highest = *place + APART;
    }
    order.sort_by_key(|(index, _)| *index);
    order.into_iter().map(|(_, place)| tenth(place)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_stand_apart_and_in_their_order() {
        for asked in [[200.0, 199.0, 60.0, 212.0, 61.0], [10.0, 12.0, 11.0, 13.0, 14.0]] {
            let placed = spread(&asked);
            let mut sorted = placed.clone();
            sorted.sort_by(f64::total_cmp);
            assert!(sorted.windows(2).all(|pair| pair[1] - pair[0] >= APART - 0.05), "{placed:?}");
            assert!(sorted[0] >= TOP && sorted[4] <= BOTTOM, "{placed:?}");
            for (a, b) in [(0, 1), (2, 4), (1, 2), (3, 0)] {
                assert_eq!(asked[a] > asked[b], placed[a] > placed[b], "{placed:?}");
            }
        }
    }
}
