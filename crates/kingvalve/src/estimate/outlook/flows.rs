//! What is paid in which year along one way through.

use super::failure::Aging;
use super::node::Payoff;
use super::prospect::Setting;

/// The longest horizon, years.
pub(super) const LONGEST: usize = 15;

/// Money paid today (the first entry) and in each year after, in money of today.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Flows {
    pub(super) by_year: [f64; LONGEST + 1],
    /// How far prices that are ranges may move the whole, either way.
    pub(super) half: f64,
    /// Visits to refill.
    pub(super) visits: f64,
    /// Of the whole, what extra energy costs.
    pub(super) energy: f64,
}

impl Payoff for Flows {
    fn zero() -> Self {
        Flows { by_year: [0.0; LONGEST + 1], half: 0.0, visits: 0.0, energy: 0.0 }
    }

    fn plus(mut self, other: &Self, weight: f64) -> Self {
        for (sum, more) in self.by_year.iter_mut().zip(other.by_year) {
            *sum += weight * more;
        }
        self.half += weight * other.half;
        self.visits += weight * other.visits;
        self.energy += weight * other.energy;
        self
    }

    fn cost(&self) -> f64 {
        self.by_year.iter().sum()
    }
}

impl Flows {
    /// An amount paid today, with the half width of its range.
    pub(super) fn today((amount, half): (f64, f64)) -> Flows {
        let mut flows = Flows::zero();
        flows.pay(0.0, 1.0, (amount, half));
        flows
    }

    /// An amount paid at a time, as it counts today.
    fn pay(&mut self, time: f64, discount: f64, (amount, half): (f64, f64)) {
        let year = (time.max(0.0).ceil() as usize).min(LONGEST);
        if let Some(slot) = self.by_year.get_mut(year) {
            *slot += amount * discount;
        }
        self.half += half * discount;
    }
}

impl Setting {
    /// What follows a system filled today that leaks so many kilograms a year, and fails in that year if it does.
    pub(super) fn kept_up(&self, leak: f64, failure: Option<u32>) -> Flows {
        let mut flows = Flows::zero();
        let end = self.end(failure);
        if leak > 0.0 {
            let every = self.trigger * self.charge / leak;
            let (mut filled, mut visit) = (0.0, 1.0);
            while filled < end {
                let next = (visit * every).min(end);
                self.run_low(&mut flows, filled, next, leak, 0.0);
                if visit * every < end {
                    self.refill(&mut flows, next);
                }
                (filled, visit) = (visit * every, visit + 1.0);
            }
        }
        self.fail(&mut flows, failure);
        flows
    }

    /// What follows equipment that does not leak.
    pub(super) fn tight(&self, failure: Option<u32>) -> Flows {
        self.kept_up(0.0, failure)
    }

    /// What follows when nothing is done: it runs lower and lower, and from some day on does not cool.
    pub(super) fn left_alone(&self, leak: f64) -> Flows {
        let mut flows = Flows::zero();
        let low = self.missing.0 / self.charge;
        let cools = if low >= self.trigger {
            0.0
        } else if leak > 0.0 {
            ((self.trigger - low) * self.charge / leak).min(self.horizon)
        } else {
            self.horizon
        };
        if leak > 0.0 {
            self.run_low(&mut flows, 0.0, cools, leak, low);
        } else {
            self.run_steady(&mut flows, cools, low);
        }
        let mut from = cools;
        while from < self.horizon {
            let to = (from.floor() + 1.0).min(self.horizon);
            let middle = 0.5 * (from + to);
            let lost = (to - from) * self.cooling_days * self.comfort;
            flows.pay(middle, self.discount(middle), (lost, 0.0));
            from = to;
        }
        flows
    }

    fn end(&self, failure: Option<u32>) -> f64 {
        failure.map_or(self.horizon, |year| f64::from(year) - 0.5)
    }

    fn refill(&self, flows: &mut Flows, time: f64) {
        let pounds = self.trigger * self.charge * self.refrigerant * self.trend.powf(time);
        let waiting = self.waiting_days * self.comfort;
        let (visit, half) = self.visit;
        flows.pay(time, self.discount(time), (visit + pounds + waiting, half));
        flows.visits += 1.0;
    }

    /// Half a year into the year in which it fails: new equipment, and days without cooling.
    fn fail(&self, flows: &mut Flows, failure: Option<u32>) {
        if let (Some((price, half)), Some(_)) = (self.replacement, failure) {
            let time = self.end(failure);
            flows.pay(time, self.discount(time), (price + self.waiting_days * self.comfort, half));
        }
    }

    /// Extra energy from one time to another, the share missing growing from `low`.
    fn run_low(&self, flows: &mut Flows, from: f64, to: f64, leak: f64, low: f64) {
        if self.energy_cost <= 0.0 {
            return;
        }
        let missing = |time: f64| low + (time - from) * leak / self.charge;
        let mut start = from;
        while start < to {
            let stop = (start.floor() + 1.0).min(to);
            let extra = self.extra_energy(missing(stop)) - self.extra_energy(missing(start));
            self.burn(flows, 0.5 * (start + stop), extra * self.charge / leak);
            start = stop;
        }
    }

    /// Extra energy of a charge that stays as low as it is.
    fn run_steady(&self, flows: &mut Flows, to: f64, low: f64) {
        let mut start = 0.0;
        while start < to {
            let stop = (start + 1.0).min(to);
            self.burn(flows, 0.5 * (start + stop), (stop - start) * self.extra_share(low));
            start = stop;
        }
    }

    fn burn(&self, flows: &mut Flows, time: f64, years_of_extra: f64) {
        let discount = self.discount(time);
        let cost = self.energy_cost * years_of_extra;
        flows.pay(time, discount, (cost, 0.0));
        flows.energy += cost * discount;
    }

    /// Integral of the extra share of energy over the missing share of charge, by Simpson's rule.
    fn extra_energy(&self, missing: f64) -> f64 {
        const HALVES: usize = 4;
        let step = missing / (2 * HALVES) as f64;
        let sum: f64 = (0..=2 * HALVES)
            .map(|at| {
                let weight = if at == 0 || at == 2 * HALVES { 1.0 } else { 2.0 + 2.0 * (at % 2) as f64 };
                weight * self.extra_share(step * at as f64)
            })
            .sum();
        sum * step / 3.0
    }

    /// What a year is worth today.
    pub(super) fn discount(&self, time: f64) -> f64 {
        (1.0 + self.rate).powf(-time)
    }

    /// Chances to fail in each year of the horizon and of not failing, at an age.
    pub(super) fn failures(&self, aging: &Aging, age: f64) -> Vec<(f64, Option<u32>)> {
        if self.replacement.is_none() || !aging.can_fail() {
            return vec![(1.0, None)];
        }
        let (years, none) = aging.by_year(age, self.horizon as u32);
        let years = years.into_iter().zip(1..).map(|(p, year)| (p, Some(year)));
        years.chain([(none, None)]).collect()
    }
}
