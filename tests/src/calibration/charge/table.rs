//! The table of all classes and populations.

use std::fmt::Write;

use super::{Class, Outcome, Population, Score};

/// Scores by population and class.
#[derive(Debug, Clone, Default)]
pub struct Charges {
    rows: Vec<(Population, Class, Score)>,
}

impl Charges {
    /// Counts outcomes of a class.
    pub fn add(&mut self, population: Population, class: Class, outcomes: Vec<Outcome>) {
        let found = self.rows.iter().position(|(p, c, _)| (*p, *c) == (population, class));
        let at = found.unwrap_or_else(|| {
            self.rows.push((population, class, Score::default()));
            self.rows.len() - 1
        });
        if let Some((_, _, score)) = self.rows.get_mut(at) {
            outcomes.into_iter().for_each(|outcome| score.count(outcome));
        }
    }

    /// All of one population, by class.
    pub fn of(&self, population: Population) -> impl Iterator<Item = (Class, &Score)> {
        self.rows.iter().filter(move |row| row.0 == population).map(|row| (row.1, &row.2))
    }

    /// How many systems were judged.
    pub fn systems(&self) -> usize {
        self.rows.iter().map(|(_, _, score)| score.answered + score.refused).sum()
    }

    /// The lowest coverage of a class in a population.
    pub fn worst(&self, population: Population) -> f64 {
        self.of(population).map(|(_, score)| score.coverage()).fold(1.0, f64::min)
    }

    /// Whether every class holds the truth 88 % of the time at least, drawn from the prior and from the independent
    /// population, and at most 95 % drawn from the prior; each within the two standard errors that so many systems scatter.
    pub fn holds(&self) -> bool {
        let scatter = |score: &Score| 2.0 * (0.9 * 0.1 / score.answered as f64).sqrt();
        let enough = |score: &Score| score.coverage() + scatter(score) >= 0.88;
        self.of(Population::Prior).all(|(_, s)| enough(s) && s.coverage() - scatter(s) <= 0.95)
            && self.of(Population::Independent).all(|(_, score)| enough(score))
    }

    /// Median width before the weighed step over that after it, all vapour, in a population.
    pub fn narrowed(&self, population: Population) -> f64 {
        self.of(population)
            .filter(|(class, _)| *class == Class::VapourStep)
            .map(|(_, score)| score.width_before() / score.width())
            .fold(f64::NAN, f64::max)
    }

    /// The table as text.
    pub fn report(&self) -> String {
        let mut text = String::from(
            "Charge: how often the 90 % interval held the true charge, and its median width over that of the prior alone.\n\
             low, high: how often the whole interval lay below, above the truth.\n\n\
             population            class                     systems  refused  held      low     high    width/prior\n",
        );
        for population in Population::ALL {
            for (class, score) in self.of(population) {
                let share = |count: usize| 100.0 * count as f64 / score.answered as f64;
                let _ = writeln!(
                    text,
                    "{:<21} {:<24} {:>8}  {:>7}  {:>5.1} %  {:>5.1} %  {:>5.1} %  {:>8.3}",
                    population.name(),
                    class.name(),
                    score.answered + score.refused,
                    score.refused,
                    share(score.held),
                    share(score.too_low),
                    share(score.too_high),
                    score.width(),
                );
            }
        }
        let _ = writeln!(text);
        for population in Population::ALL {
            let _ = writeln!(
                text,
                "all vapour, one half-pound step narrows the median width by a factor of {:>5.2}  ({})",
                self.narrowed(population),
                population.name(),
            );
        }
        let _ = writeln!(text, "{} simulated systems", self.systems());
        text
    }
}
