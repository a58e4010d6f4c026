//! A decision tree that is solved as it is built.

use std::rc::Rc;

use crate::measure::Generator;

/// What the ends of a tree hold: a cost that can be averaged.
pub(super) trait Payoff: Clone {
    /// Nothing at all.
    fn zero() -> Self;
    /// This and `weight` times another.
    fn plus(self, other: &Self, weight: f64) -> Self;
    /// The cost that decisions go by.
    fn cost(&self) -> f64;
}

/// A node with what is expected of it when every decision below takes the cheapest branch.
///
/// # Source
/// Rolling back: H. Raiffa, Decision Analysis (1968), chapter 2 (from memory): average at chances, the best at choices.
#[derive(Debug)]
pub(super) struct Node<P, L> {
    expected: P,
    kind: Kind<P, L>,
}

/// Nodes are shared where two branches go on alike.
pub(super) type Shared<P, L> = Rc<Node<P, L>>;

#[derive(Debug)]
enum Kind<P, L> {
    End,
    Pay(P, Shared<P, L>),
    Chance(Vec<(f64, Shared<P, L>)>),
    Choice(Vec<(L, Shared<P, L>)>),
}

impl<P: Payoff, L: Copy> Node<P, L> {
    /// It ends here.
    pub(super) fn end(payoff: P) -> Shared<P, L> {
        Rc::new(Node { expected: payoff, kind: Kind::End })
    }

    /// Something is paid, and it goes on.
    pub(super) fn pay(payment: P, then: Shared<P, L>) -> Shared<P, L> {
        let expected = payment.clone().plus(&then.expected, 1.0);
        Rc::new(Node { expected, kind: Kind::Pay(payment, then) })
    }

    /// Chance decides, by probabilities that sum to one.
    pub(super) fn chance(branches: Vec<(f64, Shared<P, L>)>) -> Shared<P, L> {
        let expected = branches.iter().fold(P::zero(), |sum, (p, node)| sum.plus(&node.expected, *p));
        Rc::new(Node { expected, kind: Kind::Chance(branches) })
    }

    /// One chooses, knowing what came before: the cheapest, the first of equals.
    pub(super) fn choice(mut branches: Vec<(L, Shared<P, L>)>) -> Shared<P, L> {
        branches.sort_by(|(_, a), (_, b)| a.expected.cost().total_cmp(&b.expected.cost()));
        let expected = branches.first().map_or_else(P::zero, |(_, best)| best.expected.clone());
        Rc::new(Node { expected, kind: Kind::Choice(branches) })
    }

    /// What is expected of it.
    pub(super) fn expected(&self) -> &P {
        &self.expected
    }

    /// What is chosen here, if one chooses.
    #[cfg(test)]
    pub(super) fn chosen(&self) -> Option<L> {
        match &self.kind {
            Kind::Choice(branches) => branches.first().map(|(label, _)| *label),
            _ => None,
        }
    }

    /// One way through, chances drawn, choices as decided.
    pub(super) fn draw(&self, random: &mut Generator) -> P {
        match &self.kind {
            Kind::End => self.expected.clone(),
            Kind::Pay(payment, then) => payment.clone().plus(&then.draw(random), 1.0),
            Kind::Choice(branches) => branches.first().map_or_else(P::zero, |(_, best)| best.draw(random)),
            Kind::Chance(branches) => {
                let mut left = random.uniform();
                for (p, node) in branches {
                    left -= p;
                    if left <= 0.0 {
                        return node.draw(random);
                    }
                }
                branches.last().map_or_else(P::zero, |(_, last)| last.draw(random))
            }
        }
    }
}

#[cfg(test)]
impl<P: Payoff, L: Copy> Node<P, L> {
    /// Every plan (a branch for each choice, reached or not) with what it costs on average: by brute force.
    pub(super) fn enumerated(&self) -> Vec<f64> {
        match &self.kind {
            Kind::End => vec![self.expected.cost()],
            Kind::Pay(payment, then) => {
                then.enumerated().into_iter().map(|cost| cost + payment.cost()).collect()
            }
            Kind::Choice(branches) => branches.iter().flat_map(|(_, node)| node.enumerated()).collect(),
            Kind::Chance(branches) => branches.iter().fold(vec![0.0], |plans, (p, node)| {
                let below = node.enumerated();
                plans.iter().flat_map(|plan| below.iter().map(move |cost| plan + p * cost)).collect()
            }),
        }
    }
}

impl Payoff for f64 {
    fn zero() -> Self {
        0.0
    }
    fn plus(self, other: &Self, weight: f64) -> Self {
        self + weight * other
    }
    fn cost(&self) -> f64 {
        *self
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    type Tree = Shared<f64, usize>;

    fn trees() -> impl Strategy<Value = Tree> {
        let end = (-100.0..100.0f64).prop_map(Node::end);
        end.prop_recursive(3, 24, 3, |inner| {
            let branches = proptest::collection::vec((0.05..1.0f64, inner.clone()), 1..=3);
            prop_oneof![
                (-20.0..20.0f64, inner.clone()).prop_map(|(paid, then)| Node::pay(paid, then)),
                branches.prop_map(|branches| {
                    let total: f64 = branches.iter().map(|(p, _)| p).sum();
                    Node::chance(branches.into_iter().map(|(p, node)| (p / total, node)).collect())
                }),
                proptest::collection::vec(inner, 1..=3)
                    .prop_map(|nodes| Node::choice(nodes.into_iter().enumerate().collect())),
            ]
        })
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(128))]

        /// The best of all plans, each averaged over all chances, is what rolling back finds.
        #[test]
        fn rolling_back_finds_the_best_of_all_plans(tree in trees()) {
            let plans = tree.enumerated();
            prop_assume!(plans.len() < 20_000);
            let best = plans.iter().copied().fold(f64::INFINITY, f64::min);
            prop_assert!((tree.expected() - best).abs() < 1e-9);
        }

        #[test]
        fn draws_average_to_what_is_expected(tree in trees(), seed in any::<u64>()) {
            let mut random = Generator::seeded(seed);
            let count = 2000;
            let drawn: Vec<f64> = (0..count).map(|_| tree.draw(&mut random)).collect();
            let mean = drawn.iter().sum::<f64>() / f64::from(count);
            let variance = drawn.iter().map(|x| (x - mean).powi(2)).sum::<f64>() / f64::from(count);
            prop_assert!((mean - tree.expected()).abs() <= 6.0 * (variance / f64::from(count)).sqrt() + 1e-9);
        }
    }

    fn close(a: f64, b: f64) {
        assert!((a - b).abs() < 1e-9, "{a} is not {b}");
    }

    /// The first example of chapter 15 of F. S. Hillier and G. J. Lieberman, Introduction to Operations Research, in
    /// thousands of dollars (data as in the model DECTREE of the LINGO library, seen; its answer 123 from memory): land
    /// that sells for 90, or 100 to drill for 800 with a chance of one in four; a survey costs 30 and is favourable three
    /// times in ten, and then oil is there one time in two, else one time in seven. Without it 100 is expected, with it
    /// 123; its information is worth 53, perfect information 142.5.
    #[test]
    fn the_prototype_example_of_hillier_and_lieberman() {
        let drill =
            |oil: f64| Node::chance(vec![(oil, Node::end(100.0 - 800.0)), (1.0 - oil, Node::end(100.0))]);
        let decide = |oil| Node::choice(vec![(0, Node::end(-90.0)), (1, drill(oil))]);
        let blind: Tree = decide(0.25);
        let free: Tree = Node::chance(vec![(0.3, decide(0.5)), (0.7, decide(1.0 / 7.0))]);
        let surveyed = Node::pay(30.0, Rc::clone(&free));
        let known: Tree = Node::chance(vec![(0.25, decide(1.0)), (0.75, decide(0.0))]);
        close(*blind.expected(), -100.0);
        close(*surveyed.expected(), -123.0);
        close(blind.expected() - free.expected(), 53.0);
        close(blind.expected() - known.expected(), 142.5);
        assert_eq!((decide(0.5).chosen(), decide(1.0 / 7.0).chosen()), (Some(1), Some(0)));
        let best = surveyed.enumerated().into_iter().fold(f64::INFINITY, f64::min);
        close(best, -123.0);
    }

    /// The oil wildcatter of H. Raiffa, Decision Analysis (1968), chapter 2, in thousands of dollars (from memory): a
    /// well costs 70 and is dry (0.5), wet (0.3; worth 120) or soaking (0.2; worth 270); a seismic sounding costs 10.
    /// Drilling blind is worth 20, drilling by the sounding 22.5; the sounding's information 12.5, perfect
    /// information 35.
    #[test]
    fn the_oil_wildcatter() {
        const CASH: [f64; 3] = [70.0, -50.0, -200.0]; // costs of drilling: dry, wet, soaking
        let drill = |weights: [f64; 3]| {
            let total: f64 = weights.iter().sum();
            Node::chance(weights.iter().zip(CASH).map(|(w, cost)| (w / total, Node::end(cost))).collect())
        };
        let decide = |weights| Node::choice(vec![(0, Node::end(0.0)), (1, drill(weights))]);
        // Joint probabilities of the sounding (no, open, closed structure) and the state.
        let joint: [[f64; 3]; 3] = [[0.30, 0.09, 0.02], [0.15, 0.12, 0.08], [0.05, 0.09, 0.10]];
        let blind: Tree = decide([0.5, 0.3, 0.2]);
        let free: Tree = Node::chance(joint.iter().map(|w| (w.iter().sum(), decide(*w))).collect());
        let sounded = Node::pay(10.0, Rc::clone(&free));
        let known: Tree = Node::chance(vec![
            (0.5, decide([1.0, 0.0, 0.0])),
            (0.3, decide([0.0, 1.0, 0.0])),
            (0.2, decide([0.0, 0.0, 1.0])),
        ]);
        close(*blind.expected(), -20.0);
        close(*sounded.expected(), -22.5);
        close(blind.expected() - free.expected(), 12.5);
        close(blind.expected() - known.expected(), 35.0);
        let first = Node::choice(vec![(0, blind), (1, sounded)]);
        assert_eq!(first.chosen(), Some(1));
        // No structure: leave it.
        assert_eq!(decide(joint[0]).chosen(), Some(0));
    }
}
