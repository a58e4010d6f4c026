//! One supposed system after another, tried against all readings.

use super::particle::{Evidence, Pieces};
use super::points::{COORDINATES, Point, VOLUME};
use super::prior::Prior;
use super::proposal::{Along, Proposal};
use super::seen::{Half, Seen, by_rise};
use super::supposed::Supposed;

/// What was tried: where, what that supposes, how much it counts before the draws.
#[derive(Debug, Clone, Copy)]
pub(super) struct Outcome {
    pub at: [f64; COORDINATES],
    pub supposed: Supposed,
    pub weight: f64,
}

/// Tries points, in places used again and again.
#[derive(Debug)]
pub(super) struct Trial<'a> {
    prior: &'a Prior,
    evidence: &'a Evidence<'a>,
    halves: Vec<Half>,
    seen: Vec<Seen>,
    pub pieces: Pieces,
}

/// Where the volume is known no better than this, in standard deviations of what was assumed, the rise says nothing.
const TELLS: f64 = 0.7;
/// The volume is looked for so much wider than the rise tells it.
const WIDER: f64 = 1.3;

impl<'a> Trial<'a> {
    pub fn of(prior: &'a Prior, evidence: &'a Evidence<'a>) -> Trial<'a> {
        let count = evidence.standing.len();
        let (halves, seen) = (Vec::with_capacity(count), Vec::with_capacity(count));
        Trial { prior, evidence, halves, seen, pieces: Pieces::default() }
    }

    /// Tries the point of that number; its pieces stay until the next.
    #[inline]
    pub fn try_point(&mut self, from: &Proposal, index: usize, point: &Point) -> Outcome {
        let begun = from.begin(index, point);
        let mut supposed = self.prior.supposed(&begun.at);
        self.halves.clear();
        self.halves.extend(self.evidence.standing.iter().map(|standing| Half::of(standing, &supposed)));
        let tried = from.finish(&begun, point, self.rise());
        supposed.volume = self.prior.volume(tried.at[VOLUME]);
        self.seen.clear();
        self.seen.extend(self.halves.iter().map(|half| half.at(supposed.volume)));
        self.pieces.weigh(self.evidence, &self.seen);
        Outcome { at: tried.at, supposed, weight: tried.weight * self.pieces.likelihood() }
    }

    /// Where the rise of the pressure, and what was assumed, put the volume.
    fn rise(&self) -> Option<Along> {
        let known = self.evidence.known.shape();
        let known = known.deviation.is_finite().then_some((known.mean, known.deviation * known.deviation));
        if self.halves.len() + usize::from(known.is_some()) < 2 {
            return None;
        }
        let (volume, deviation) = by_rise(&self.halves, known, self.prior.usual_volume())?;
        let told = self.prior.along(volume, deviation);
        let precision = 1.0 / (told.deviation * told.deviation);
        let deviation = WIDER / (1.0 + precision).sqrt();
        let mean = told.mean * precision / (1.0 + precision);
        (deviation < TELLS).then_some(Along { mean, deviation })
    }
}
