//! Whether verdicts and intervals keep what they claim, over a simulated population whose truth is known.

mod bayes;
pub mod charge;
pub mod coverage;
pub mod population;
pub mod verdicts;

use std::fmt::Write;

use charge::{Charges, Population};
use coverage::Coverage;
use population::AMMETERS;
use verdicts::{Score, Scores};

/// What a run found.
#[derive(Debug, Clone)]
pub struct Calibration {
    /// By ammeter, as in [`AMMETERS`].
    pub scores: Vec<Scores>,
    /// Of 90 % intervals.
    pub coverage: Vec<Coverage>,
    /// Of 90 % intervals of the charge.
    pub charges: Charges,
}

/// Runs so many parts, a quarter as many superheats of each kind, and so many air conditioners of each class.
///
/// # Errors
/// Those of the library, for readings it refuses.
pub fn run(parts: usize, systems: usize, seed: u64) -> kingvalve::Result<Calibration> {
    let (scores, mut coverage) = verdicts::run(parts, seed)?;
    coverage.extend(coverage::superheats(parts / 4, seed)?);
    let charges = charge::run(systems, seed)?;
    Ok(Calibration { scores, coverage, charges })
}

impl Calibration {
    /// Over all meters.
    pub fn total(&self) -> Scores {
        verdicts::total(&self.scores)
    }

    /// The least share of 90 % intervals that held the truth; of the charge, by class on the independent population.
    pub fn worst_coverage(&self) -> f64 {
        let charges = self.charges.worst(Population::Independent);
        self.coverage.iter().map(Coverage::share).fold(charges, f64::min)
    }

    /// Whether what is claimed at 95 % is wrong at most 5 % of the time, `Within` and `Outside` apart, over all meters;
    /// whether knowing the population leaves at most one point more unresolved than Bayes' rule does; and whether
    /// intervals of the charge hold ([`Charges::holds`]).
    pub fn holds(&self) -> bool {
        let total = self.total();
        let wrong = [total.plain, total.knowing].iter().flat_map(Score::wrong_shares).fold(0.0, f64::max);
        wrong <= 0.05
            && total.knowing.unresolved_share() <= total.bayes.unresolved_share() + 0.01
            && self.charges.holds()
    }

    /// The same for each meter alone, where the population is known; and that asking for [`verdicts::STRICTER`] keeps
    /// each meter's errors at 5 % where nothing is known. For runs of 25,000 parts a meter and more.
    pub fn holds_by_meter(&self) -> bool {
        let few = |score: &Score| score.wrong_shares().iter().all(|share| *share <= 0.05);
        self.scores.iter().all(|meter| {
            let beside_bayes = meter.knowing.unresolved_share() - meter.bayes.unresolved_share();
            few(&meter.knowing) && few(&meter.strict) && beside_bayes <= 0.01
        })
    }

    /// The tables, and the line other programs read at the end.
    pub fn report(&self) -> String {
        let mut text = String::from(
            "Verdicts at 95 % on simulated run capacitors, ±6 % marked, C/C_rated normal about 0.97 ± 0.05 (an invented \
             population).\nIn brackets: wrong among those. A verdict that knows nothing beforehand is wrong more often \
             where a coarse meter\nmeets parts that are mostly good: what it reads as bad is mostly its own error. Over all \
             meters it keeps its 5 %;\neach meter keeps it where the population is known, or where more than 95 % is asked \
             for.\n\n",
        );
        let head = "rule                       ammeter             parts  within (wrong)    outside (wrong)   unresolved\n";
        text.push_str(head);
        let rules: [(&str, Rule); 4] = [
            ("verdict, nothing known", |s| &s.plain),
            ("the same at 96.5 %", |s| &s.strict),
            ("verdict, population known", |s| &s.knowing),
            ("Bayes, everything known", |s| &s.bayes),
        ];
        let total = self.total();
        for (rule, of) in rules {
            for (meter, scores) in AMMETERS.iter().map(|m| m.name).zip(&self.scores) {
                row(&mut text, rule, meter, of(scores));
            }
            row(&mut text, rule, "all", of(&total));
        }
        let points = |score: &Score| 100.0 * (score.unresolved_share() - total.bayes.unresolved_share());
        let _ = writeln!(
            text,
            "\nunresolved, beside Bayes' rule: population known {:+.2} points",
            points(&total.knowing)
        );
        let _ = writeln!(
            text,
            "unresolved, beside Bayes' rule: nothing known    {:+.2} points, at 96.5 % {:+.2} points",
            points(&total.plain),
            points(&total.strict)
        );
        for (meter, scores) in AMMETERS.iter().map(|m| m.name).zip(&self.scores) {
            let beside = 100.0 * (scores.knowing.unresolved_share() - scores.bayes.unresolved_share());
            let _ = writeln!(text, "  population known, {meter:<18} {beside:+.2} points");
        }
        text.push('\n');
        text.push_str("coverage of claimed 90 % intervals\n");
        for each in &self.coverage {
            let _ = writeln!(text, "{:<60} {:>7}  {:5.1} %", each.name, each.all, 100.0 * each.share());
        }
        let _ = write!(text, "\n{}", self.charges.report());
        let _ = writeln!(
            text,
            "\nworst coverage of a claimed 90 % interval: {:.1} %",
            100.0 * self.worst_coverage()
        );
        text
    }
}

/// Picks the score of one rule.
type Rule = fn(&Scores) -> &Score;

fn row(text: &mut String, rule: &str, meter: &str, score: &Score) {
    let part = |count: usize| 100.0 * count as f64 / score.all() as f64;
    let [within, outside] = score.wrong_shares().map(|share| 100.0 * share);
    let _ = writeln!(
        text,
        "{rule:<26} {meter:<18} {:>6}  {:5.1} % ({within:4.2} %)  {:5.1} % ({outside:4.2} %)  {:5.1} %",
        score.all(),
        part(score.within),
        part(score.outside),
        part(score.unresolved),
    );
}
