//! How often the 90 % interval of the charge holds the true charge, by class of what was read and by population.

mod independent;
mod prior;
mod score;
mod table;

use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

use kingvalve::Result;
use kingvalve::measure::Generator;

use crate::rig::medium::{Medium, TEN};
pub use score::{Outcome, Score};
pub use table::Charges;

/// What was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Class {
    /// One standing pressure, below saturation by more than the instruments can be off.
    StandingVapour,
    /// One standing pressure that is not.
    StandingSaturated,
    /// Superheat and subcooling of a system with a fixed orifice.
    RunningOrifice,
    /// The same with a thermostatic valve.
    RunningValve,
    /// Three standing pressures with half a pound weighed in between each, whatever they show.
    TwoSteps,
    /// Two standing pressures, both as in [`StandingVapour`](Self::StandingVapour), with half a pound weighed in between.
    VapourStep,
}

impl Class {
    /// All of them.
    pub const ALL: [Class; 6] = [
        Class::StandingVapour,
        Class::StandingSaturated,
        Class::RunningOrifice,
        Class::RunningValve,
        Class::TwoSteps,
        Class::VapourStep,
    ];

    /// As in the table.
    pub fn name(self) -> &'static str {
        match self {
            Class::StandingVapour => "standing, vapour",
            Class::StandingSaturated => "standing, saturated",
            Class::RunningOrifice => "running, orifice",
            Class::RunningValve => "running, valve",
            Class::TwoSteps => "after two weighed steps",
            Class::VapourStep => "vapour, after one step",
        }
    }
}

/// Where the systems come from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Population {
    /// What the estimator documents that it takes for granted.
    Prior,
    /// The simulated system of [`crate::rig`].
    Independent,
    /// The same with all internal volumes 30 % larger than those its data plate belongs to.
    Larger,
    /// The same with all internal volumes 30 % smaller.
    Smaller,
}

impl Population {
    /// All of them.
    pub const ALL: [Population; 4] =
        [Population::Prior, Population::Independent, Population::Larger, Population::Smaller];

    /// As in the table.
    pub fn name(self) -> &'static str {
        match self {
            Population::Prior => "documented prior",
            Population::Independent => "independent",
            Population::Larger => "volumes 30 % larger",
            Population::Smaller => "volumes 30 % smaller",
        }
    }

    /// How many of the systems asked for are drawn from it: the two mis-specified ones share.
    fn share(self, each: usize) -> usize {
        match self {
            Population::Prior | Population::Independent => each,
            Population::Larger | Population::Smaller => each.div_ceil(2),
        }
    }
}

/// Systems drawn and judged by one thread at a time, from a seed of their own.
const BATCH: usize = 50;

/// Judges `each` systems of every class from the prior and from the independent population, half as many from each of
/// the mis-specified ones. The same seed gives the same scores, on however many cores.
///
/// # Errors
/// Those of the library for what it must not refuse: refrigerants, instruments, sites.
pub fn run(each: usize, seed: u64) -> Result<Charges> {
    let media = TEN.iter().map(|name| Medium::named(name)).collect::<Result<Vec<_>>>()?;
    let mut batches = Vec::new();
    for (row, population) in Population::ALL.into_iter().enumerate() {
        for (column, class) in Class::ALL.into_iter().enumerate() {
            let count = population.share(each);
            for (batch, from) in (0..count).step_by(BATCH).enumerate() {
                let own = seed.wrapping_mul(1_000_003) + (row * 100 + column) as u64 * 10_007 + batch as u64;
                batches.push((population, class, BATCH.min(count - from), own));
            }
        }
    }
    let next = AtomicUsize::new(0);
    let done = Mutex::new(Vec::new());
    thread::scope(|scope| {
        for _ in 0..thread::available_parallelism().map_or(1, usize::from) {
            scope.spawn(|| {
                loop {
                    let at = next.fetch_add(1, Ordering::Relaxed);
                    let Some((population, class, count, seed)) = batches.get(at).copied() else { break };
                    let outcomes = judged(&media, population, class, count, seed);
                    if let Ok(mut done) = done.lock() {
                        done.push((at, population, class, outcomes));
                    }
                }
            });
        }
    });
    let mut done = done.into_inner().unwrap_or_default();
    done.sort_by_key(|(at, ..)| *at);
    let mut charges = Charges::default();
    for (_, population, class, outcomes) in done {
        charges.add(population, class, outcomes?);
    }
    Ok(charges)
}

fn judged(
    media: &[Medium],
    population: Population,
    class: Class,
    count: usize,
    seed: u64,
) -> Result<Vec<Outcome>> {
    let mut generator = Generator::seeded(seed);
    let mut outcomes = Vec::with_capacity(count);
    while outcomes.len() < count {
        let which = (generator.uniform() * media.len() as f64) as usize;
        let Some(medium) = media.get(which) else { continue };
        let outcome = match population {
            Population::Prior => prior::judge(medium, class, &mut generator)?,
            Population::Independent => independent::judge(medium, class, 1.0, &mut generator)?,
            Population::Larger => independent::judge(medium, class, 1.3, &mut generator)?,
            Population::Smaller => independent::judge(medium, class, 0.7, &mut generator)?,
        };
        outcomes.extend(outcome);
    }
    Ok(outcomes)
}
