//! The best fit for each share of the rise that a leak may have.
//!
//! p(u) = p₀ + R·(f·u + (1 − f)·h(x, u)): p₀ and R by linear least squares, x by search within that (variable
//! projection: Golub and Pereyra, SIAM J. Numer. Anal. 10 (1973) 413), f from 0 to 1 by its profile.

use super::series::Series;
use super::shape::{Bounds, Plateau, Shape};

/// Values of x tried before the best is refined, and of f.
const GRID: usize = 40;
const SHARES: usize = 20;

/// A fitted rise.
#[derive(Debug, Clone, Copy)]
pub(super) struct Fit {
    pub shape: Shape,
    /// The leak's share of the rise.
    pub share: f64,
    pub x: f64,
    /// Pa
    pub start: f64,
    /// Over the whole log, Pa.
    pub rise: f64,
    pub chi2: f64,
}

/// Sums over the readings of what a shape of one `x` needs, about the means.
struct Moments {
    x: f64,
    mean: f64,
    squares: f64,
    with_line: f64,
    with_pressure: f64,
}

/// One shape against the readings, for every share.
pub(super) struct Profile<'a> {
    series: &'a Series,
    bounds: &'a Bounds,
    shape: Shape,
    total: f64,
    mean_u: f64,
    mean_y: f64,
    line: f64,
    line_with_pressure: f64,
    pressure: f64,
    grid: Vec<Moments>,
    /// The best fit at each of the shares tried, in order; the best of all among them.
    tried: Vec<Fit>,
}

impl<'a> Profile<'a> {
    pub fn of(series: &'a Series, bounds: &'a Bounds, shape: Shape) -> Self {
        let total: f64 = series.w.iter().sum();
        let mean_u = series.points().map(|(u, _, w)| w * u).sum::<f64>() / total;
        let mean_y = series.mean();
        let sum = |of: fn(f64, f64) -> f64| -> f64 {
            series.points().map(|(u, y, w)| w * of(u - mean_u, y - mean_y)).sum()
        };
        let mut profile = Profile {
            series,
            bounds,
            shape,
            total,
            mean_u,
            mean_y,
            line: sum(|u, _| u * u),
            line_with_pressure: sum(|u, y| u * y),
            pressure: sum(|_, y| y * y),
            grid: Vec::with_capacity(GRID),
            tried: Vec::with_capacity(SHARES + 2),
        };
        let (low, high) = shape.range(bounds);
        let stride = (high / low).ln() / (GRID as f64 - 1.0);
        profile.grid = (0..GRID).map(|k| profile.moments(low * (stride * k as f64).exp())).collect();
        profile.tried = (0..=SHARES).map(|k| profile.at(k as f64 / SHARES as f64)).collect();
        profile.refine();
        profile
    }

    /// The best fit of all shares.
    pub fn best(&self) -> Option<Fit> {
        self.tried.iter().copied().min_by(|a, b| a.chi2.total_cmp(&b.chi2))
    }

    /// The lowest and highest share whose fit is no worse than `limit`.
    pub fn shares(&self, limit: f64) -> Option<(Fit, Fit)> {
        let first = self.tried.iter().position(|fit| fit.chi2 <= limit)?;
        let last = self.tried.iter().rposition(|fit| fit.chi2 <= limit)?;
        let edge = |inside: usize, outside: Option<usize>| -> Option<Fit> {
            let inside = *self.tried.get(inside)?;
            let Some(outside) = outside.and_then(|at| self.tried.get(at)) else { return Some(inside) };
            let (mut good, mut bad) = (inside, outside.share);
            for _ in 0..20 {
                let middle = self.at(0.5 * (good.share + bad));
                if middle.chi2 <= limit { good = middle } else { bad = middle.share }
            }
            Some(good)
        };
        Some((edge(first, first.checked_sub(1))?, edge(last, Some(last + 1))?))
    }

    /// The best fit with a leak of that share.
    fn at(&self, share: f64) -> Fit {
        let best = (0..self.grid.len())
            .filter_map(|k| self.grid.get(k).map(|moments| (k, self.solve(share, moments))))
            .min_by(|(_, a), (_, b)| a.chi2.total_cmp(&b.chi2));
        let Some((k, coarse)) = best else { return self.level() };
        if share >= 1.0 {
            return coarse;
        }
        let x_of = |k: usize| self.grid.get(k).map_or(coarse.x, |moments| moments.x);
        let (low, high) = (x_of(k.saturating_sub(1)).ln(), x_of(k + 1).ln());
        let found = golden(low, high, |ln_x| self.solve(share, &self.moments(ln_x.exp())));
        if found.chi2 <= coarse.chi2 { found } else { coarse }
    }

    /// Finds the best share between the neighbours of the best one tried.
    fn refine(&mut self) {
        let best = (0..self.tried.len()).min_by(|a, b| {
            let chi2 = |k: usize| self.tried.get(k).map_or(f64::INFINITY, |fit| fit.chi2);
            chi2(*a).total_cmp(&chi2(*b))
        });
        let Some(k) = best else { return };
        let share = |k: usize, end: f64| self.tried.get(k).map_or(end, |fit| fit.share);
        let (low, high) = (share(k.saturating_sub(1), 0.0), share(k + 1, 1.0));
        let found = golden(low, high, |share| self.at(share));
        let at = self.tried.partition_point(|fit| fit.share < found.share);
        self.tried.insert(at, found);
    }

    fn moments(&self, x: f64) -> Moments {
        let h: Vec<f64> = self.series.u.iter().map(|u| self.shape.at(x, *u)).collect();
        let weighted = || h.iter().zip(self.series.points());
        let mean = weighted().map(|(h, (_, _, w))| w * h).sum::<f64>() / self.total;
        let (mut squares, mut with_line, mut with_pressure) = (0.0, 0.0, 0.0);
        for (h, (u, y, w)) in weighted() {
            let off = w * (h - mean);
            squares += off * (h - mean);
            with_line += off * (u - self.mean_u);
            with_pressure += off * (y - self.mean_y);
        }
        Moments { x, mean, squares, with_line, with_pressure }
    }

    /// p₀ and R for a share and an x, the pressure it levels off at kept where it may be.
    fn solve(&self, share: f64, of: &Moments) -> Fit {
        let rest = 1.0 - share;
        let mean = share * self.mean_u + rest * of.mean;
        let squares =
            share * share * self.line + 2.0 * share * rest * of.with_line + rest * rest * of.squares;
        let product = share * self.line_with_pressure + rest * of.with_pressure;
        let fit = |start: f64, rise: f64| {
            let off = self.mean_y - start - rise * mean;
            let chi2 = self.pressure - 2.0 * rise * product + rise * rise * squares + self.total * off * off;
            Fit { shape: self.shape, share, x: of.x, start, rise, chi2 }
        };
        let rise = (product / squares).max(0.0);
        let free = fit(self.mean_y - rise * mean, rise);
        let plateau = self.shape.plateau(of.x, self.bounds).filter(|_| rest > 0.0);
        let Some(Plateau { overshoot, low, high }) = plateau else { return free };
        let reach = rest * overshoot;
        let level = free.start + reach * rise;
        if (low..=high).contains(&level) {
            return free;
        }
        // p₀ = P − reach·R, with P the nearer bound.
        let bound = level.clamp(low, high);
        let (off, lever) = (self.mean_y - bound, reach - mean);
        let rise = ((product - self.total * off * lever) / (squares + self.total * lever * lever)).max(0.0);
        fit(bound - reach * rise, rise)
    }

    /// No rise at all: what is left when there is nothing to fit.
    fn level(&self) -> Fit {
        Fit { shape: self.shape, share: 0.0, x: 1.0, start: self.mean_y, rise: 0.0, chi2: self.pressure }
    }
}

/// The least of a function with one minimum between two ends: golden section search.
fn golden(mut low: f64, mut high: f64, f: impl Fn(f64) -> Fit) -> Fit {
    const SECTION: f64 = 0.618_033_988_749_894_9;
    let (mut left, mut right) = (high - SECTION * (high - low), low + SECTION * (high - low));
    let (mut at_left, mut at_right) = (f(left), f(right));
    for _ in 0..26 {
        if at_left.chi2 <= at_right.chi2 {
            high = right;
            (right, at_right) = (left, at_left);
            left = high - SECTION * (high - low);
            at_left = f(left);
        } else {
            low = left;
            (left, at_left) = (right, at_right);
            right = low + SECTION * (high - low);
            at_right = f(right);
        }
    }
    if at_left.chi2 <= at_right.chi2 { at_left } else { at_right }
}
