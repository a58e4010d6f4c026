//! Student's t distribution, for any positive degrees of freedom.

use super::normal;

/// Above so many degrees of freedom the distribution is the normal one with Fisher's corrections.
const NEARLY_NORMAL: f64 = 1e5;

/// The probability of a value at or below `t`, with `nu` > 0 degrees of freedom (infinity: the normal).
///
/// # Source
/// Incomplete beta function by its continued fraction: NIST Digital Library of Mathematical Functions, 8.17.22,
/// evaluated by Lentz's method. Above 10⁵ degrees of freedom, R. A. Fisher's expansion (Metron 5 (1925) 109–112).
/// # Accuracy
/// 1e-13; the tests hold it to scipy within 1e-12.
pub(crate) fn cdf(t: f64, nu: f64) -> f64 {
    if nu.is_infinite() {
        return normal::cdf(t);
    }
    let tail = upper_tail(t.abs(), nu);
    if t > 0.0 { 1.0 - tail } else { tail }
}

/// 1 − F(t) for t ≥ 0.
fn upper_tail(t: f64, nu: f64) -> f64 {
    if nu > NEARLY_NORMAL {
        return fisher(t, nu);
    }
    let square = t * t;
    if square.is_infinite() {
        return 0.0;
    }
    // I_y(ν/2, ½) with y = ν/(ν + t²), or one minus I_(1−y)(½, ν/2), whichever fraction converges.
    let half = 0.5 * nu;
    let y = nu / (nu + square);
    let rest = square / (nu + square);
    // y^(ν/2) · √(1−y) / B(ν/2, ½), in which B(ν/2, ½) = √π / gamma_ratio(ν/2)
    let front =
        (-half * (square / nu).ln_1p()).exp() * rest.sqrt() * gamma_ratio(half) / std::f64::consts::PI.sqrt();
    if y < (half + 1.0) / (half + 2.5) {
        0.5 * front * fraction(half, 0.5, y) / half
    } else {
        0.5 * (1.0 - front * fraction(0.5, half, rest) / 0.5)
    }
}

/// Γ(a + ½)/Γ(a): the asymptotic series (NIST DLMF 5.11.13) above 30, reached by Γ(a + 1) = a·Γ(a).
fn gamma_ratio(a: f64) -> f64 {
    let mut shift = 1.0;
    let mut a = a;
    while a < 30.0 {
        shift *= a / (a + 0.5);
        a += 1.0;
    }
    let x = 1.0 / a;
    let series = 1.0
        + x * (-1.0 / 8.0
            + x * (1.0 / 128.0
                + x * (5.0 / 1024.0
                    + x * (-21.0 / 32_768.0
                        + x * (-399.0 / 262_144.0
                            + x * (869.0 / 4_194_304.0 + x * (39_325.0 / 33_554_432.0)))))));
    shift * a.sqrt() * series
}

/// The continued fraction of the incomplete beta function, by the modified Lentz method.
fn fraction(a: f64, b: f64, x: f64) -> f64 {
    const TINY: f64 = 1e-300;
    let keep = |value: f64| if value.abs() < TINY { TINY } else { value };
    let mut c = 1.0;
    let mut d = 1.0 / keep(1.0 - (a + b) * x / (a + 1.0));
    let mut product = d;
    for step in 1..2000 {
        let m = f64::from(step);
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        d = 1.0 / keep(1.0 + even * d);
        c = keep(1.0 + even / c);
        product *= d * c;
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        d = 1.0 / keep(1.0 + odd * d);
        c = keep(1.0 + odd / c);
        let change = d * c;
        product *= change;
        if (change - 1.0).abs() < 1e-16 {
            break;
        }
    }
    product
}

/// 1 − F(t) by Fisher's expansion about the normal distribution, to ν⁻³.
fn fisher(t: f64, nu: f64) -> f64 {
    let s = t * t;
    let first = t * (s + 1.0) / 4.0;
    let second = t * (((3.0 * s - 7.0) * s - 5.0) * s - 3.0) / 96.0;
    let third = t * (((((s - 11.0) * s + 14.0) * s + 6.0) * s - 3.0) * s - 15.0) / 384.0;
    let correction = normal::density(t) * ((third / nu + second) / nu + first) / nu;
    let correction = if correction.is_finite() { correction } else { 0.0 };
    (normal::cdf(-t) + correction).clamp(0.0, 1.0)
}

/// The value that is not exceeded with probability `p` between 0 and 1; NaN outside.
///
/// # Source
/// Newton's method on [`cdf`], kept inside a bracket by bisection.
/// # Accuracy
/// That of [`cdf`]; the tests hold it to scipy within 1e-12.
pub(crate) fn quantile(p: f64, nu: f64) -> f64 {
    if nu.is_infinite() {
        return normal::quantile(p);
    }
    if p < 0.5 { -quantile_of_tail(p, nu) } else { quantile_of_tail(1.0 - p, nu) }
}

/// The value that is exceeded with probability `beyond`, from 0 to ½; NaN elsewhere. Exact in far tails.
pub(crate) fn quantile_of_tail(beyond: f64, nu: f64) -> f64 {
    if nu.is_infinite() {
        return -normal::quantile(beyond);
    }
    if !(beyond > 0.0 && beyond <= 0.5 && nu > 0.0) {
        return if beyond == 0.0 { f64::INFINITY } else { f64::NAN };
    }
    let (mut low, mut high) = (0.0, 1.0);
    while upper_tail(high, nu) > beyond && high < 1e300 {
        low = high;
        high *= 2.0;
    }
    let mut t = (-normal::quantile(beyond)).clamp(low, high);
    for _ in 0..200 {
        let excess = beyond - upper_tail(t, nu);
        if excess > 0.0 {
            high = t;
        } else {
            low = t;
        }
        let newton = t - excess / density(t, nu);
        let next = if newton > low && newton < high { newton } else { 0.5 * (low + high) };
        if (next - t).abs() <= 1e-16 * t.abs() {
            return next;
        }
        t = next;
    }
    t
}

fn density(t: f64, nu: f64) -> f64 {
    if nu > NEARLY_NORMAL {
        return normal::density(t);
    }
    gamma_ratio(0.5 * nu) / (nu * std::f64::consts::PI).sqrt()
        * (-0.5 * (nu + 1.0) * (t * t / nu).ln_1p()).exp()
}
