//! A bracketed root of one variable.

/// Where `f` changes sign between `a` and `b`, to `tolerance` in the variable; `None` where it does not, or
/// where `f` fails.
///
/// Source: R. P. Brent, Algorithms for Minimization without Derivatives, 1973, chapter 4.
pub(crate) fn brent(
    mut a: f64,
    mut b: f64,
    tolerance: f64,
    mut f: impl FnMut(f64) -> Option<f64>,
) -> Option<f64> {
    let (mut fa, mut fb) = (f(a)?, f(b)?);
    if fa == 0.0 {
        return Some(a);
    }
    if fa * fb > 0.0 {
        return None;
    }
    let (mut c, mut fc) = (a, fa);
    let (mut d, mut e) = (b - a, b - a);
    for _ in 0..100 {
        if fb * fc > 0.0 {
            (c, fc) = (a, fa);
            d = b - a;
            e = d;
        }
        if fc.abs() < fb.abs() {
            (a, fa) = (b, fb);
            (b, fb) = (c, fc);
            (c, fc) = (a, fa);
        }
        let least = 2.0 * f64::EPSILON * b.abs() + 0.5 * tolerance;
        let middle = 0.5 * (c - b);
        if middle.abs() <= least || fb == 0.0 {
            return Some(b);
        }
        if e.abs() < least || fa.abs() <= fb.abs() {
            d = middle;
            e = d;
        } else {
            let s = fb / fa;
            let (mut p, mut q) = if a == c {
                (2.0 * middle * s, 1.0 - s)
            } else {
                let (q, r) = (fa / fc, fb / fc);
                (s * (2.0 * middle * q * (q - r) - (b - a) * (r - 1.0)), (q - 1.0) * (r - 1.0) * (s - 1.0))
            };
            if p > 0.0 {
                q = -q;
            } else {
                p = -p;
            }
            if 2.0 * p < (3.0 * middle * q - (least * q).abs()).min((e * q).abs()) {
                e = d;
                d = p / q;
            } else {
                d = middle;
                e = d;
            }
        }
        (a, fa) = (b, fb);
        b += if d.abs() > least { d } else { least.copysign(middle) };
        fb = f(b)?;
    }
    None
}
