//! What is believed: weighted systems that agree with the readings, and the answer they give.
//!
//! Source: importance sampling on evenly spread points (A. B. Owen, "Monte Carlo theory, methods and examples", ch. 9), the
//! points drawn to the posterior in rounds. Charges in kg, volumes in m³. Range and accuracy: as [`Inventory`](super::Inventory).

use super::estimate::Estimate;
use super::moved::Moved;
use super::particle::{Evidence, Meaning};
use super::points::{COORDINATES, LONGEST, even, points};
use super::prior::Prior;
use super::proposal::{Proposal, effective, tempered};
use super::supposed::Supposed;
use super::trial::{Outcome, Trial};
use crate::quantity::Mass;
use crate::{Error, Result};

/// Points to find where to look, and points to answer from, those among them; more at a time where these are not enough.
const SCOUTS: usize = 96;
const ANSWERING: usize = 256;
const MORE: usize = 128;
/// Rounds of looking before it is answered from what was found.
const ROUNDS: usize = 6;
/// Looking ends where so large a share of the points counts.
const GOOD: f64 = 0.2;
/// It ends too where a round does not find so many times more than the one before.
const GAIN: f64 = 1.25;
/// It is given up where after so many rounds hardly a point counts and the readings stay as unlikely as that.
const ROUNDS_FOR_NOTHING: usize = 2;
const HARDLY: f64 = 6.0;
/// An answer rests on points worth so many at least, or is widened until it does.
const LEAST: f64 = 40.0;
/// A point whose weight is so small a share of those before it is left out.
const NOTHING: f64 = 1e-9;
/// Where readings contradict each other, a gas is at least so probable.
const LEAST_GAS: f64 = 0.01;

/// One system that may be the true one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Draw {
    /// At the last reading, kg.
    charge: f64,
    /// Of the doubt of what was weighed since, in standard deviations.
    noise: f64,
    pub supposed: Supposed,
    pub meaning: Meaning,
    pub weight: f64,
}

/// Everything believed after some readings.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Belief {
    pub draws: Vec<Draw>,
    pub now: Estimate<Mass>,
    pub proposal: Proposal,
    /// How likely the readings were before they were read, up to a factor.
    pub evidence: f64,
    /// Points that the answer is worth, and whether it had to be widened to rest on enough of them.
    pub effective: f64,
    pub widened: bool,
    /// What was weighed since the last reading.
    pub moved: Moved,
}

impl Belief {
    /// Weighs all evidence, looking first where the belief before it was. Nothing where the readings together are less
    /// likely than `hardly`.
    pub fn of(prior: &Prior, evidence: &Evidence<'_>, from: Proposal, hardly: f64) -> Result<Option<Belief>> {
        if let Some(belief) = Belief::sought(prior, evidence, from, hardly) {
            return Ok((belief.evidence >= hardly).then_some(belief));
        }
        if hardly > 0.0 {
            return Ok(None);
        }
        // Nothing that was supposed agrees with the reading, unless a gas is present.
        let with_gas = Evidence { gas: evidence.gas.max(LEAST_GAS), ..*evidence };
        let mut belief = Belief::sought(prior, &with_gas, Proposal::PRIOR, 0.0).ok_or_else(nothing_left)?;
        belief.widened = true;
        Ok(Some(belief))
    }

    fn sought(prior: &Prior, evidence: &Evidence<'_>, from: Proposal, hardly: f64) -> Option<Belief> {
        let mut proposal = from;
        let mut best: Option<(Gathered, f64)> = None;
        for round in 1..=ROUNDS {
            let mut tried = Gathered::none(ANSWERING, proposal);
            tried.go_on(prior, evidence, SCOUTS);
            let found = effective(&tried.weights);
            if round >= ROUNDS_FOR_NOTHING && found < HARDLY && tried.likelihood() < hardly {
                return None;
            }
            let before = best.as_ref().map_or(0.0, |(_, found)| *found);
            let enough = found >= GOOD * SCOUTS as f64 || (before >= HARDLY && found < GAIN * before);
            if !enough {
                proposal = Proposal::fitted(&tried.at, &tempered(&tried.weights, 0.3 * SCOUTS as f64));
            }
            if found > before || best.is_none() {
                best = Some((tried, found));
            }
            if enough {
                break;
            }
        }
        let (mut tried, _) = best?;
        let mut count = ANSWERING;
        loop {
            tried.go_on(prior, evidence, count);
            if effective(&tried.weights) >= LEAST || count >= LONGEST {
                return tried.belief();
            }
            count += MORE;
        }
    }

    /// What was weighed in or taken out since is what the charge moves by. Nothing is left where more was taken out than
    /// any of the systems can have held.
    pub fn moved(&self, moved: Moved) -> Option<Belief> {
        let mut next = self.clone();
        next.moved = moved;
        for draw in &mut next.draws {
            if moved.of(draw.charge, draw.noise) < 0.0 {
                draw.weight = 0.0;
            }
        }
        next.now = next.summed()?;
        Some(next)
    }

    /// Half of the one, half of the other.
    pub fn or(&self, other: &Belief) -> Option<Belief> {
        let half = |of: &Belief| {
            let total: f64 = of.draws.iter().map(|draw| draw.weight).sum();
            of.draws.iter().map(move |draw| Draw { weight: draw.weight / total, ..*draw }).collect::<Vec<_>>()
        };
        let draws = [half(self), half(other)].concat();
        let mut both = Belief { draws, effective: self.effective.min(other.effective), ..*self };
        both.now = both.summed()?;
        Some(both)
    }

    /// Half of this, half of any charge between these, kg, as likely.
    pub fn or_anything(&self, low: f64, high: f64) -> Option<Belief> {
        let any = self.draws.iter().map(|draw| {
            let charge = low + (high - low) * even(draw.noise);
            Draw { charge, meaning: Meaning::Liquid, ..*draw }
        });
        let draws = self.draws.iter().copied().chain(any).collect();
        let mut both = Belief { draws, ..*self };
        both.now = both.summed()?;
        Some(both)
    }

    /// The charge of one of the systems now, kg.
    pub fn charge(&self, draw: &Draw) -> f64 {
        self.moved.of(draw.charge, draw.noise)
    }

    fn summed(&self) -> Option<Estimate<Mass>> {
        Estimate::of(self.draws.iter().map(|draw| (self.charge(draw), draw.weight)))
    }

    /// Raises the weights to a power below 1 until the answer rests on enough systems: wider than the readings say.
    fn widen(&mut self) -> Option<()> {
        let weights: Vec<f64> = self.draws.iter().map(|draw| draw.weight).collect();
        for (draw, weight) in self.draws.iter_mut().zip(tempered(&weights, 2.0 * LEAST)) {
            draw.weight = weight;
        }
        self.widened = true;
        self.now = self.summed()?;
        Some(())
    }

    /// The probability of what a rule picks out.
    pub fn probability(&self, rule: impl Fn(&Draw) -> bool) -> f64 {
        self.mean(|draw| f64::from(u8::from(rule(draw))))
    }

    /// The mean of what a rule makes of each system.
    pub fn mean(&self, rule: impl Fn(&Draw) -> f64) -> f64 {
        let total: f64 = self.draws.iter().map(|draw| draw.weight).sum();
        // An empty sum is −0.
        let sum = 0.0 + self.draws.iter().map(|draw| draw.weight * rule(draw)).sum::<f64>();
        if total > 0.0 { sum / total } else { 0.0 }
    }
}

pub(super) fn nothing_left() -> Error {
    Error::inconsistent(
        "readings",
        "together they leave no charge that is possible",
        "check each against the others: pressure, temperatures, weights and units",
    )
}

/// Points tried so far from a proposal, and what was drawn at them.
#[derive(Debug)]
struct Gathered {
    from: Proposal,
    total: f64,
    at: Vec<[f64; COORDINATES]>,
    weights: Vec<f64>,
    draws: Vec<Draw>,
}

impl Gathered {
    fn none(count: usize, from: Proposal) -> Gathered {
        let (at, weights) = (Vec::with_capacity(count), Vec::with_capacity(count));
        Gathered { from, total: 0.0, at, weights, draws: Vec::with_capacity(2 * count) }
    }

    /// Goes on to so many points in all.
    fn go_on(&mut self, prior: &Prior, evidence: &Evidence<'_>, count: usize) {
        let mut trial = Trial::of(prior, evidence);
        for (index, point) in points().iter().enumerate().take(count).skip(self.at.len()) {
            let Outcome { at, supposed, weight } = trial.try_point(&self.from, index, point);
            let mut counted = 0.0;
            // What counts for nothing beside the rest is not drawn.
            if weight > NOTHING * self.total {
                self.total += weight;
                for share in &point.shares {
                    let (charge, meaning) = trial.pieces.draw(share);
                    let bound = evidence.running.map_or(1.0, |running| running.bound(charge));
                    counted += 0.5 * weight * bound;
                    let noise = share.noise;
                    self.draws.push(Draw { charge, noise, supposed, meaning, weight: weight * bound });
                }
            }
            self.at.push(at);
            self.weights.push(counted);
        }
    }

    /// How likely the readings are, up to a factor.
    fn likelihood(&self) -> f64 {
        self.weights.iter().sum::<f64>() / self.weights.len() as f64
    }

    fn belief(self) -> Option<Belief> {
        let effective = effective(&self.weights);
        let proposal = Proposal::fitted(&self.at, &tempered(&self.weights, 0.1 * self.at.len() as f64));
        let mut belief = Belief {
            now: Estimate::of(self.draws.iter().map(|draw| (draw.charge, draw.weight)))?,
            evidence: self.likelihood(),
            draws: self.draws,
            proposal,
            effective,
            widened: false,
            moved: Moved::default(),
        };
        if effective < LEAST {
            belief.widen()?;
        }
        Some(belief)
    }
}
