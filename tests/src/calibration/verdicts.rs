//! Verdicts over simulated parts, scored against what the parts are.

use kingvalve::electrical::{RunCapacitor, Tolerance};
use kingvalve::measure::{Generator, Level, Prior, Reading, Verdict};
use kingvalve::quantity::*;

use super::bayes::posterior;
use super::coverage::Coverage;
use super::population::{AMMETERS, Case, MAINS, MEAN, SPREAD, TOLERANCE, VOLTMETER};

/// How often one rule said what, and how often that was wrong.
#[derive(Debug, Clone, Copy, Default)]
pub struct Score {
    /// Verdicts `Within`, and those of them on parts beyond a limit.
    pub within: usize,
    /// See `within`.
    pub within_wrong: usize,
    /// Verdicts `Outside`, and those of them on parts not beyond the limit named.
    pub outside: usize,
    /// See `outside`.
    pub outside_wrong: usize,
    /// Verdicts `Unresolved`.
    pub unresolved: usize,
}

impl Score {
    /// All verdicts.
    pub fn all(&self) -> usize {
        self.within + self.outside + self.unresolved
    }

    /// Share of `Unresolved`.
    pub fn unresolved_share(&self) -> f64 {
        self.unresolved as f64 / self.all() as f64
    }

    /// Share of the `Within` and of the `Outside` that is wrong.
    pub fn wrong_shares(&self) -> [f64; 2] {
        [(self.within_wrong, self.within), (self.outside_wrong, self.outside)]
            .map(|(wrong, of)| if of == 0 { 0.0 } else { wrong as f64 / of as f64 })
    }

    /// Counts a verdict: probabilities below, within and above, of a part in that region (0, 1, 2).
    fn count(&mut self, [below, within, above]: [f64; 3], region: usize, level: f64) {
        if within >= level {
            self.within += 1;
            self.within_wrong += usize::from(region != 1);
        } else if below.max(above) >= level {
            self.outside += 1;
            self.outside_wrong += usize::from(region != if below >= above { 0 } else { 2 });
        } else {
            self.unresolved += 1;
        }
    }

    /// Counts what the same probabilities say at another level.
    fn count_at(&mut self, verdict: &Verdict<Capacitance>, region: usize, level: f64) {
        let judgement = verdict.judgement();
        let parts =
            [judgement.probability_below(), judgement.probability_within(), judgement.probability_above()];
        self.count(parts.map(|p| p.fraction()), region, level);
    }

    fn count_verdict(&mut self, verdict: &Verdict<Capacitance>, region: usize) {
        let judgement = verdict.judgement();
        let [below, above] =
            [judgement.probability_below(), judgement.probability_above()].map(|p| p.fraction());
        match verdict {
            Verdict::Within(_) => {
                self.within += 1;
                self.within_wrong += usize::from(region != 1);
            }
            Verdict::Outside(_) => {
                self.outside += 1;
                self.outside_wrong += usize::from(region != if below >= above { 0 } else { 2 });
            }
            Verdict::Unresolved(_) => self.unresolved += 1,
        }
    }

    fn add(&mut self, other: &Score) {
        self.within += other.within;
        self.within_wrong += other.within_wrong;
        self.outside += other.outside;
        self.outside_wrong += other.outside_wrong;
        self.unresolved += other.unresolved;
    }
}

/// A level at which, on this population, each meter's `Within` and `Outside` are wrong at most 5 % of the time though
/// nothing is known beforehand.
pub const STRICTER: f64 = 0.965;

/// The rules on the same parts: the library's verdict at 95 % and at [`STRICTER`], the same knowing the population, and
/// Bayes' rule with all that can be known.
#[derive(Debug, Clone, Copy, Default)]
pub struct Scores {
    /// `under_load(…).verdict()`: nothing known beforehand.
    pub plain: Score,
    /// The same asked for [`STRICTER`].
    pub strict: Score,
    /// `Limits::judge_knowing` with the population as the prior.
    pub knowing: Score,
    /// The exact posterior.
    pub bayes: Score,
}

/// Runs so many parts; scores by ammeter, and how often the 90 % interval of the capacitance held the truth.
///
/// # Errors
/// Those of the library, for readings it refuses.
pub fn run(parts: usize, seed: u64) -> kingvalve::Result<(Vec<Scores>, Vec<Coverage>)> {
    let mut generator = Generator::seeded(seed);
    let mut scores = vec![Scores::default(); AMMETERS.len()];
    let mut coverage: Vec<Coverage> =
        AMMETERS.iter().map(|meter| Coverage::of(format!("capacitance, ammeter {}", meter.name))).collect();
    for at in 0..parts {
        let case = Case::draw(at, &mut generator);
        let share = case.truth / case.rated;
        let t = 0.01 * TOLERANCE;
        let region = usize::from(share >= 1.0 - t) + usize::from(share > 1.0 + t);
        let part = RunCapacitor::rated(microfarads(case.rated), Tolerance::percent(TOLERANCE));
        let voltage = Reading::new(volts(case.volts), VOLTMETER.instrument(volts))?;
        let current = Reading::new(amperes(case.amperes), AMMETERS[case.meter].instrument(amperes))?;
        let check = part.under_load(&voltage, &current, hertz(MAINS))?;
        let limits = check.verdict().judgement().limits();
        let prior = Prior::normal(microfarads(MEAN * case.rated), microfarads(SPREAD * case.rated))?;
        let knowing = limits.judge_knowing(&prior, check.capacitance(), Level::default())?;
        let score = &mut scores[case.meter];
        score.plain.count_verdict(check.verdict(), region);
        score.strict.count_at(check.verdict(), region, STRICTER);
        score.knowing.count_verdict(&knowing, region);
        score.bayes.count(posterior(&case), region, 0.95);
        coverage[case.meter].count(check.capacitance(), microfarads(case.truth))?;
    }
    Ok((scores, coverage))
}

/// The sum over all meters.
pub fn total(scores: &[Scores]) -> Scores {
    let mut sum = Scores::default();
    for each in scores {
        sum.plain.add(&each.plain);
        sum.strict.add(&each.strict);
        sum.knowing.add(&each.knowing);
        sum.bayes.add(&each.bayes);
    }
    sum
}
