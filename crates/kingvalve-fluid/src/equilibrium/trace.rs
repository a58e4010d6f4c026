//! A saturation line traced from the lowest valid temperature to close below the critical point.
//!
//! The trace starts where guesses are safe and continues in temperature, each point predicted from the
//! exact tangent of the last. Its nodes then give every later bubble or dew point a starting value so
//! close that two or three iterations finish it.
//!
//! Source: Deiters and Bell, Ind. Eng. Chem. Res. 58 (2019) 19777 (continuation along the saturation line).

use super::Line;
use super::linear::MAX;
use super::newton::{self, Given, Point, Unknowns};
use super::{stability, start};
use crate::mixture::{Model, Vector};

/// Lines end at this share of the critical temperature.
pub(crate) const END: f64 = 0.995;
/// Nodes of a trace, evenly spaced in √(1 − T/T_c), in which densities are smooth up to the critical end.
const NODES: usize = 32;

/// A line that ends before this share of the critical temperature, or starts after that one, is refused.
const EARLIEST_END: f64 = 0.97;
const LATEST_START: f64 = 0.7;

/// K: how closely the temperature is found at which a blend splits into two liquids.
const DEMIXING_WITHIN: f64 = 1e-3;

/// A traced line.
#[derive(Debug, Clone)]
pub(crate) struct Trace {
    nodes: Vec<Point>,
    size: usize,
    temperatures: (f64, f64),
}

impl Trace {
    /// Traces `line` between `t_min` and [`END`] of the critical temperature.
    pub fn run(model: &Model, z: &Vector, line: Line, t_min: f64, t_critical: f64) -> Option<Trace> {
        let q_max = (1.0 - t_min / t_critical).max(0.0).sqrt();
        let q_min = (1.0_f64 - END).sqrt();
        let temperature = |index: usize| {
            let q = q_max + (q_min - q_max) * index as f64 / (NODES - 1) as f64;
            t_critical * (1.0 - q * q)
        };
        let start = [0.72, 0.65, 0.78, 0.6, 0.84, 0.55, 0.9].into_iter().find_map(|share| {
            let middle = (0..NODES)
                .min_by(|&a, &b| {
                    let off = |k: usize| (temperature(k) - share * t_critical).abs();
                    off(a).total_cmp(&off(b))
                })
                .unwrap_or(NODES / 2);
            let t = temperature(middle);
            let guess = start::guess(model, z, line, t)?;
            let point = newton::solve(model, z, Given::Temperature(t), &guess)?;
            is_sound(&point, line, model.size()).then_some((middle, point))
        });
        let (middle, first) = start?;
        // Upwards to the critical end, then downwards; a line may end early where the model itself does (the
        // blend splits into two liquids in the cold, or a departure function bends the critical region).
        let mut nodes = vec![first];
        for index in middle + 1..NODES {
            match advance(model, z, line, nodes.last()?, temperature(index), 0) {
                Some(point) => nodes.push(point),
                None if temperature(index - 1) >= EARLIEST_END * t_critical => break,
                None => return None,
            }
        }
        let hottest =
            if nodes.len() == NODES - middle { END * t_critical } else { kelvins(nodes.last()?, model) };
        let mut colder = Vec::new();
        for index in (0..middle).rev() {
            match advance(model, z, line, colder.last().unwrap_or(&first), temperature(index), 0) {
                Some(point) => colder.push(point),
                None if temperature(index + 1) <= LATEST_START * t_critical => break,
                None => return None,
            }
        }
        let coldest =
            if colder.len() == middle { t_min } else { kelvins(colder.last().unwrap_or(&first), model) };
        colder.reverse();
        colder.extend(nodes);
        let mut trace = Trace { nodes: colder, size: model.size(), temperatures: (coldest, hottest) };
        trace.end_where_a_second_liquid_forms(model, z, line)?;
        Some(trace)
    }

    /// Drops the cold end where the phases are not stable. Blends that demix do so in the cold, so the coldest point
    /// is asked first, and nothing more where it is stable.
    fn end_where_a_second_liquid_forms(&mut self, model: &Model, z: &Vector, line: Line) -> Option<()> {
        if model.size() == 1 {
            return Some(());
        }
        let stable = self.nodes.iter().position(|node| stability::is_stable(model, z, node))?;
        let Some(cold) = stable.checked_sub(1) else { return Some(()) };
        let (mut unstable, mut first) = (kelvins(&self.nodes[cold], model), self.nodes[stable]);
        while kelvins(&first, model) - unstable > DEMIXING_WITHIN {
            let t = 0.5 * (unstable + kelvins(&first, model));
            let point = advance(model, z, line, &first, t, 0)?;
            if stability::is_stable(model, z, &point) { first = point } else { unstable = t }
        }
        self.nodes.splice(..stable, [first]);
        self.temperatures.0 = kelvins(&first, model);
        (self.nodes.len() > 2).then_some(())
    }

    /// Lowest and highest temperature of the line, K.
    pub fn temperatures(&self) -> (f64, f64) {
        self.temperatures
    }

    /// Lowest and highest pressure of the line, Pa.
    pub fn pressures(&self) -> (f64, f64) {
        let at = |point: Option<&Point>| point.map_or(f64::NAN, |point| point.pressure);
        (at(self.nodes.first()), at(self.nodes.last()))
    }

    /// Starting values at temperature `t`.
    pub fn guess_at_temperature(&self, t: f64) -> Option<Unknowns> {
        let ln_t = t.ln();
        let last = self.size + 1;
        let above =
            self.nodes.partition_point(|node| node.unknowns[last] < ln_t).clamp(1, self.nodes.len() - 1);
        Some(self.blend(above, ln_t))
    }

    /// Starting values at pressure `p`.
    pub fn guess_at_pressure(&self, p: f64) -> Option<Unknowns> {
        let above = self.nodes.partition_point(|node| node.pressure < p).clamp(1, self.nodes.len() - 1);
        let (a, b) = (&self.nodes[above - 1], &self.nodes[above]);
        let last = self.size + 1;
        let (ln_ta, ln_tb) = (a.unknowns[last], b.unknowns[last]);
        // ln T as a Hermite cubic of ln p: the reciprocals of the stored slopes.
        let width = (b.pressure / a.pressure).ln();
        let share = (p / a.pressure).ln() / width;
        let ln_t = hermite(ln_ta, width / a.pressure_slope, ln_tb, width / b.pressure_slope, share);
        Some(self.blend(above, ln_t))
    }

    fn blend(&self, above: usize, ln_t: f64) -> Unknowns {
        let (a, b) = (&self.nodes[above - 1], &self.nodes[above]);
        let last = self.size + 1;
        let width = b.unknowns[last] - a.unknowns[last];
        let share = (ln_t - a.unknowns[last]) / width;
        let mut v = [0.0; MAX];
        for k in 0..=self.size {
            v[k] = hermite(a.unknowns[k], width * a.tangent[k], b.unknowns[k], width * b.tangent[k], share);
        }
        v[last] = ln_t;
        v
    }
}

fn kelvins(point: &Point, model: &Model) -> f64 {
    point.unknowns[model.size() + 1].exp()
}

/// The cubic through `a` and `b` with slopes `da` and `db` (per unit of `s`), at `s` in 0..1.
fn hermite(a: f64, da: f64, b: f64, db: f64, s: f64) -> f64 {
    let rest = 1.0 - s;
    let (up, down) = (s * s * (3.0 - 2.0 * s), rest * rest * (1.0 + 2.0 * s));
    down * a + up * b + s * rest * rest * da - s * s * rest * db
}

/// The next point at `t`, predicted along the tangent in 1/T; halves the way where that fails.
fn advance(model: &Model, z: &Vector, line: Line, from: &Point, t: f64, depth: u32) -> Option<Point> {
    let n = model.size();
    let ln_from = from.unknowns[n + 1];
    let t_from = ln_from.exp();
    let stride = 1.0 - t_from / t;
    let mut guess = from.unknowns;
    for k in 0..=n {
        guess[k] += from.tangent[k] * stride;
    }
    let point = newton::solve(model, z, Given::Temperature(t), &guess)
        .filter(|point| point.iterations <= 8 && is_sound(point, line, n));
    if point.is_some() || depth > 12 {
        return point;
    }
    let half = advance(model, z, line, from, 0.5 * (t_from + t), depth + 1)?;
    advance(model, z, line, &half, t, depth + 1)
}

/// The bulk phase is the denser one on the bubble line and the lighter one on the dew line.
fn is_sound(point: &Point, line: Line, n: usize) -> bool {
    let incipient: f64 = point.unknowns[1..=n].iter().map(|v| v.exp()).sum();
    let denser = point.unknowns[0].exp() > incipient;
    let expected = matches!(line, Line::Bubble);
    denser == expected && point.pressure > 0.0
}
