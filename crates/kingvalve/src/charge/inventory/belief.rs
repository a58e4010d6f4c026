//! What is believed: weighted systems that agree with the readings, and the answer they give.

use super::estimate::Estimate;
use super::particle::{Evidence, Meaning, Pieces};
use super::points::{COORDINATES, LONGEST, points};
use super::proposal::{Proposal, effective, tempered};
use super::supposed::{Supposed, Uptake};
use super::system::System;
use crate::measure::normal_cdf;
use crate::quantity::Mass;
use crate::{Error, Result};

/// Points to find where to look, and points to answer from.
const SCOUTS: usize = 96;
const ANSWERING: usize = 256;
/// Rounds of looking before it is answered from what was found.
const ROUNDS: usize = 8;
/// Looking ends where so large a share of the points counts.
const GOOD: f64 = 0.25;
/// An answer rests on points worth so many at least, or is widened until it does.
const LEAST: f64 = 40.0;
/// Where readings contradict each other, a gas is at least so probable.
const LEAST_GAS: f64 = 0.01;

/// One system that may be the true one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Draw {
    pub charge: f64,
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
    /// Points that the answer is worth, and whether it had to be widened to rest on enough of them.
    pub effective: f64,
    pub widened: bool,
}

/// How what is supposed follows from standard normal coordinates.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Prior {
    ln_room: f64,
    ln_room_deviation: f64,
    uptake: (f64, f64),
    steepening: (f64, f64),
    shifts: bool,
}

impl Prior {
    pub fn of(system: &System) -> Prior {
        let (ln_room, ln_room_deviation) = system.ln_room();
        let steepening = system.assumptions.steepening;
        Prior {
            ln_room,
            ln_room_deviation,
            uptake: system.uptake(),
            steepening: (steepening.low().fraction(), steepening.high().fraction()),
            shifts: system.leaked.is_some(),
        }
    }

    fn supposed(&self, at: &[f64; COORDINATES]) -> Supposed {
        let [volume, uptake, gauge, shift, steepening] = *at;
        let between = |(low, high): (f64, f64), normal: f64| low + (high - low) * normal_cdf(normal);
        Supposed {
            volume: (self.ln_room + self.ln_room_deviation * volume).exp(),
            oil: Uptake {
                slope: between(self.uptake, uptake),
                steepening: between(self.steepening, steepening),
            },
            gauge,
            shift: if self.shifts { normal_cdf(shift) } else { 0.0 },
        }
    }
}

impl Belief {
    /// Weighs all evidence, looking first where the belief before it was.
    pub fn of(prior: &Prior, evidence: &Evidence<'_>, from: Proposal) -> Result<Belief> {
        if let Some(belief) = Belief::sought(prior, evidence, from) {
            return Ok(belief);
        }
        // Nothing that was supposed agrees with all readings, unless a gas is present.
        let with_gas = Evidence { gas: evidence.gas.max(LEAST_GAS), ..*evidence };
        let mut belief = Belief::sought(prior, &with_gas, Proposal::PRIOR).ok_or_else(nothing_left)?;
        belief.widened = true;
        Ok(belief)
    }

    fn sought(prior: &Prior, evidence: &Evidence<'_>, from: Proposal) -> Option<Belief> {
        let mut proposal = from;
        for _ in 0..ROUNDS {
            let (at, weights) = scouted(prior, evidence, &proposal);
            let found = effective(&weights);
            if found >= GOOD * SCOUTS as f64 {
                break;
            }
            proposal = Proposal::fitted(&at, &tempered(&weights, 0.3 * SCOUTS as f64));
        }
        let belief = Belief::answered(prior, evidence, proposal, ANSWERING)?;
        if belief.effective >= LEAST {
            return Some(belief);
        }
        let mut belief = Belief::answered(prior, evidence, belief.proposal, LONGEST)?;
        if belief.effective < LEAST {
            belief.widen()?;
        }
        Some(belief)
    }

    fn answered(prior: &Prior, evidence: &Evidence<'_>, from: Proposal, count: usize) -> Option<Belief> {
        let mut draws = Vec::with_capacity(2 * count);
        let (mut at, mut weights) = (Vec::with_capacity(count), Vec::with_capacity(count));
        for (index, point) in points().iter().take(count).enumerate() {
            let tried = from.at(index, point);
            let supposed = prior.supposed(&tried.at);
            let pieces = Pieces::of(evidence, &supposed);
            let weight = tried.weight * pieces.likelihood();
            let mut counted = 0.0;
            if weight > 0.0 {
                for share in &point.shares {
                    let (charge, meaning) = pieces.draw(share);
                    let bound = evidence.running.map_or(1.0, |running| running.bound(charge));
                    counted += 0.5 * weight * bound;
                    draws.push(Draw { charge, supposed, meaning, weight: weight * bound });
                }
            }
            at.push(tried.at);
            weights.push(counted);
        }
        let effective = effective(&weights);
        let proposal = Proposal::fitted(&at, &tempered(&weights, 0.1 * count as f64));
        Some(Belief { now: summed(&draws)?, draws, proposal, effective, widened: false })
    }

    /// Raises the weights to a power below 1 until the answer rests on enough systems: wider than the readings say.
    fn widen(&mut self) -> Option<()> {
        let weights: Vec<f64> = self.draws.iter().map(|draw| draw.weight).collect();
        for (draw, weight) in self.draws.iter_mut().zip(tempered(&weights, 2.0 * LEAST)) {
            draw.weight = weight;
        }
        self.widened = true;
        self.now = summed(&self.draws)?;
        Some(())
    }

    /// The probability of what a rule picks out.
    pub fn probability(&self, rule: impl Fn(&Draw) -> bool) -> f64 {
        let total: f64 = self.draws.iter().map(|draw| draw.weight).sum();
        // An empty sum is −0.
        let picked = 0.0 + self.draws.iter().filter(|draw| rule(draw)).map(|draw| draw.weight).sum::<f64>();
        if total > 0.0 { picked / total } else { 0.0 }
    }
}

fn nothing_left() -> Error {
    Error::inconsistent(
        "readings",
        "together they leave no charge that is possible",
        "check each against the others: pressure, temperatures, weights and units",
    )
}

fn summed(draws: &[Draw]) -> Option<Estimate<Mass>> {
    let mut values: Vec<(f64, f64)> = draws.iter().map(|draw| (draw.charge, draw.weight)).collect();
    Estimate::of(&mut values)
}

fn scouted(prior: &Prior, evidence: &Evidence<'_>, from: &Proposal) -> (Vec<[f64; COORDINATES]>, Vec<f64>) {
    let tries = points().iter().take(SCOUTS).enumerate().map(|(index, point)| from.at(index, point));
    tries
        .map(|tried| {
            let pieces = Pieces::of(evidence, &prior.supposed(&tried.at));
            (tried.at, tried.weight * pieces.likelihood())
        })
        .unzip()
}
