//! The decision tree of a prospect.

use std::rc::Rc;

use super::LeakPlace;
use super::cost::{middle, number};
use super::flows::Flows;
use super::node::{Node, Payoff, Shared};
use super::prospect::{Prospect, Setting};
use super::report::Forward;
use crate::Result;

/// A branch of the tree.
pub(super) type Branch = Shared<Flows, Forward>;

/// The ways from today, each solved, and what a search is worth.
pub(super) struct Ways {
    pub(super) all: Vec<(Forward, Branch)>,
    /// As it would go on after a search that cost nothing.
    pub(super) searched_free: Branch,
}

impl Prospect {
    /// Builds and solves the tree.
    pub(super) fn ways(&self) -> Result<Ways> {
        let setting = self.setting()?;
        let grower = Grower { prospect: self, setting };
        let recharge = grower.recharge();
        let sealant = grower.sealant();
        let replace = grower.replace();
        let otherwise: Vec<(Forward, Branch)> = [
            Some((Forward::Recharge, Rc::clone(&recharge))),
            Some((Forward::RechargeWithSealant, Rc::clone(&sealant))),
            replace.clone().map(|node| (Forward::Replace, node)),
        ]
        .into_iter()
        .flatten()
        .collect();
        let search = grower.search(&otherwise, number(self.prices.search_hour));
        let called = |(forward, node)| (forward, Node::pay(Flows::today(middle(self.prices.called)), node));
        let all = [
            Some((Forward::LeaveAsIs, grower.leave())),
            Some((Forward::Recharge, recharge)),
            Some((Forward::RechargeWithSealant, sealant)),
            Some((Forward::LeakSearch, search)),
            replace.map(|node| (Forward::Replace, node)),
        ];
        let searched_free = called((Forward::LeakSearch, grower.search(&otherwise, 0.0))).1;
        Ok(Ways { all: all.into_iter().flatten().map(called).collect(), searched_free })
    }
}

struct Grower<'a> {
    prospect: &'a Prospect,
    setting: Setting,
}

impl Grower<'_> {
    /// It goes on with that chance for each rate of leaking, and for each year of failing.
    fn goes_on(&self, age: f64, leaks: &[(f64, f64)], flows: impl Fn(f64, Option<u32>) -> Flows) -> Branch {
        let failures = self.setting.failures(&self.prospect.chances.aging, age);
        let after = |leak: f64| {
            Node::chance(failures.iter().map(|(p, year)| (*p, Node::end(flows(leak, *year)))).collect())
        };
        Node::chance(leaks.iter().map(|(p, leak)| (*p, after(*leak))).collect())
    }

    fn still_leaking(&self) -> Branch {
        let setting = self.setting;
        self.goes_on(self.age(), &setting.leak, |leak, year| setting.kept_up(leak, year))
    }

    fn tight(&self, age: f64) -> Branch {
        let setting = self.setting;
        self.goes_on(age, &[(1.0, 0.0)], |_, year| setting.tight(year))
    }

    fn age(&self) -> f64 {
        self.prospect.age.years()
    }

    /// What is missing, at today's price.
    fn refill(&self) -> Flows {
        let (middle, half) = self.setting.missing;
        Flows::today((middle * self.setting.refrigerant, half * self.setting.refrigerant))
    }

    fn paid(&self, prices: &[Flows], then: Branch) -> Branch {
        let sum = prices.iter().fold(Flows::zero(), |sum, price| sum.plus(price, 1.0));
        Node::pay(sum, then)
    }

    /// It holds with that chance, and else leaks on.
    fn holds(&self, chance: f64) -> Branch {
        Node::chance(vec![(chance, self.tight(self.age())), (1.0 - chance, self.still_leaking())])
    }

    fn leave(&self) -> Branch {
        let setting = self.setting;
        Node::chance(setting.leak.map(|(p, leak)| (p, Node::end(setting.left_alone(leak)))).into())
    }

    fn recharge(&self) -> Branch {
        let labor = Flows::today(middle(self.prospect.prices.recharge));
        self.paid(&[labor, self.refill()], self.still_leaking())
    }

    fn sealant(&self) -> Branch {
        let prices = &self.prospect.prices;
        let [labor, sealant] = [prices.recharge, prices.sealant].map(|price| Flows::today(middle(price)));
        self.paid(&[labor, sealant, self.refill()], self.holds(self.prospect.chances.sealant_holds.p()))
    }

    fn replace(&self) -> Option<Branch> {
        let price = self.prospect.prices.replacement?;
        Some(self.paid(&[Flows::today(middle(price))], self.tight(0.0)))
    }

    fn repair(&self, place: LeakPlace) -> Branch {
        let price = Flows::today(middle(self.prospect.prices.repair.at(place)));
        self.paid(&[price, self.refill()], self.holds(self.prospect.chances.repair_holds.p()))
    }

    /// Search hour by hour, then choose by what was found.
    fn search(&self, otherwise: &[(Forward, Branch)], hour: f64) -> Branch {
        let chances = &self.prospect.chances;
        let found = Node::chance(
            LeakPlace::ALL
                .into_iter()
                .zip(chances.places.p())
                .map(|(place, p)| {
                    let mut branches = vec![(Forward::LeakSearch, self.repair(place))];
                    branches.extend(otherwise.iter().cloned());
                    (p, Node::choice(branches))
                })
                .collect(),
        );
        let vain = Node::choice(otherwise.to_vec());
        let tries = self.prospect.habits.search_hours;
        let (by_hour, never) = chances.found_in_an_hour.first_success(tries);
        let after = |hours: u32, then: &Branch| {
            Node::pay(Flows::today((f64::from(hours) * hour, 0.0)), Rc::clone(then))
        };
        let mut branches: Vec<_> =
            by_hour.into_iter().zip(1..).map(|(p, hours)| (p, after(hours, &found))).collect();
        branches.push((never, after(tries, &vain)));
        Node::chance(branches)
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Aging, Chances, Habits, LeakRange, PlacePrices, Prices};
    use super::*;
    use crate::estimate::{PriceRange, WeightUnit};
    use crate::measure::Interval;
    use crate::quantity::{pounds, pounds_per_year, years};

    fn usd(text: &str) -> PriceRange {
        PriceRange::exact(format!("{text} USD").parse().unwrap()).unwrap()
    }

    /// Every plan of the real tree, averaged by brute force: none is cheaper than what rolling back found, one is as cheap.
    #[test]
    fn no_plan_is_cheaper_than_the_one_found() {
        for (leak, hours, life) in [(0.4, 1, 30.0), (2.0, 1, 18.0), (6.0, 2, 12.0)] {
            let rate = pounds_per_year(leak);
            let prospect = Prospect {
                years: 8,
                charge: pounds(8.0),
                missing: Interval::exactly(pounds(4.0)).unwrap(),
                leak: LeakRange::new(rate * 0.3, rate, rate * 3.0).unwrap(),
                age: years(9.0),
                prices: Prices {
                    called: usd("120"),
                    recharge: usd("200"),
                    refrigerant: "60 USD".parse().unwrap(),
                    per: WeightUnit::Pound,
                    sealant: usd("150"),
                    search_hour: "145 USD".parse().unwrap(),
                    repair: PlacePrices {
                        reachable: usd("500"),
                        indoor_coil: usd("1900"),
                        outdoor_unit: usd("3000"),
                    },
                    replacement: Some(usd("6000")),
                },
                chances: Chances {
                    aging: Aging::believed(years(life), 3.0, 4.0).unwrap(),
                    ..Chances::default()
                },
                habits: Habits { search_hours: hours, ..Habits::default() },
                energy: None,
                comfort_per_day: None,
            };
            for (forward, branch) in prospect.ways().unwrap().all {
                let plans = branch.enumerated();
                let best = plans.iter().copied().fold(f64::INFINITY, f64::min);
                let found = branch.expected().cost();
                assert!(
                    (found - best).abs() < 1e-6,
                    "{forward}: {found} found, {best} best of {}",
                    plans.len()
                );
                let searching = forward == Forward::LeakSearch;
                assert_eq!(plans.len() > 1, searching, "{forward}: {} plans", plans.len());
            }
        }
    }
}
